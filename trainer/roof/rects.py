"""The largest rectangles that fit in a plate plan, and the roof each would have by itself."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from trainer.plan import PlatePlan, Wall

Axis = Literal["x", "y"]
Rect = tuple[float, float, float, float]
"""(least x, least y, greatest x, greatest y), mm."""
Profile = tuple[tuple[float, float], ...]
"""A roof line in units of distance: (along, d) pairs, where ``d`` is the distance to the outside, mm."""
SHORT_RIDGE = 600.0
"""A ridge into a higher wall shorter than this has no full-height truss before the wall: half trusses serve, mm."""

NO_DUTCH = (math.inf, math.inf, math.inf, math.inf)


@dataclass(frozen=True, slots=True)
class Grid:
    """The plan cut along every wall line: ``rows[j]`` has bit ``i`` set where cell (i, j) is inside."""

    xs: tuple[int, ...]
    ys: tuple[int, ...]
    rows: tuple[int, ...]

    def cells(self, rect: Rect) -> Iterator[tuple[int, int]]:
        """Yield (row, bits) of the cells that ``rect`` covers."""
        i0, i1 = self.xs.index(int(rect[0])), self.xs.index(int(rect[2]))
        bits = (1 << i1) - (1 << i0)
        for j in range(self.ys.index(int(rect[1])), self.ys.index(int(rect[3]))):
            yield j, bits


def grid(plan: PlatePlan) -> Grid:
    """Cut the plan into cells along all of its wall lines."""
    xs = tuple(sorted({x for x, _ in plan.outline}))
    ys = tuple(sorted({y for _, y in plan.outline}))
    column = {x: i for i, x in enumerate(xs)}
    rows = []
    for low, high in pairwise(ys):
        bits = 0
        for wall in plan.walls:
            (ax, ay), (_, by) = wall.a, wall.b
            if min(ay, by) <= low and max(ay, by) >= high:
                # Each upright wall turns over every cell to its right; what is left set is inside.
                bits ^= (1 << (len(xs) - 1)) - (1 << column[int(ax)])
        rows.append(bits)
    return Grid(xs, ys, tuple(rows))


def runs(bits: int) -> Iterator[tuple[int, int]]:
    """Yield (first, past the last) of each run of set bits."""
    start = 0
    while bits:
        skip = (bits & -bits).bit_length() - 1
        start, bits = start + skip, bits >> skip
        length = (~bits & (bits + 1)).bit_length() - 1
        yield start, start + length
        start, bits = start + length, bits >> length


def largest_rectangles(cells: Grid) -> list[Rect]:
    """All rectangles inside the plan that no larger rectangle inside it holds."""
    rows, found = (0, *cells.rows, 0), []
    for j0 in range(1, len(rows) - 1):
        common = rows[j0]
        for j1 in range(j0, len(rows) - 1):
            common &= rows[j1]
            if not common:
                break
            for i0, i1 in runs(common):
                bits = (1 << i1) - (1 << i0)
                if rows[j0 - 1] & bits != bits and rows[j1 + 1] & bits != bits:
                    found.append(
                        (float(cells.xs[i0]), float(cells.ys[j0 - 1]), float(cells.xs[i1]), float(cells.ys[j1]))
                    )
    return found


@dataclass(frozen=True, slots=True)
class RoofRect:
    """A largest rectangle with its roof, and which of its (west, south, east, north) sides are gables.

    ``against`` says which are the face of a higher wall. A wing with one along its ridge is half a wing: what it would
    be doubled by its mirror image. ``dutch`` are how far in from each side the girder of a dutch gable stands, endless
    where there is none: from there on the side is a gable to the roof.
    """

    rect: Rect
    gables: tuple[bool, bool, bool, bool]
    against: tuple[bool, bool, bool, bool] = (False, False, False, False)
    dutch: tuple[float, float, float, float] = NO_DUTCH
    steps: tuple[bool, bool, bool, bool] = (False, False, False, False)
    """Which sides are no wall, but lie under another part's gable: the ridge runs to it, and no plane rises there."""
    axis: Axis = field(init=False)
    """Which way the ridge runs: along the longer side, a gable counting as infinitely far off.

    In a square, towards a dutch gable. A rectangle against one higher wall is as long as with its mirror image, and
    one between two endless. A ridge that would run into a wall for less than :data:`SHORT_RIDGE` runs along it.
    """

    def __post_init__(self) -> None:
        along_x, along_y = self._doubled(0), self._doubled(1)
        into_x, into_y = self._into_one(0), self._into_one(1)
        ridge = (max(along_x, along_y) - min(along_x, along_y)) / 2
        towards_y = along_x == along_y and min(self.dutch[1], self.dutch[3]) < min(self.dutch[0], self.dutch[2])
        longer: Axis = "y" if along_x < along_y or towards_y else "x"
        short: Axis = "x" if into_y else "y"
        object.__setattr__(self, "axis", short if ridge < SHORT_RIDGE and into_x != into_y else longer)

    def no_eave(self, side: int) -> bool:
        """Whether no plane rises from a side: heights take it as infinitely far off."""
        return self.gables[side] or self.against[side] or self.steps[side]

    def _doubled(self, low: int) -> float:
        """Size along x (0) or y (1), doubled where one end is against a higher wall."""
        if any(self.gables[side] or self.steps[side] for side in (low, low + 2)):
            return math.inf
        if self.against[low] and self.against[low + 2]:
            return math.inf
        size = self.rect[low + 2] - self.rect[low]
        return 2 * size if self._into_one(low) else size

    def _into_one(self, low: int) -> bool:
        return self.against[low] != self.against[low + 2]

    @property
    def half(self) -> int | None:
        """The side (as in ``against``) that the ridge runs along; None where the wing is a whole one."""
        low = 1 if self.axis == "x" else 0
        return next((side for side in (low, low + 2) if self.against[side]), None)

    @property
    def ridge(self) -> float:
        """Where across it the ridge lies, mm: midway, or at the face of the higher wall that it runs along."""
        low = 1 if self.axis == "x" else 0
        return (self.rect[low] + self.rect[low + 2]) / 2 if self.half is None else self.rect[self.half]

    @property
    def width(self) -> float:
        """Size across the ridge, mm."""
        x0, y0, x1, y1 = self.rect
        return y1 - y0 if self.axis == "x" else x1 - x0

    @property
    def span(self) -> float:
        """Size across the ridge of the whole wing that this is, or is half of, mm."""
        return self.width if self.half is None else 2 * self.width

    @property
    def length(self) -> float:
        """Size along the ridge, mm."""
        x0, y0, x1, y1 = self.rect
        return x1 - x0 if self.axis == "x" else y1 - y0

    def holds(self, x: float, y: float) -> bool:
        """Whether a place lies in it, or on its outside."""
        x0, y0, x1, y1 = self.rect
        return x0 <= x <= x1 and y0 <= y <= y1

    def distance(self, x: float, y: float) -> float:
        """Distance of a place to this rectangle's own outside, mm; negative beyond it. Open sides are no outside."""
        sides = (x - self.rect[0], y - self.rect[1], self.rect[2] - x, self.rect[3] - y)
        return min((far for side, far in enumerate(sides) if self._rises(side, far)), default=math.inf)

    def reach(self, axis: Axis, at: float) -> float:
        """Least distance from the line ``at`` across ``axis`` to the hipped sides that lie along ``axis``'s ends."""
        least = math.inf
        for side in (0, 2) if axis == "x" else (1, 3):
            far = abs(at - self.rect[side])
            if far < least and self._rises(side, far):
                least = far
        return least

    def _rises(self, side: int, far: float) -> bool:
        """Whether this side's plane is over places ``far`` in: a gable has none, a dutch gable one up to its girder."""
        return not self.no_eave(side) and far < self.dutch[side]


