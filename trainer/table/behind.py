"""The wall behind a beam on posts, as at an alfresco: whether one is drawn, and how one is put there.

The layout rules let trusses run from the beam over it to the far wall, and no wall inside carries one. Where a
fabricator's plan has a wall there that does, the house is beyond these rules. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from trainer.table.drawing import CannotDraw, Corner, Drawing, step, twice_area
from trainer.table.wall_acts import PutInside
from trainer.words import _

USUAL, NEAREST, FURTHEST = 3000, 1000, 8000
"""How far behind a beam its wall usually stands, and from where to where it is looked for, mm."""


@dataclass(frozen=True, slots=True)
class _Frame:
    """A wall with a beam, from ``low`` to ``high`` along it; places are (along it, inwards from it), mm."""

    a: Corner
    along: tuple[int, int]
    low: int
    high: int
    length: int

    def of(self, at: Corner) -> Corner:
        (dx, dy), x, y = self.along, at[0] - self.a[0], at[1] - self.a[1]
        return x * dx + y * dy, y * dx - x * dy

    def place(self, run: int, inward: int) -> Corner:
        (dx, dy), (x, y) = self.along, self.a
        return x + dx * run - dy * inward, y + dy * run + dx * inward


def _frame(drawing: Drawing, wall: str) -> _Frame:
    index = drawing.index(wall)
    kind = drawing.walls[index]
    if not kind.beam:
        raise CannotDraw(_("Wall {wall} is no beam on posts.").format(wall=wall))
    a, b = drawing.ends(index)
    low, high = kind.stretch or (0, drawing.length(index))
    return _Frame(a, step(a, b), low, high, drawing.length(index))


def wall_behind(drawing: Drawing, wall: str) -> tuple[int, int] | None:
    """Return the place in the list of the inside wall behind a beam, and how far behind it is, mm; None for none."""
    frame = _frame(drawing, wall)
    found = [
        (here, i) for i, inside in enumerate(drawing.inside) for here in _behind(frame, inside)
    ]  # fmt: skip
    return (min(found)[1], min(found)[0]) if found else None


def _behind(frame: _Frame, inside: tuple[Corner, ...]) -> Iterator[int]:
    """Yield how far behind a beam the parts of an inside wall are that run along most of it."""
    for (a, into), (b, also) in pairwise(map(frame.of, inside)):
        over = min(max(a, b), frame.high) - max(min(a, b), frame.low)
        if into == also and NEAREST <= into <= FURTHEST and over * 2 > frame.high - frame.low:
            yield into


def usual_depth(drawing: Drawing, wall: str) -> int:
    """Return how far behind a beam its wall is put, mm: in line with a corner of the house where there is one."""
    frame = _frame(drawing, wall)
    corners = [into for _run, into in map(frame.of, drawing.corners)]
    near = [into for into in corners if NEAREST <= into < max(corners) and into <= 2 * USUAL]
    room = max(corners) // 2
    return min(near, key=lambda into: abs(into - USUAL), default=min(USUAL, room))


@dataclass(frozen=True, slots=True)
class PutBehind:
    """Put a wall behind a beam, ``depth`` mm from the beam, with its ends where the beam stops short of a corner."""

    wall: str
    depth: int

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that wall inside."""
        frame = _frame(drawing, self.wall)
        places = [frame.place(frame.low, self.depth), frame.place(frame.high, self.depth)]
        if frame.low > 0 or not _goes_in(drawing, self.wall, first=True):
            places.insert(0, frame.place(frame.low, 0))
        if frame.high < frame.length or not _goes_in(drawing, self.wall, first=False):
            places.append(frame.place(frame.high, 0))
        return PutInside(tuple(places)).on(drawing)


def _goes_in(drawing: Drawing, wall: str, *, first: bool) -> bool:
    """Whether the house's own wall runs in from an end of a wall, so that it needs none there."""
    index, corners = drawing.index(wall), drawing.corners
    i = index if first else (index + 1) % len(corners)
    (ax, ay), (bx, by), (cx, cy) = corners[i - 1], corners[i], corners[(i + 1) % len(corners)]
    turn = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
    return turn * twice_area(corners) > 0
