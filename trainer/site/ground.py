"""What a truss's end can come down on in this house: plates and trusses, standing or still to stand."""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout import Layout
from trainer.plan import Point

Segment = tuple[Point, Point]


class Ground:
    """The lines of a layout's plates, trusses and trimmers."""

    def __init__(self, layout: Layout) -> None:
        self._plates: list[Segment] = [(wall.a, wall.b) for wall in layout.house.plan.walls]
        self._trusses = {m.tag: (m.start, m.finish) for m in layout.members}
        self._trimmers: list[Segment] = [(p.start, p.finish) for p in layout.parts if p.part == "trimmer"]

    def under(self, at: Point, tag: str, reach: float) -> bool:
        """Whether anything but the truss ``tag`` itself lies within ``reach`` mm of the plan point ``at``."""
        return any(_gap(at, line) <= reach for line in self._lines(tag))

    def _lines(self, but: str) -> Iterator[Segment]:
        yield from self._plates
        yield from (line for tag, line in self._trusses.items() if tag != but)
        yield from self._trimmers


def _gap(at: Point, line: Segment) -> float:
    """Distance from a point to a segment, mm."""
    (ax, ay), (bx, by) = line
    dx, dy = bx - ax, by - ay
    length2 = dx * dx + dy * dy
    t = 0.0 if length2 == 0 else max(0.0, min(1.0, ((at[0] - ax) * dx + (at[1] - ay) * dy) / length2))
    return math.hypot(at[0] - ax - t * dx, at[1] - ay - t * dy)
