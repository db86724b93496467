"""How large each text of a drawing is painted, and which of its places it gets."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.picture.lettering import LEAST_PX, MOST_PX, PAD, ROW, SPARE_PAD, text_box
from trainer.picture.model import Box, Item, Line, Named, Polygon, Text, shifted_text
from trainer.picture.ringing import rings
from trainer.picture.tag_places import place_tags
from trainer.picture.taken import Taken, crosses

STROKE_PX = 3.0
"""From this thickness on a line would strike through what is lettered under it."""


@dataclass(frozen=True)
class Lettering:
    """A display list whose texts are as large and where they are painted: ``items``, their sizes in px.

    ``alone`` has those tags that stand by themselves, by what they name, ``left_out`` those that have no room;
    ``taken`` is the room that lettering fills.
    """

    items: list[Item]
    alone: dict[Named, Text]
    left_out: tuple[str, ...]
    taken: Taken


def place_texts(items: Iterable[Item], scale: float, letters: float = 1.0) -> list[Item]:
    """Return a display list with every text as large and at the place where it is painted, its size in px."""
    return letter(items, scale, letters).items


def letter(
    items: Iterable[Item], scale: float, letters: float = 1.0, among: Lettering | None = None, within: Box | None = None
) -> Lettering:
    """Give every text of a display list its size and place.

    This is the one place where the scale of the text, ``letters``, enters a drawing; ``scale`` is in px per mm.
    Lettering in px grows with the text. Lettering to scale is enlarged together, so that the smallest of it can be
    read, and does not outgrow the drawing when one looks closely. Then each text takes the first of its places where
    no other lettering is: those that have but one place first, then the others in their order, tags of timbers last.
    Leader lines and what is said of a place stay ``within`` a box. What is ringed keeps the place of its tag ``among``
    the lettering over which this is painted.
    """
    found = list(items)
    texts = [item for item in found if isinstance(item, Text)]
    taken = Taken(60.0 / scale)
    if not texts:
        return Lettering(found, {}, (), taken)
    to_scale = [text.size for text in texts if text.unit == "mm"]
    drawn = min(to_scale) * scale if to_scale else 1.0
    enlarged = scale * max(LEAST_PX * letters, min(MOST_PX * letters, drawn)) / drawn
    sized = [_sized(text, text.size * (enlarged if text.unit == "mm" else letters), scale) for text in texts]
    if within is not None:
        sized = [_in_sight(text, scale, within) for text in sized]
    for text in sized:
        if not _may_move(text):
            taken.add(text_box(text, scale, PAD))
    tags = [text for text in sized if text.names is not None and text.ringed is None]
    round_them = iter(
        rings(
            [text for text in sized if text.ringed is not None], scale,
            among.alone if among else {}, among.taken if among else taken,
        )
    )  # fmt: skip
    placed = [
        next(round_them) if text.ringed is not None
        else () if text.names is not None
        else _placed(text, taken, scale) if _may_move(text)
        else (text,)
        for text in sized
    ]  # fmt: skip
    tagged = place_tags(tags, taken, scale, within)
    waiting = [text.text for text, parts in zip(sized, placed, strict=True) if text.names is None and not parts]
    # Lines to what moved away lie under all lettering.
    under = [item for parts in placed for item in parts if not isinstance(item, Text)]
    over = iter([[item for item in parts if isinstance(item, Text)] for parts in placed])
    first = next(number for number, item in enumerate(found) if isinstance(item, Text))
    rest = [one for item in found[first:] for one in (next(over) if isinstance(item, Text) else (item,))]
    return Lettering([*found[:first], *under, *rest, *tagged.items], tagged.alone, (*waiting, *tagged.left_out), taken)


def _sized(text: Text, size: float, scale: float) -> Text:
    em = size / scale
    right, up = text.off[0] * em, text.off[1] * em
    at, *places = [(x + right, y + up) for x, y in (text.at, *text.places)]
    return replace(text, at=at, places=tuple(places), off=(0.0, 0.0), size=size, unit="px")


def _in_sight(text: Text, scale: float, within: Box) -> Text:
    """Return a text of a place in sight moved aside just so far that all of it is."""
    if text.names is not None or text.turn or not within[0] <= text.at[0] <= within[2]:
        return text
    left, _low, right, _high = text_box(text, scale)
    by = max(0.0, within[0] - left) - max(0.0, right - within[2])
    return shifted_text(text, (by, 0.0)) if by else text


def _may_move(text: Text) -> bool:
    return bool(text.places or text.rows or text.spare or text.names)


def _placed(text: Text, taken: Taken, scale: float) -> tuple[Item, ...]:
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


def over_strokes(items: Iterable[Item], among: Lettering, scale: float) -> list[Item]:
    """Return a display list in which the lettering under it stands once more over each stroke that crosses it.

    A stroke is an open outline, or a straight line of :data:`STROKE_PX` or more.
    """
    found: list[Item] = []
    under: list[tuple[Text, Box]] = []
    for item in items:
        found.append(item)
        outline = isinstance(item, Polygon) and item.fill is None
        straight = isinstance(item, Line) and len(item.points) == 2 and item.unit == "px" and item.width >= STROKE_PX
        if isinstance(item, Text) or not (outline or straight):
            continue
        sides = list(pairwise((*item.points, item.points[0])))
        if not all(among.taken.clear(*side) for side in sides):
            under = under or [(text, text_box(text, scale, PAD)) for text in among.items if isinstance(text, Text)]
            found += [text for text, box in under if any(crosses(side, box) for side in sides)]
    return found


def lettered(items: Iterable[Item], scale: float, letters: float, box: Box) -> tuple[float, float, float, float]:
    """Return by how much lettering stands out of a box: left, below, right, above; px, at ``scale`` px per mm.

    What belongs to a place outside the box does not count, nor do tags: those led away take what room there is.
    """
    left, low, right, high = box
    inside = [
        item
        for item in items
        if isinstance(item, Text) and item.names is None and left <= item.at[0] <= right and low <= item.at[1] <= high
    ]
    boxes = [text_box(text, scale, PAD) for text in place_texts(inside, scale, letters) if isinstance(text, Text)]
    if not boxes:
        return (0.0, 0.0, 0.0, 0.0)
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return (
        max(0.0, box[0] - min(lefts)) * scale, max(0.0, box[1] - min(lows)) * scale,
        max(0.0, max(rights) - box[2]) * scale, max(0.0, max(highs) - box[3]) * scale,
    )  # fmt: skip