def roof_rects(plan: PlatePlan, cells: Grid) -> list[RoofRect]:
    """One part's largest rectangles, each with the gables and the higher walls that its sides lie on."""
    dutch = [(plan.by_name[gable.wall], gable.at) for gable in plan.dutch_gables]
    found = []
    for rect in largest_rectangles(cells):
        gables = _sides(rect, (wall for wall in plan.walls if wall.gable))
        against = _sides(rect, (wall for wall in plan.walls if wall.against))
        steps = _sides(rect, (wall for wall in plan.walls if wall.step))
        girders = list(NO_DUTCH)
        for wall, at in dutch:
            if (side := _side(rect, wall)) is not None:
                girders[side] = at
        found.append(RoofRect(rect, gables, against, (girders[0], girders[1], girders[2], girders[3]), steps))
    return found


def _sides(rect: Rect, walls: Iterable[Wall]) -> tuple[bool, bool, bool, bool]:
    """Which sides of a rectangle lie wholly on one of ``walls``."""
    there = {_side(rect, wall) for wall in walls}
    return 0 in there, 1 in there, 2 in there, 3 in there


def _side(rect: Rect, wall: Wall) -> int | None:
    """Which side of a rectangle (west, south, east, north) lies on a wall; None where none does."""
    side = {(1, 0): 0, (0, 1): 1, (-1, 0): 2, (0, -1): 3}[wall.inward]
    along = 1 - side % 2
    low, high = sorted((wall.a[along], wall.b[along]))
    return side if wall.a[side % 2] == rect[side] and low <= rect[along] and rect[along + 2] <= high else None


def profile(rects: Iterable[RoofRect], along: Axis, at: float, start: float, stop: float) -> Profile:
    """The whole roof along the line ``at`` (which runs along ``along``) from ``start`` to ``stop``.

    Distances to the outside as (along, d) pairs at every bend; exact, since every piece has slope 0 or ±1. No line
    that is asked for runs from a hip end's plane up the face of its dutch gable.
    """
    low, across = (0, 1) if along == "x" else (1, 0)
    shapes: list[tuple[float, float, float]] = []
    for r in rects:
        if not (r.rect[across] <= at <= r.rect[across + 2] and r.rect[low] < stop and r.rect[low + 2] > start):
            continue
        first = -math.inf if r.no_eave(low) or start - r.rect[low] >= r.dutch[low] else r.rect[low]
        last = math.inf if r.no_eave(low + 2) or r.rect[low + 2] - stop >= r.dutch[low + 2] else r.rect[low + 2]
        shapes.append((first, last, r.reach("y" if along == "x" else "x", at)))
    bends = {start, stop}
    for first, last, _ in shapes:
        bends.update((first + other) / 2 for _, other, _ in shapes)
        bends.update((other + last) / 2 for other, _, _ in shapes)
        bends.update(first + top for _, _, top in shapes)
        bends.update(last - top for _, _, top in shapes)
        bends.update((first, last))
    spots = sorted(t for t in bends if start <= t <= stop)
    heights = [(t, max((min(t - a, b - t, top) for a, b, top in shapes), default=0.0)) for t in spots]
    return straighten(heights)


def straighten(points: Sequence[tuple[float, float]]) -> Profile:
    """Drop the points at which the line does not bend (and repeated ones)."""
    kept: list[tuple[float, float]] = []
    for point in points:
        if kept and point == kept[-1]:
            continue
        while len(kept) > 1 and _straight(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return tuple(kept)


def _straight(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    return (b[1] - a[1]) * (c[0] - b[0]) == (c[1] - b[1]) * (b[0] - a[0])
