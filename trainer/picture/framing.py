"""Framing that is not a truss, as timbers in space where the site has it: outriggers, studs, trimmers, packers.

From the judged state: a set of outriggers or studs goes on as far apart, and runs as far back, as it was fitted.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from trainer.layout.model import Layout
from trainer.picture.falling import down
from trainer.picture.fitted import pieces
from trainer.picture.solids import Solid
from trainer.plan import Point
from trainer.roof import distance
from trainer.roof.model import Point3
from trainer.site.model import Fitted, Site

BLOCK, BLOCK_DEEP = 60.0, 45.0
"""Half the length of a packer or a block, and its depth, mm; a look only."""
DEEP = 90.0
"""Depth of trimmers and verge rafters, mm; a look only."""


@dataclass(frozen=True)
class FittedTimber:
    """A straight timber from ``a`` to ``b``, the middle of its upper edge; ``wide`` across, ``deep`` under that edge.

    ``across`` is the level unit step across it, ``of`` the truss that it is fitted on.
    """

    part: str
    a: Point3
    b: Point3
    wide: float
    deep: float
    across: Point
    of: str

    @cached_property
    def down(self) -> Point3:
        """The unit step from its upper edge into it, square to it."""
        length = math.dist(self.a, self.b) or 1.0
        ux, uy, uz = ((q - p) / length for p, q in zip(self.a, self.b, strict=True))
        sx, sy = self.across
        # Across × along points down where along is level.
        return sy * uz, -sx * uz, sx * uy - sy * ux

    def corners(self, t: float) -> tuple[Point3, Point3, Point3, Point3]:
        """Return its four corners at a part of its length: upper right, upper left, lower left, lower right."""
        x, y, z = ((1 - t) * p + t * q for p, q in zip(self.a, self.b, strict=True))
        (sx, sy), (dx, dy, dz), half = self.across, self.down, self.wide / 2
        upper = [(x + side * sx * half, y + side * sy * half, z) for side in (-1, 1)]
        lower = [(px + dx * self.deep, py + dy * self.deep, pz + dz * self.deep) for px, py, pz in upper]
        return upper[0], upper[1], lower[1], lower[0]


def framing(site: Site, solids: Mapping[str, Solid]) -> Iterator[FittedTimber]:
    """Yield every piece of framing on the trusses that stand."""
    fell = down(site)
    for tag, fitted in site.fitted.items():
        if tag in solids and tag not in fell:
            for one in fitted:
                yield from _fitted(site, solids[tag], one)


def _fitted(site: Site, solid: Solid, one: Fitted) -> Iterator[FittedTimber]:
    """Yield the pieces that something fitted on a truss is."""
    thick, layout = float(site.layout.house.trusses.thickness), site.layout
    parts = pieces(site, solid.tag, one)
    for part in parts:
        if part.part == "gable stud":
            yield _stud(solid, part.start, thick)
        elif part.part == "trimmer":
            a, b = ((*place, solid.framed.base) for place in (part.start, part.finish))
            yield _between(part.part, a, b, (thick, DEEP), solid)
        elif part.top is not None:
            a, b = ((*place, part.top) for place in (part.start, part.finish))
            yield _between(part.part, a, b, (thick, DEEP), solid)
        elif part.part == "verge ladder":  # at the height of the roof that runs on over the girder
            a, b = ((*place, solid.top(solid.nearest_run(place))[2]) for place in (part.start, part.finish))
            yield _between(part.part, a, b, (thick, DEEP), solid)
        else:
            deep = float(layout.house.trusses.outrigger_depth) if part.part == "outrigger" else DEEP
            a, b = (_on_roof(layout, place) for place in (part.start, part.finish))
            yield _between(part.part, a, b, (thick, deep), solid)
    if parts:
        return
    if one.part == "batten":
        a, b = (solid.at(run, solid.framed.base) for run in (0.0, solid.member.span))
        yield _between(one.part, a, b, (2 * thick, thick), solid)
    elif one.at is not None and one.part in {"packer", "trimmer"}:
        a, b = (solid.at(one.at + by, solid.framed.base) for by in (-BLOCK, BLOCK))
        yield _between(one.part, a, b, (solid.member.width + 50.0, BLOCK_DEEP), solid)
    elif one.part == "packer":
        out = (solid.member.width + thick) / 2 * _outward(layout, solid)
        a, b = (solid.at(run, solid.framed.base + DEEP, out) for run in (0.0, solid.member.span))
        yield _between(one.part, a, b, (thick, DEEP), solid)


def _stud(solid: Solid, place: Point, thick: float) -> FittedTimber:
    run = solid.nearest_run(place)
    return _between("gable stud", solid.top(run), solid.at(run, solid.framed.base), (thick, thick), solid)


def _between(part: str, a: Point3, b: Point3, size: tuple[float, float], solid: Solid) -> FittedTimber:
    """Return a timber of a size (wide, deep) between two places; an upright one stands square to its truss."""
    length = math.dist(a[:2], b[:2])
    across = ((a[1] - b[1]) / length, (b[0] - a[0]) / length) if length > 1 else solid.unit
    return FittedTimber(part, a, b, *size, across, solid.tag)


def _on_roof(layout: Layout, place: Point) -> Point3:
    spec = layout.house.roof
    return (*place, spec.heel + distance(layout.house.roof_plan, *place) * spec.slope)


def _outward(layout: Layout, solid: Solid) -> float:
    """Return on which side of a gable truss its gable's wall is: 1 left, -1 right."""
    ux, uy = solid.unit
    middle = solid.at(solid.member.span / 2, 0.0)
    walls = [wall for wall in layout.house.plan.walls if abs(wall.inward[0] * ux + wall.inward[1] * uy) < 0.5]
    wall = min(walls, key=lambda w: math.dist(w.at(w.length / 2), middle[:2]))
    return 1.0 if wall.inward[0] * -uy + wall.inward[1] * ux < 0 else -1.0
