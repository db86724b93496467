"""How much room a text takes, reckoned without a font at hand.

Advance widths of Source Sans Pro Semibold in thousandths of its em, as its font file gives them; the
regular weight is narrower, so that what is placed with these never turns out wider. They are here so
that the pure core can keep labels apart; painters draw with the font itself.
"""

from __future__ import annotations

import math

from trainer.picture.model import Box, Text

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


def wrapped(text: str, size: float, width: float) -> list[str]:
    """Return the text broken at spaces into lines no wider than ``width``, in the unit of ``size``."""
    lines: list[str] = []
    for word in text.split():
        if lines and text_width(f"{lines[-1]} {word}", size) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
