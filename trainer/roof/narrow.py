"""Narrow recesses between the parts of a roof: there the eaves, or an eave and a verge, end half way.

Each part is solved by itself, and so knows nothing of the other's walls. Over less than two overhangs from wall to wall
each part is cut off in the middle, and round the ends of the two walls where the outside is nearer to the other's. An
eave that runs up to the face of a gable at an inside corner goes on under its verge, also there. Common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, product
from typing import TYPE_CHECKING

from trainer.plan import PlatePlan, Point, Wall, roof_parts

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


@dataclass(frozen=True)
class Past:
    """What lies past halfway for a part's planes; not for those of the walls ``beside`` the other part's wall."""

    shape: BaseGeometry
    beside: frozenset[str]


def past_halfway(part: PlatePlan, whole: PlatePlan, overhang: int) -> list[Past]:
    """Return what of the outside, over narrow recesses, is another part's roof and not this one's."""
    pairs = [pair for pair in _facing(whole, overhang) if part in (pair.one, pair.other)]
    if not pairs:
        return []
    from trainer.roof.eaves import outside_cells  # noqa: PLC0415 - few roofs ask for shapely, and it is slow to load

    nearest = outside_cells(whole.outline, overhang)
    return [_past(pair if pair.one == part else pair.turned, whole, overhang, nearest) for pair in pairs]


def too_short(plan: PlatePlan, overhang: float) -> Point | None:
    """Return where a wall from a gable's line to an inside corner is shorter than its overhang, or None.

    Where the line is that of a gable which stands there itself, the recess before the wall is shared half way.
    """
    for part in roof_parts(plan):
        for wall in part.walls if part is not plan else ():
            recess = wall.length == plan.by_name[wall.name].length if wall.eave else True
            if not recess and wall.length < overhang and _into_a_corner(part, wall):
                return wall.at(wall.length / 2)
    return None


@dataclass(frozen=True)
class _Pair:
    """Walls of two parts that look at each other over less than two overhangs."""

    one: PlatePlan
    wall: Wall
    other: PlatePlan
    facing: Wall

    @property
    def turned(self) -> _Pair:
        return _Pair(self.other, self.facing, self.one, self.wall)


def _facing(plan: PlatePlan, overhang: float) -> Iterator[_Pair]:
    for one, other in combinations(roof_parts(plan), 2):
        for wall, facing in product(_own(plan, one), _own(plan, other)):
            if wall.along == (-facing.along[0], -facing.along[1]) and 0 < _gap(wall, facing) < 2 * overhang:
                first, last = wall.run(facing.b), wall.run(facing.a)
                if first < wall.length + 2 * overhang and last > -2 * overhang:
                    yield _Pair(one, wall, other, facing)


def _gap(wall: Wall, facing: Wall) -> float:
    """How far out from a wall's line another one stands, mm."""
    (x, y), (nx, ny) = wall.a, wall.inward
    return (x - facing.a[0]) * nx + (y - facing.a[1]) * ny


def _own(plan: PlatePlan, part: PlatePlan) -> Iterator[Wall]:
    """A part's walls; of a gable that goes on, those that really stand there."""
    for wall in part.walls:
        if wall.gable:
            yield from (each for each in plan.walls if each.gable and wall.holds(each))
        elif not wall.step:
            yield wall


def _past(pair: _Pair, whole: PlatePlan, overhang: int, nearest: dict[int, BaseGeometry]) -> Past:
    """What is past halfway for the first of two parts: from the middle on, and before the other wall's ends."""
    from shapely import box, union_all  # noqa: PLC0415 - few roofs ask for it, and it is slow to load

    wall, facing = pair.wall, pair.facing
    gap = _gap(wall, facing)
    first, last = max(0.0, wall.run(facing.b)), min(wall.length, wall.run(facing.a))

    def between(start: float, stop: float, near: float, far: float) -> BaseGeometry:
        (ax, ay), (bx, by), (nx, ny) = wall.at(start), wall.at(stop), wall.inward
        xs, ys = (ax - nx * near, bx - nx * far), (ay - ny * near, by - ny * far)
        return box(min(xs), min(ys), max(xs), max(ys))

    own = whole.by_name[facing.name].index
    count = len(whole.walls)
    corners = {(own - 1) % count: own, (own + 1) % count: (own + 1) % count}
    theirs = union_all([nearest[own], *(nearest[side] for side, corner in corners.items() if whole.convex(corner))])
    low, high = min(first, last) - 2 * overhang, max(first, last) + 2 * overhang
    near, far = min(0.0, gap - overhang), max(gap, overhang)
    shape = theirs & between(low, high, near, far)
    if first < last:
        ends = theirs & union_all([between(low, first, near, far), between(last, high, near, far)])
        shape = union_all([between(first, last, gap / 2, far), ends])
    beside = (whole.walls[side].name for side, corner in corners.items() if not whole.convex(corner))
    return Past(shape, frozenset(beside))


def _into_a_corner(part: PlatePlan, wall: Wall) -> bool:
    """Whether a wall runs from the end of a part to an inside corner."""
    after = (wall.index + 1) % len(part.walls)
    first, last = part.walls[wall.index - 1], part.walls[after]
    return (not first.eave and not part.convex(after)) or (not last.eave and not part.convex(wall.index))
