"""What is put on and between the trusses, from above: bracing, strings, framing, and what stands out of true."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping

from trainer.layout.model import Part
from trainer.picture.as_built import lying
from trainer.picture.falling import down, uppermost_last
from trainer.picture.fitted import pieces
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.solids import Solid
from trainer.picture.struts import Strut
from trainer.picture.timbers import RUNS
from trainer.picture.trusses import FILLS, strip
from trainer.plan import Point
from trainer.site.fastening import BRACKETS
from trainer.site.model import Fitted, Site

FOOT = 70.0
"""Half the length of the foot under a prop, mm."""
ASIDE = 300.0
"""How far beside its foot it is said what a brace is fixed to, mm."""
SAID_PX = 13.0
"""Size of what a brace is said to be fixed to, px."""
SHOWN = 1.5
"""A top that is out by more than this, px, is drawn beside its truss."""


def bracing(struts: Iterable[Strut]) -> Iterator[Item]:
    """Return bracing and strings from above; what ends on no truss has a foot there."""
    for strut in struts:
        role, wide, dash = RUNS[strut.run]
        a, b = strut.a[:2], strut.b[:2]
        yield Line((a, b), role, wide, "px", dash)
        if strut.to:
            length = math.dist(a, b) or 1.0
            nx, ny = -(b[1] - a[1]) / length * FOOT, (b[0] - a[0]) / length * FOOT
            yield Line(((b[0] - nx, b[1] - ny), (b[0] + nx, b[1] + ny)), role, wide + 1.0)


def fixed_to(site: Site, struts: Iterable[Strut]) -> Iterator[Item]:
    """Return what the brace put on last ends on, in words at its foot."""
    last = site.bracing[-1].tags if site.bracing else ()
    for strut in struts:
        if strut.to and strut.of[0] in last:
            (ax, ay), (x, y) = strut.a[:2], strut.b[:2]
            length = math.dist((ax, ay), (x, y)) or 1.0
            nx, ny = -(y - ay) / length * ASIDE, (x - ax) / length * ASIDE
            yield Text((x + nx, y + ny), strut.to, "ink", SAID_PX, "px", ground="paper",
                       places=((x - nx, y - ny),), spare=True)  # fmt: skip


def out_of_true(solid: Solid, scale: float) -> Iterator[Item]:
    """Return the upper edge of a truss that leans or is bowed, where it really is.

    ``scale`` is in px per mm: what could not be told from its truss is left out.
    """
    runs = sorted({0.0, solid.member.span / 2, solid.member.span, *(r for r, _z in solid.framed.frame.top)})
    top = tuple(solid.top(run)[:2] for run in runs)
    true = (math.dist(place, _level(solid, run)) * scale <= SHOWN for place, run in zip(top, runs, strict=True))
    if not all(true):
        yield Line(top, "ink", 0.8, "px", (5.0, 3.0))


def fallen(site: Site, solids: Mapping[str, Solid]) -> Iterator[Item]:
    """Return what lies where it fell, all of its timbers and the uppermost truss last; jagged over what was struck."""
    for tag in uppermost_last(site):
        fill = FILLS.get(solids[tag].member.kind, "timber")
        for timber in solids[tag].framed.timbers:
            yield Polygon(tuple(solids[tag].at(run, z)[:2] for run, z in timber.outline), fill, "timber_edge")
    for one in site.fall.lying.values() if site.fall else ():
        if one.struck:
            yield Line(tuple(place[:2] for place in solids[one.tag].jags), "stop", 2.4)


def _level(solid: Solid, run: float) -> Point:
    (x, y), (ux, uy) = solid.start, solid.unit
    return x + ux * run, y + uy * run


def framing(site: Site) -> Iterator[Item]:
    """Return what is fitted that is not a bracket: outriggers, verge rafters, studs, trimmers, packers, battens."""
    thickness = site.layout.house.trusses.thickness
    fell = down(site)
    for tag, fitted in site.fitted.items():
        for one in fitted if tag not in fell else ():
            lies = pieces(site, tag, one)
            yield from (Polygon(_shape(part, thickness), "paper", "timber_edge", 1.2) for part in lies)
            if not lies and one.part not in BRACKETS and tag in site.stood:
                yield from _piece(site, tag, one)


def _piece(site: Site, tag: str, fitted: Fitted) -> Iterator[Item]:
    """Return a short piece on a truss, where it was put; plies that are joined as a row of fasteners."""
    lies, wide = lying(site.stood[tag]), site.layout.by_tag[tag].width
    if fitted.part == "plies joined":
        for share in range(1, 8):
            run = lies.length * share / 8
            yield Polygon(strip(lies.at(run - 12), lies.at(run + 12), 24), "fastener")
    elif fitted.at is not None:
        yield Polygon(strip(lies.at(fitted.at - 60), lies.at(fitted.at + 60), wide + 50), "paper", "timber_edge", 1.2)


def _shape(part: Part, thickness: float) -> tuple[Point, ...]:
    (x, y), finish = part.start, part.finish
    if (x, y) == finish:
        return strip((x - thickness / 2, y), (x + thickness / 2, y), thickness)
    return strip((x, y), finish, thickness)
