"""A plan seen from one of the four ways that its walls run.

Seen so, ``s`` runs along the walls of interest, the *feet*, and ``h`` runs inward from them. Walls that
face back are *tops*; walls across are *posts*, some closing the view to the left and some to the right.
Everything is a rotation by right angles of whole mm, so that it is exact.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

ALONG: tuple[tuple[int, int], ...] = ((1, 0), (0, 1), (-1, 0), (0, -1))
"""Unit steps along the walls of the four sides."""
Place = tuple[float, float, float]
"""(x, y, d): a place on the plan and its distance to the outside, mm."""
FAR = 4_000_000.0
"""Stands for endless, mm: twenty times what coordinates may be, and still exact when halved and added."""


class Foot(NamedTuple):
    """A wall that a plane rises from, ``left`` to ``right`` in s; ``out_…`` says which ends are outside corners."""

    left: float
    right: float
    wall: int
    out_left: bool
    out_right: bool


class Top(NamedTuple):
    """A wall that faces back to the feet from ``h``: no plane rises further than halfway to it."""

    h: float
    left: float
    right: float
    gable: bool
    wall: int


class CrossWall(NamedTuple):
    """A wall across, at ``s``, from ``low`` to ``high`` in h."""

    s: float
    low: float
    high: float
    gable: bool
    wall: int


@dataclass(frozen=True, slots=True)
class Gap:
    """The free way along the line at ``h`` between two posts, with the feet on it from left to right.

    ``left`` and ``right`` are where the posts stand. A post that is a gable leaves the way open: a roof
    runs on past a gable as if the house did.
    """

    h: float
    left: CrossWall
    right: CrossWall
    feet: list[Foot]


@dataclass(slots=True)
class Side:
    """One view of a plan: its feet by their line, and all else in order of h or of s."""

    turn: tuple[int, int]
    feet: dict[float, list[Foot]]
    tops: list[Top]
    lefts: list[CrossWall]
    rights: list[CrossWall]

    def place(self, spot: tuple[float, float], h: float) -> Place:
        """Return where on the plan a spot (s, d) over the line at ``h`` is; adding 0.0 makes no zero negative."""
        (s, d), (c, n) = spot, self.turn
        h += d
        return (s * c - h * n + 0.0, s * n + h * c + 0.0, d + 0.0)

    def gaps(self) -> Iterator[Gap]:
        """Every gap that has a foot in it."""
        for h, feet in self.feet.items():
            start = 0
            for end, foot in enumerate(feet, start=1):
                right = self._post_right(foot.right, h)
                if end == len(feet) or feet[end].left >= right.s:
                    yield Gap(h, self._post_left(feet[start].left, h), right, feet[start:end])
                    start = end

    def _post_left(self, s: float, h: float) -> CrossWall:
        for i in range(bisect_right(self.lefts, (s, FAR)) - 1, -1, -1):
            post = self.lefts[i]
            if post.low <= h < post.high:
                return post
        return CrossWall(-FAR, -FAR, FAR, False, -1)

    def _post_right(self, s: float, h: float) -> CrossWall:
        for i in range(bisect_left(self.rights, (s,)), len(self.rights)):
            post = self.rights[i]
            if post.low <= h < post.high:
                return post
        return CrossWall(FAR, -FAR, FAR, False, -1)


def sides(corners: Sequence[tuple[int, int]], gables: Collection[int]) -> list[Side]:
    """Return the four views of an anticlockwise outline; ``gables`` are indices of walls, and are no feet.

    A clockwise outline gives the views of the world around it, the outside of its walls taken for the inside.
    """
    count = len(corners)
    ways = [_way(corners[i], corners[(i + 1) % count]) for i in range(count)]
    outside = [(ways[i] - ways[i - 1]) % 4 == 1 for i in range(count)]
    return [_side(k, corners, ways, outside, gables) for k in range(4)]


def _way(a: tuple[int, int], b: tuple[int, int]) -> int:
    if a[1] == b[1]:
        return 0 if b[0] > a[0] else 2
    return 1 if b[1] > a[1] else 3


def _side(
    k: int, corners: Sequence[tuple[int, int]], ways: list[int], outside: list[bool], gables: Collection[int]
) -> Side:
    c, n = ALONG[k]
    turned = [(x * c + y * n, y * c - x * n) for x, y in corners]
    feet: dict[float, list[Foot]] = {}
    tops: list[Top] = []
    lefts: list[CrossWall] = []
    rights: list[CrossWall] = []
    start, h = turned[-1]
    out = outside[-1]
    for i, (s, up) in enumerate(turned, start=-1):  # wall i ends at corner i + 1
        way = (ways[i] - k) % 4
        index = i % len(ways)
        gable = index in gables
        if way == 2:
            tops.append(Top(h, s, start, gable, index))
        elif way == 1:
            rights.append(CrossWall(s, h, up, gable, index))
        elif way == 3:
            lefts.append(CrossWall(s, up, h, gable, index))
        elif not gable:
            feet.setdefault(h, []).append(Foot(start, s, index, out, outside[i + 1]))
        start, h, out = s, up, outside[i + 1]
    tops.sort()
    lefts.sort()
    rights.sort()
    for line in feet.values():
        line.sort()
    return Side(ALONG[k], feet, tops, lefts, rights)
