"""Reading PDFs back by a general library: everything on a page, and how high its letters are."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pdfminer.layout import LTChar, LTContainer, LTCurve, LTPage

CONTRAST = 4.5
"""W3C, WCAG 2.1, criterion 1.4.3."""


def leaves(node: Any) -> Iterator[Any]:
    """Everything on a page that is not made of other things, in the order in which it was painted."""
    if isinstance(node, LTContainer):
        for child in node:
            yield from leaves(child)
    else:
        yield node


def high(char: LTChar) -> float:
    """How high the box of a letter is, points, whichever way it is turned."""
    return float(char.x1 - char.x0 if char.matrix[1] else char.y1 - char.y0)


def luminance(colour: Any) -> float:
    """Relative luminance of a grey or an RGB colour, WCAG 2.1."""
    parts = [float(each) for each in (colour if isinstance(colour, tuple | list) else (colour,))]
    parts = parts * 3 if len(parts) == 1 else parts
    r, g, b = (p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def ground(char: LTChar, fills: list[LTCurve]) -> Any:
    """The colour of the filled box round a letter that was painted last; white where there is none."""
    x, y = (char.x0 + char.x1) / 2, (char.y0 + char.y1) / 2
    round_it = [f for f in fills if f.x0 <= x <= f.x1 and f.y0 <= y <= f.y1]
    return round_it[-1].non_stroking_color if round_it else 1.0


def faint(page: LTPage) -> list[str]:
    """The letters of a page that don't stand out from their ground."""
    found = list(leaves(page))
    fills = [each for each in found if isinstance(each, LTCurve) and each.fill and each.non_stroking_color is not None]
    said = []
    for char in found:
        if isinstance(char, LTChar) and char.graphicstate.ncolor is not None:
            light = sorted((luminance(char.graphicstate.ncolor), luminance(ground(char, fills))))
            if (light[1] + 0.05) / (light[0] + 0.05) < CONTRAST:
                said.append(char.get_text())
    return said
