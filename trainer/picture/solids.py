"""Each truss as it stands in space: where its two ends are, and its lean, bow and apex as the site has them.

Plan, angled view and section are drawn from these, so that what is wrong with a truss shows in all of them. One
that fell lies there.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from trainer.layout import Layout, Member
from trainer.picture.falling import tipping
from trainer.picture.frame import Framed, Framer
from trainer.plan import Point
from trainer.roof.model import Point3
from trainer.site.model import Site
from trainer.site.shape import StandingShape, shape

TRUE = StandingShape(0.0, 0.0, 0.0)
JAGS, JAG = 6, 110.0
"""How many strokes the sign of a struck truss has, and how far each goes, mm."""


MOST_SHOWN = 400.0
"""What is out of true is shown larger only up to this, mm: beyond it everyone can see it."""


def larger(out: float, times: float) -> float:
    """Return how much out of true is shown for what is ``out``, mm; more out is never shown as less."""
    shown = max(abs(out), min(abs(out) * times, MOST_SHOWN))
    return shown if out >= 0 else -shown


@dataclass(frozen=True)
class Solid:
    """One standing truss. ``shape`` is as drawn, mm; ``over`` is how far it has tipped over to its left, radians."""

    tag: str
    framed: Framed
    start: Point
    finish: Point
    shape: StandingShape = TRUE
    over: float = 0.0

    @property
    def member(self) -> Member:
        """A truss made like it, for its kind and measures; its tag may be that of another one alike."""
        return self.framed.member

    @cached_property
    def unit(self) -> tuple[float, float]:
        """The unit step in plan from its ``from`` end to its ``to`` end."""
        (ax, ay), (bx, by) = self.start, self.finish
        length = math.dist(self.start, self.finish) or 1.0
        return ((bx - ax) / length, (by - ay) / length)

    def at(self, run: float, z: float, aside: float = 0.0) -> Point3:
        """Return the place in space of what is ``run`` along it, ``z`` above the plate and ``aside`` to its left."""
        member, form = self.member, self.shape
        share = z / (self.framed.high or 1.0)
        t = min(max(run / (member.span or 1.0), 0.0), 1.0)
        along = run + form.apex * share
        across = aside + form.lean * share + form.bow * 4 * t * (1 - t)
        if self.over:
            # It turns about its foot, and what stood higher comes down to the plates.
            turn, up = self.over, z - self.framed.base
            across, z = (
                across * math.cos(turn) + up * math.sin(turn),
                z * math.cos(turn) - across * math.sin(turn),
            )
        (x, y), (ux, uy) = self.start, self.unit
        return (x + ux * along - uy * across, y + uy * along + ux * across, z)

    def top(self, run: float, aside: float = 0.0) -> Point3:
        """Return the place on its upper edge at a run along it."""
        return self.at(run, self.framed.roof(run), aside)

    @cached_property
    def rim(self) -> tuple[Point3, ...]:
        """Its outline in space, closed."""
        return tuple(self.at(run, z) for run, z in self.framed.rim)

    @cached_property
    def apex(self) -> Point3:
        """Its highest place; of a flat top, the middle of it."""
        first, last = self.framed.peaks
        return self.top((first + min(last, max(self.member.span, first))) / 2)

    @property
    def jags(self) -> tuple[Point3, ...]:
        """The sign on one that was struck: a jagged line over its top."""
        middle = self.member.span / 2
        runs = [middle + JAG * (number - JAGS / 2) for number in range(JAGS + 1)]
        return tuple(self.top(run, JAG if number % 2 else -JAG) for number, run in enumerate(runs))

    def nearest_run(self, place: Point) -> float:
        """Return the run at which it passes nearest to a place of the plan, within its own ends."""
        (x, y), (ux, uy) = self.start, self.unit
        run = (place[0] - x) * ux + (place[1] - y) * uy
        return min(max(run, 0.0), self.member.span)


class Stander:
    """Gives the trusses of a site as they stand; those that have not changed are not worked out again."""

    def __init__(self, layout: Layout) -> None:
        self._framer = Framer(layout)
        self._kept: dict[str, tuple[object, Solid]] = {}

    def solid(self, site: Site, tag: str, times: float = 1.0, over: float = 0.0) -> Solid:
        """Return a standing truss as the site has it; what is out of true is shown ``times`` as large."""
        stood = site.stood[tag]
        form = shape(site, tag)
        key = (stood, form, times, over)
        if tag not in self._kept or self._kept[tag][0] != key:
            # What fell lies as flat as it does: no lean of it is to be seen any more.
            by = 1.0 if over else times
            shown = StandingShape(larger(form.lean, by), larger(form.bow, by), larger(form.apex, by))
            framed = self._framer.of(site.layout.by_tag[stood.piece or tag])
            self._kept[tag] = (key, Solid(tag, framed, stood.start, stood.finish, shown, over))
        return self._kept[tag][1]

    def solids(self, site: Site, times: float = 1.0, share: float = 1.0) -> dict[str, Solid]:
        """Return every standing truss by its tag, and what lies where it fell; ``share`` of its fall is over."""
        over = tipping(site, share)
        return {tag: self.solid(site, tag, times, over.get(tag, 0.0)) for tag in site.stood}

    def framed(self, member: Member) -> Framed:
        """Return the timbers of a truss, standing or not."""
        return self._framer.of(member)
