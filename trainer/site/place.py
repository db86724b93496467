"""Which place of the reference layout a truss takes when it is stood."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.layout import Layout
from trainer.layout.model import Member
from trainer.plan import Point
from trainer.plan.points import middle


@dataclass(frozen=True, slots=True)
class Near:
    """A place within reach: how far off its worse end would be (mm), and whether the truss lies the other way about."""

    tag: str
    distance: float
    flipped: bool


def lies(member: Member, start: Point, finish: Point) -> Near:
    """Measure a truss from ``start`` to ``finish`` against a place, whichever way about is nearer."""
    straight = max(math.dist(start, member.start), math.dist(finish, member.finish))
    flipped = max(math.dist(start, member.finish), math.dist(finish, member.start))
    return Near(member.tag, min(straight, flipped), flipped < straight)


class Places:
    """The places of a layout by where their middles lie; ``reach`` is half a spacing."""

    def __init__(self, layout: Layout) -> None:
        self._cell = float(layout.house.trusses.spacing)
        self.reach = self._cell / 2
        self._by_cell: dict[tuple[int, int], list[Member]] = {}
        for member in layout.members:
            self._by_cell.setdefault(self._cell_of(member.start, member.finish), []).append(member)

    def near(self, start: Point, finish: Point) -> list[Near]:
        """Return every place within reach, nearest first."""
        found = [lies(member, start, finish) for member in self._around(start, finish)]
        return sorted((near for near in found if near.distance <= self.reach), key=lambda near: near.distance)

    def _around(self, start: Point, finish: Point) -> Iterator[Member]:
        i, j = self._cell_of(start, finish)
        for di in (-1, 0, 1):
            for dj in (-1, 0, 1):
                yield from self._by_cell.get((i + di, j + dj), ())

    def _cell_of(self, start: Point, finish: Point) -> tuple[int, int]:
        x, y = middle(start, finish)
        return math.floor(x / self._cell), math.floor(y / self._cell)
