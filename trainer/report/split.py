"""A drawing too large for one sheet, split: what each sheet shows, what of that is its own, and where it is named."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from trainer.picture.lettering import meet
from trainer.picture.model import Box
from trainer.plan import Point

LEFT, BELOW, RIGHT, ABOVE = range(4)
"""The sides of a box, in the order of its numbers."""
STEPS = 20
"""So many places either side of the middle are tried for an edge."""
SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)
"""Where across and up a sheet's part of a key plan its number may stand."""


def windows(box: Box, wide: float, tall: float, overlap: float) -> Iterator[Box]:
    """Yield the windows over a box, row by row from its top, each as large as a sheet, overlapping evenly."""
    x0, y0, x1, y1 = box
    across, down = (_count(length, room, overlap) for length, room in ((x1 - x0, wide), (y1 - y0, tall)))
    for row in range(down):
        top = y1 - row * (y1 - y0 - tall) / (down - 1) if down > 1 else (y0 + y1 + tall) / 2
        for column in range(across):
            left = x0 + column * (x1 - x0 - wide) / (across - 1) if across > 1 else (x0 + x1 - wide) / 2
            yield left, top - tall, left + wide, top


def _count(length: float, room: float, overlap: float) -> int:
    return 1 if length <= room else math.ceil((length - overlap) / (room - overlap))


def cells(sheets: Sequence[Box], texts: Sequence[Box]) -> tuple[Box, ...]:
    """Return what of the plan is each sheet's own: up to an edge near the middle of what it shows with the next one.

    An edge goes where it crosses the fewest ``texts``.
    """
    sides = [list(sheet) for sheet in sheets]
    for low in (0, 1):
        starts = sorted({sheet[low] for sheet in sheets})
        for start, after in pairwise(starts):
            end = start + sheets[0][low + 2] - sheets[0][low]
            cut = _edge(after, end, after - start, [(text[low], text[low + 2]) for text in texts])
            for sheet, own in zip(sheets, sides, strict=True):
                if sheet[low] == start:
                    own[low + 2] = cut
                if sheet[low] == after:
                    own[low] = cut
    return tuple((a, b, c, d) for a, b, c, d in sides)


def _edge(low: float, high: float, step: float, spans: Sequence[tuple[float, float]]) -> float:
    """Return where between two places an edge crosses the fewest spans, as near the middle as that allows."""
    middle, reach = (low + high) / 2, min((high - low) * 0.4, step / 4)
    places = [middle + reach * k / STEPS for k in range(-STEPS, STEPS + 1)]
    return min(places, key=lambda at: (sum(a < at < b for a, b in spans), abs(at - middle)))


def neighbours(sheets: Sequence[Box], sheet: Box) -> Iterator[tuple[int, int]]:
    """Yield the sheets next to one: the side that each goes on from, and its number from 1."""
    for low in (0, 1):
        beside = [other for other in sheets if other[1 - low] == sheet[1 - low]]
        before = [other for other in beside if other[low] < sheet[low] < other[low + 2]]
        after = [other for other in beside if sheet[low] < other[low] < sheet[low + 2]]
        if before:
            yield low, 1 + sheets.index(max(before))
        if after:
            yield low + 2, 1 + sheets.index(min(after))


def name_place(
    side: int, own: Box, sheet: Box, size: tuple[float, float], gap: float, taken: Sequence[Box],
    drawn: Sequence[Box] = (),
) -> Box:  # fmt: skip
    """Return where beyond an edge a name of this ``size`` stands.

    It is clear of what is ``taken`` where it can be, and then over as little as may be of what is ``drawn``.
    """
    wide, tall = size
    x0, y0, x1, y1 = sheet
    along = [
        k * gap for k in range(1, 1 + int(((y1 - y0 - tall) if side in (LEFT, RIGHT) else (x1 - x0 - wide)) / gap))
    ]
    places: list[Box] = []
    for at in along:
        if side in (LEFT, RIGHT):
            left = own[LEFT] - gap - wide if side == LEFT else own[RIGHT] + gap
            places.append((left, y1 - at - tall, left + wide, y1 - at))
        else:
            low = own[BELOW] - gap - tall if side == BELOW else own[ABOVE] + gap
            places.append((x1 - at - wide, low, x1 - at, low + tall))
    free = [place for place in places if not any(meet(place, box) for box in taken)] or places[:1]
    return min(free, key=lambda place: sum(meet(place, box) for box in drawn))


def number_place(cell: Box, outline: Sequence[Point], size: float) -> Point:
    """Return the middle of a number, ``size`` wide and high, in a sheet's part of a key plan: clear of the outline."""
    x0, y0, x1, y1 = cell
    places = [(x0 + (x1 - x0) * across, y0 + (y1 - y0) * up) for up in SHARES for across in SHARES]
    walls = [
        (min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)) for (ax, ay), (bx, by) in pairwise([*outline, outline[0]])
    ]
    half = size / 2
    clear = ((x, y) for x, y in places if not any(meet((x - half, y - half, x + half, y + half), w) for w in walls))
    return next(clear, places[0])
