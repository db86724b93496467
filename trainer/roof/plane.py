"""One plane of a roof: what lies between its walls, its valleys, and the roof's ridges and hips over it.

The height of a roof at a place is the half side of the largest square around it that keeps inside the
walls, times ``tan(pitch)``. A place (s, d) over a line of feet belongs to their plane when the square that
stands on their line, from ``s - d`` to ``s + d`` and up to ``2d``, reaches a foot and holds no other wall.
So a plane lies between two chains with slopes of 0 and ±1 only: the lower is the distance along the line to
the nearest foot, the upper the height at which the square first meets a wall. No events, no tolerance.

A gable is no wall to the square: the way runs on past it, between the walls on either side of it made
endless. That is the same as pushing the gable out by half its width, solving as hipped and cutting the
strip off, but holds as well where a strip pushed out would run into another part of the house. The face of a
higher wall is such an open end too, but nothing runs out past it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection
from itertools import pairwise
from typing import NamedTuple

from trainer.roof.side import FAR, CrossWall, Foot, Gap, Place, Side, Top

Spot = tuple[float, float]
"""(s, d): a place along the line of the feet and its distance inward from it, mm."""


class Plane(NamedTuple):
    """One connected polygon of a plane, anticlockwise, with its feet from left to right."""

    feet: list[Foot]
    polygon: list[Spot]


class Spread(NamedTuple):
    """One connected polygon of a plane on the plan, out to the eave: indices of its walls in order, and its corners."""

    walls: tuple[int, ...]
    ring: list[Place]

    @classmethod
    def of(cls, side: Side, h: float, plane: Plane) -> Spread:
        """Bring a plane over the line at ``h`` of a view back to the plan."""
        return cls(tuple(sorted(foot.wall for foot in plane.feet)), [side.place(spot, h) for spot in plane.polygon])


class GapView:
    """What is seen from one gap: the upper chain over it, and the planes that rise from its feet."""

    def __init__(
        self, gap: Gap, tops: list[Top], verge: float, walls: Collection[int] = (), limit: float = FAR
    ) -> None:
        """Find the upper chain, no higher than ``limit`` and cut ``verge`` past gables, but not past ``walls``.

        ``walls`` are those, by index, that are the face of a higher one. ``open`` then holds the gables and such
        walls, by index, that the planes run up to; ``verges`` is what of these they may run out over.
        """
        self.gap, self.verge, self.walls, self.limit = gap, verge, walls, limit
        self.open = [post.wall for post in (gap.left, gap.right) if post.gable]
        self._tops, first = tops, bisect_right(tops, (gap.h, FAR))
        left = -FAR if gap.left.gable else gap.left.s
        right = FAR if gap.right.gable else gap.right.s
        if self.open:
            self._tops, first = self._run_on(tops[first:]), 0
        self.chain: list[Spot] = [(left, 0.0), *self._corners(left, right, first), (right, 0.0)]
        if self._tops is not tops:
            self.chain = _cut(self.chain, *self._ends())

    def planes(self, overhang: float) -> list[Plane]:
        """Return the planes that rise from the feet, out to an eave that far past the walls."""
        return [Plane(feet, self._outline(feet, overhang)) for feet in self._together()]

    def _run_on(self, tops: list[Top]) -> list[Top]:
        """The tops in the gap, endless where they end at a gable that the way runs on past."""
        low, high = self.gap.left, self.gap.right
        return [
            top._replace(
                left=-FAR if low.gable and top.left <= low.s else top.left,
                right=FAR if high.gable and top.right >= high.s else top.right,
            )
            for top in tops
            if top.left < high.s and top.right > low.s
        ]

    def _ends(self) -> tuple[float, float]:
        low, high = self.gap.left, self.gap.right
        return (low.s - self._past(low) if low.gable else low.s, high.s + self._past(high) if high.gable else high.s)

    def _past(self, wall: CrossWall | Top) -> float:
        """How far past a wall that no plane rises from the others run."""
        return 0.0 if wall.wall in self.walls else self.verge

    @property
    def verges(self) -> list[int]:
        """The gables that the planes may run out over."""
        return [wall for wall in self.open if wall not in self.walls]

    def stops(self, foot: Foot) -> tuple[bool, bool]:
        """Whether a foot's (left, right) end is at the face of a higher wall, so that its eave stops there."""
        low, high = self.gap.left, self.gap.right
        return (
            foot.left == low.s and low.wall in self.walls,
            foot.right == high.s and high.wall in self.walls,
        )

    def _corners(self, left: float, right: float, first: int) -> list[Spot]:
        """Corners of the chain between two posts ``left`` and ``right`` that no top before ``first`` comes between."""
        for i in range(first, len(self._tops)):
            top = self._tops[i]
            depth = top.h - self.gap.h
            if depth >= right - left or depth >= 2 * self.limit:
                break
            if top.left >= right or top.right <= left:
                continue
            if top.gable:
                self.open.append(top.wall)
                return _tent(left, right, depth + self._past(top))
            half = depth / 2
            corners = [(left + half, half)]
            if top.left - left > depth and self._matters(left, top.left):
                corners = [*self._corners(left, top.left, i + 1), (top.left - half, half)]
            if right - top.right > depth and self._matters(top.right, right):
                return [*corners, (top.right + half, half), *self._corners(top.right, right, i + 1)]
            return [*corners, (right - half, half)]
        return _tent(left, right, self.limit)

    def _matters(self, left: float, right: float) -> bool:
        """Whether the way between two posts starts at a foot; elsewhere no plane comes to it."""
        return any(foot.left < right and foot.right > left for foot in self.gap.feet)

    def _together(self) -> list[list[Foot]]:
        """The feet, parted where their plane is: the chain is no higher than where the valleys between meet."""
        groups = [self.gap.feet[:1]]
        for foot in self.gap.feet[1:]:
            last = groups[-1][-1].right
            middle = (last + foot.left) / 2
            if _height(self.chain, middle) > middle - last:
                groups[-1].append(foot)
            else:
                groups.append([foot])
        return groups

    def _outline(self, feet: list[Foot], overhang: float) -> list[Spot]:
        """The polygon, from the eave's left end anticlockwise."""
        lower: list[Spot] = []
        for i, foot in enumerate(feet):
            if i:
                last = feet[i - 1].right
                lower.append(((last + foot.left) / 2, (foot.left - last) / 2))
            past = [0 if stops else overhang for stops in self.stops(foot)]
            lower.append((foot.left - past[0] if foot.out_left else foot.left + overhang, -overhang))
            lower.append((foot.right + past[1] if foot.out_right else foot.right - overhang, -overhang))
        low, high = self._ends()
        left, right = feet[0].left, feet[-1].right
        # Beside a gable, the wall's line runs on under the verge.
        left = low if left == self.gap.left.s else left
        right = high if right == self.gap.right.s else right
        return clean(lower + _upper(self.chain, left, right))


