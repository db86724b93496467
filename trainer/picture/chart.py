"""Bars as a display list, so that pages and PDFs draw the same chart. Each bar bears its value: no colour is needed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.picture.lettering import text_width
from trainer.picture.model import Group as Layer
from trainer.picture.model import Item, Line, Picture, Polygon, Text
from trainer.words import _

SIZE = 140.0
"""Height of lettering; as in any drawing, ten of it are a px on a sheet."""
ROW, BAR = 270.0, 170.0
WIDE = 6600.0
GAP = 120.0


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: its label, its value from 0 up, and the value as it is read."""

    label: str
    value: float
    text: str


def bars(rows: Sequence[Bar], title: str) -> Picture:
    """Return horizontal bars, the first on top; ``title`` and the values are its words too."""
    left = max((1.08 * text_width(row.label, SIZE) for row in rows), default=0.0) + GAP
    right = max((1.08 * text_width(row.text, SIZE) for row in rows), default=0.0) + GAP
    longest = max((row.value for row in rows), default=0.0) or 1.0
    room = max(WIDE - left - right, 1500.0)
    items: list[Item] = []
    for n, row in enumerate(rows):
        y = -(n + 0.5) * ROW
        end = left + room * row.value / longest
        items.append(Text((left - GAP, y), row.label, "ink", SIZE, anchor="end"))
        if row.value:
            corners = ((left, y - BAR / 2), (end, y - BAR / 2), (end, y + BAR / 2), (left, y + BAR / 2))
            items.append(Polygon(corners, "mark", "ink", 0.6))
        items.append(Text((end + GAP / 2, y), row.text, "ink", SIZE, anchor="start", bold=True))
    bottom = -max(len(rows), 1) * ROW
    items.append(Line(((left, 0.0), (left, bottom)), "ink", 1.0))
    words = "; ".join(_("{label}: {value}").format(label=row.label, value=row.text) for row in rows)
    return Picture((0.0, bottom - 60.0, left + room + right, 60.0), (Layer("bars", tuple(items)),), title, words)
