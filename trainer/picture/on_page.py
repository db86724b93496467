"""A drawing for a page of a browser: its lettering and strokes as large as they are to be seen there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from trainer.picture.lettering import PAD, text_box
from trainer.picture.model import Box, Group, Item, Line, Picture, Polygon, Text
from trainer.picture.placing import letter
from trainer.plan import Point

WIDE, HIGH = 800.0, 840.0
"""A drawing of a whole page is lettered for so many px, and printed on A4 its letters are still 7 points."""
OUT = 0.06
"""Lettering that stands out of a picture by no more than this part of it belongs to it."""


def on_page(picture: Picture, wide: float, high: float) -> Picture:
    """Return a picture to be shown ``wide`` px wide, or less so that it is no more than ``high`` px high.

    Every text has its place and is as large as :func:`place_texts` lets it be there; all that was in px is in mm, so
    that it grows with the picture where that is shown larger.
    """
    left, low, right, top = picture.box
    out = OUT * max(right - left, top - low)
    round_it = (left - out, low - out, right + out, top + out)
    items = tuple(placed(picture.items(), page_scale(picture.box, wide, high), round_it))
    boxes = [text_box(item, pad=PAD) for item in items if isinstance(item, Text) and _within(item.at, round_it)]
    x0, y0, x1, y1 = zip(picture.box, *boxes, strict=True)
    return replace(picture, box=(min(x0), min(y0), max(x1), max(y1)), layers=(Group("page", items),))


def page_scale(box: Box, wide: float, high: float) -> float:
    """Return the px for a mm at which a box is no more than ``wide`` and ``high`` px."""
    left, low, right, top = box
    return min(wide / (right - left), high / (top - low))


def placed(items: Iterable[Item], scale: float, within: Box) -> list[Item]:
    """Return a display list for ``scale`` px per mm with its texts at their places and nothing in px.

    What is led out of the drawing stays ``within`` a box.
    """
    return [_to_scale(item, scale) for item in letter(items, scale, within=within).items]


def _within(at: Point, box: Box) -> bool:
    """Whether a text is of the picture, or of a part of the house that is cut off."""
    return box[0] <= at[0] <= box[2] and box[1] <= at[1] <= box[3]


def _to_scale(item: Item, scale: float) -> Item:
    match item:
        case Text(unit="px"):
            return replace(item, size=item.size / scale, unit="mm")
        case Line(unit="px"):
            dash = tuple(length / scale for length in item.dash)
            return replace(item, width=item.width / scale, unit="mm", dash=dash)
        case Polygon(unit="px"):
            return replace(item, width=item.width / scale, unit="mm")
        case _:
            return item