def _upper(chain: list[Spot], left: float, right: float) -> list[Spot]:
    """The chain from right to left, between where it comes down to its distance from ``right`` and from ``left``.

    Where it comes down to neither, it was cut at a gable, and so are the valleys.
    """
    count = len(chain)
    until, start = 0, count - 1
    while until < count and chain[until][1] + right > chain[until][0]:
        until += 1
    while start >= 0 and chain[start][1] + chain[start][0] > left:
        start -= 1
    end = _meet(chain[until - 1], chain[until], right, 1) if until < count else (chain[-1][0], chain[-1][0] - right)
    beginning = _meet(chain[start + 1], chain[start], left, -1) if start >= 0 else (chain[0][0], left - chain[0][0])
    return [end, *reversed(chain[start + 1 : until]), beginning]


def _meet(before: Spot, after: Spot, end: float, way: int) -> Spot:
    """Where the chain, level or falling from one corner to the next, meets the valley that rises from ``end``."""
    s, h = after
    if before[1] == h:
        return (end + way * h, h)
    return ((s + way * h + end) / 2, (way * (s - end) + h) / 2)


def _tent(left: float, right: float, most: float) -> list[Spot]:
    """Corners of a chain that rises from both posts, no higher than ``most``."""
    if right - left > 2 * most:
        return [(left + most, most), (right - most, most)]
    middle = (left + right) / 2
    return [(middle, middle - left)]


def _height(chain: list[Spot], s: float) -> float:
    """Height of a chain at ``s``."""
    for (s0, h0), (s1, h1) in pairwise(chain):
        if s <= s1:
            return h0 if h0 == h1 else h0 + (s - s0 if h1 > h0 else s0 - s)
    return chain[-1][1]


def _cut(chain: list[Spot], low: float, high: float) -> list[Spot]:
    return [
        (low, _height(chain, low)),
        *(spot for spot in chain if low < spot[0] < high),
        (high, _height(chain, high)),
    ]


def clean(polygon: list[Spot]) -> list[Spot]:
    """The polygon without repeated corners and corners on a straight line."""
    spots = [spot for i, spot in enumerate(polygon) if spot != polygon[i - 1]]
    kept = []
    (s0, h0), (s1, h1) = spots[-2], spots[-1]
    for s2, h2 in spots:
        if (s1 - s0) * (h2 - h1) != (h1 - h0) * (s2 - s1):
            kept.append((s1, h1))
        s0, h0, s1, h1 = s1, h1, s2, h2
    return kept
