"""The largest rectangles that fit in a plate plan, and the roof each would have by itself."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from trainer.plan import Plan, Wall

Axis = Literal["x", "y"]
Rect = tuple[float, float, float, float]
"""(least x, least y, greatest x, greatest y), mm."""
Profile = tuple[tuple[float, float], ...]
"""A roof line in units of distance: (along, d) pairs, where ``d`` is the distance to the outside, mm."""

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


def grid(plan: Plan) -> Grid:
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
    """A largest rectangle with its roof. ``gables``: whether the (west, south, east, north) side is one.

    ``dutch`` are how far in from each side the girder of a dutch gable stands, endless where there is none: from
    there on the side is a gable to the roof.
    """

    rect: Rect
    gables: tuple[bool, bool, bool, bool]
    dutch: tuple[float, float, float, float] = NO_DUTCH
    axis: Axis = field(init=False)
    """Which way the ridge runs: along the longer side, a gable counting as infinitely far off.

    In a square, towards a dutch gable.
    """

    def __post_init__(self) -> None:
        x0, y0, x1, y1 = self.rect
        along_x = math.inf if self.gables[0] or self.gables[2] else x1 - x0
        along_y = math.inf if self.gables[1] or self.gables[3] else y1 - y0
        towards_y = along_x == along_y and min(self.dutch[1], self.dutch[3]) < min(self.dutch[0], self.dutch[2])
        object.__setattr__(self, "axis", "y" if along_x < along_y or towards_y else "x")

    @property
    def span(self) -> float:
        """Size across the ridge, mm."""
        x0, y0, x1, y1 = self.rect
        return y1 - y0 if self.axis == "x" else x1 - x0

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
        """Distance of a place to this rectangle's own outside, mm; negative beyond it. A gable is no outside."""
        sides = (x - self.rect[0], y - self.rect[1], self.rect[2] - x, self.rect[3] - y)
        return min((far for side, far in enumerate(sides) if self._rises(side, far)), default=math.inf)

    def reach(self, axis: Axis, at: float) -> float:
        """Least distance from the line ``at`` across ``axis`` to the hipped sides that lie along ``axis``'s ends."""
        first, last = (0, 2) if axis == "x" else (1, 3)
        ends = [(side, abs(at - self.rect[side])) for side in (first, last)]
        return min((far for side, far in ends if self._rises(side, far)), default=math.inf)

    def _rises(self, side: int, far: float) -> bool:
        """Whether this side's plane is over places ``far`` in: a gable has none, a dutch gable one up to its girder."""
        return not self.gables[side] and far < self.dutch[side]


def roof_rects(plan: Plan, cells: Grid) -> list[RoofRect]:
    """The plan's largest rectangles, each with the gables that its sides lie on."""
    gables = [wall for wall in plan.walls if wall.gable]
    dutch = [(plan.by_name[gable.wall], gable.at) for gable in plan.dutch_gables]
    found = []
    for rect in largest_rectangles(cells):
        flags = [False, False, False, False]
        girders = list(NO_DUTCH)
        for wall in gables:
            if (side := _side(rect, wall)) is not None:
                flags[side] = True
        for wall, at in dutch:
            if (side := _side(rect, wall)) is not None:
                girders[side] = at
        found.append(RoofRect(rect, (flags[0], flags[1], flags[2], flags[3]), tuple(girders)))  # type: ignore[arg-type]
    return found


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
        first = -math.inf if r.gables[low] or start - r.rect[low] >= r.dutch[low] else r.rect[low]
        last = math.inf if r.gables[low + 2] or r.rect[low + 2] - stop >= r.dutch[low + 2] else r.rect[low + 2]
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
