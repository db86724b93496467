"""How much room a text takes, reckoned without a font at hand, and which place it gets on a screen.

Advance widths of Source Sans Pro Semibold in thousandths of its em, as its font file gives them; the
regular weight is narrower, so that what is placed with these never turns out wider. They are here so
that the pure core can keep labels apart; painters draw with the font itself.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

from trainer.picture.model import Box, Item, Line, Text

_WIDTHS = (
    (200, ' '), (260, '|'), (280, "',.:;ijl·’"), (300, 'I'), (320, '!f'), (340, '()-[]{}'), (360, '/\\°'),
    (380, 'rt²³'), (440, '*s'), (460, '?z'), (480, 'c–'), (500, '"J_vxy'), (520, '#$+0123456789<=>FLY^aeg~×±'),
    (540, 'EVZk'), (560, 'ASTX`hnou'), (580, 'Cbdpq√'), (600, 'BKPR'), (640, '&DG'), (660, 'NU'), (680, 'HOQ'),
    (760, 'Mw'), (800, 'W—¼'), (820, '¾'), (840, '½'), (860, '%m'), (880, '@'), (980, '…'),
)  # fmt: skip
_WIDTH = {char: width / 1000 for width, chars in _WIDTHS for char in chars}
LEAST_PX, MOST_PX = 12.0, 20.0
"""The smallest lettering of a drawing that is lettered to scale is no smaller and no larger than this at 100 %, px."""
ROW = 1.25
"""From line to line of lettering that moves away, in ems."""
PAD = 0.12
"""What is kept free round a text, in ems."""
SPARE_PAD = 0.45
"""The same round what may be left out: the drawing itself has to be seen between tags."""
CAP_HEIGHT = 0.66
"""Height of capitals and figures, in ems."""
RING = 0.75
"""Radius of the circle round a text that has one, in ems."""


def text_width(text: str, size: float) -> float:
    """Return the width of ``text`` at ``size``, in the unit of ``size``; a character not known counts as wide."""
    return size * sum(_WIDTH.get(char, 0.85) for char in text)


def text_box(text: Text, scale: float = 1.0, pad: float = 0.0) -> Box:
    """Return the level box round a text, mm; ``scale`` (px per mm) is needed for sizes in px; ``pad`` in ems."""
    size = text.size if text.unit == "mm" else text.size / scale
    if text.ring:
        (x, y), round_it = text.at, size * (RING + pad)
        return x - round_it, y - round_it, x + round_it, y + round_it
    half_height = size * (CAP_HEIGHT / 2 + pad)
    width = text_width(text.text, size)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    turn = math.radians(text.turn)
    across, up = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    corners = [
        (text.at[0] + a * across[0] + b * up[0], text.at[1] + a * across[1] + b * up[1])
        for a in (left - size * pad, left + width + size * pad)
        for b in (-half_height, half_height)
    ]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def meet(one: Box, other: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


class _Taken:
    """The boxes that lettering fills already, kept by squares of the paper so that few have to be asked."""

    def __init__(self, square: float) -> None:
        self._square = square
        self._boxes: dict[tuple[int, int], list[Box]] = {}

    def _squares(self, box: Box) -> Iterator[tuple[int, int]]:
        left, low, right, high = (math.floor(side / self._square) for side in box)
        return ((x, y) for x in range(left, right + 1) for y in range(low, high + 1))

    def add(self, box: Box) -> None:
        for square in self._squares(box):
            self._boxes.setdefault(square, []).append(box)

    def free(self, box: Box) -> bool:
        return not any(meet(box, other) for square in self._squares(box) for other in self._boxes.get(square, ()))


def place_texts(items: Iterable[Item], scale: float, letters: float = 1.0) -> list[Item]:
    """Return a display list with every text as large and at the place where it is painted, its size in px.

    This is the one place where the scale of the text, ``letters``, enters a drawing; ``scale`` is in px per mm.
    Lettering in px grows with the text. Lettering to scale is enlarged together, so that the smallest of it can be
    read, and does not outgrow the drawing when one looks closely. Then each text takes the first of its places where
    no other lettering is: those that have but one place first, then the others in their order.
    """
    found = list(items)
    texts = [item for item in found if isinstance(item, Text)]
    if not texts:
        return found
    to_scale = [text.size for text in texts if text.unit == "mm"]
    drawn = min(to_scale) * scale if to_scale else 1.0
    enlarged = scale * max(LEAST_PX * letters, min(MOST_PX * letters, drawn)) / drawn
    sized = [_sized(text, text.size * (enlarged if text.unit == "mm" else letters), scale) for text in texts]
    taken = _Taken(60.0 / scale)
    for text in sized:
        if not _may_move(text):
            taken.add(text_box(text, scale, PAD))
    placed = [_placed(text, taken, scale) if _may_move(text) else (text,) for text in sized]
    # Lines to what moved away lie under all lettering.
    under = [item for parts in placed for item in parts if isinstance(item, Line)]
    over = iter([[item for item in parts if isinstance(item, Text)] for parts in placed])
    first = next(number for number, item in enumerate(found) if isinstance(item, Text))
    rest = [one for item in found[first:] for one in (next(over) if isinstance(item, Text) else (item,))]
    return [*found[:first], *under, *rest]


def _sized(text: Text, size: float, scale: float) -> Text:
    em = size / scale
    right, up = text.off[0] * em, text.off[1] * em
    at, *places = [(x + right, y + up) for x, y in (text.at, *text.places)]
    return replace(text, at=at, places=tuple(places), off=(0.0, 0.0), size=size, unit="px")


def _may_move(text: Text) -> bool:
    return bool(text.places or text.rows or text.spare)


def _placed(text: Text, taken: _Taken, scale: float) -> tuple[Item, ...]:
    """Return a text at the first of its places that is free, with the line that joins it to where it belongs."""
    step = math.copysign(ROW * text.size / scale, text.rows)
    for row in range(abs(text.rows) + 1):
        for x, y in (text.at, *text.places):
            moved = replace(text, at=(x, y + row * step), places=(), rows=0)
            if taken.free(text_box(moved, scale, SPARE_PAD if text.spare else PAD)):
                taken.add(text_box(moved, scale, PAD))
                joined = Line(((x, y), moved.at), text.role, 0.8)
                return (joined, moved) if row else (moved,)
    if text.spare:
        return ()
    taken.add(text_box(text, scale, PAD))
    return (text,)


def lettered(items: Iterable[Item], scale: float, letters: float, box: Box) -> tuple[float, float, float, float]:
    """Return by how much lettering stands out of a box: left, below, right, above; px, at ``scale`` px per mm.

    What belongs to a place outside the box does not count.
    """
    left, low, right, high = box
    inside = [
        item for item in items if isinstance(item, Text) and left <= item.at[0] <= right and low <= item.at[1] <= high
    ]
    boxes = [text_box(text, scale, PAD) for text in place_texts(inside, scale, letters) if isinstance(text, Text)]
    if not boxes:
        return (0.0, 0.0, 0.0, 0.0)
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return (
        max(0.0, box[0] - min(lefts)) * scale, max(0.0, box[1] - min(lows)) * scale,
        max(0.0, max(rights) - box[2]) * scale, max(0.0, max(highs) - box[3]) * scale,
    )  # fmt: skip


def wrapped(text: str, size: float, width: float) -> list[str]:
    """Return the text broken at spaces into lines no wider than ``width``, in the unit of ``size``."""
    lines: list[str] = []
    for word in text.split():
        if lines and text_width(f"{lines[-1]} {word}", size) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
