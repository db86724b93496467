"""A ring round a timber that goes round its tag as well, so that the tag never covers it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from trainer.picture.lettering import PAD, text_box
from trainer.picture.model import Item, Line, Named, Ring, Text
from trainer.picture.taken import Taken, crosses
from trainer.plan import Point

BEYOND = 120.0
"""How far a ring goes past the ends of a timber, mm."""
SPOTS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
"""Where else along a timber its tag may stand, as parts of its length."""
PAST = (0.3, 1.2)
"""How far past its ends, in ems."""
GAP_PX = 3.0
"""What is kept free between a tag and the ring round it, px."""


def rings(texts: Sequence[Text], scale: float, alone: Mapping[Named, Text], taken: Taken) -> list[tuple[Item, ...]]:
    """Return for each text its ring, the text where its tag stands already or where there is room, and what it crosses.

    ``alone`` are the tags under it that stand by themselves; ``taken`` is the room of all that is lettered there. No
    tag lies over that of another ring: one that has no room anywhere along its timber is left to its ring alone.
    """
    placed: dict[Named, Text] = {}
    ringed = Taken(60.0 / scale)
    named = {text.names: text for text in texts if text.text and text.names is not None}
    for names, text in sorted(named.items(), key=lambda each: each[0] not in alone):
        own = alone.get(names)
        if own is not None:
            tags = clear = [replace(text, at=own.at, size=own.size, places=())]
        else:
            tags = [replace(text, at=at, places=()) for at in (text.at, *text.places, *_spots(text, names, scale))]
            clear = [tag for tag in tags if ringed.free(text_box(tag, scale, PAD))]
        found = next((tag for tag in clear if taken.free(text_box(tag, scale, PAD))), clear[0] if clear else None)
        if found is not None:
            placed[names] = found
            ringed.add(text_box(found, scale, PAD))
    seen = {names: text for names, text in alone.items() if ringed.free(text_box(text, scale))}
    return [_ringed(text, placed.get(text.names) if text.names else None, scale, seen) for text in texts]


def _spots(text: Text, names: Named, scale: float) -> Iterator[Point]:
    """Yield where else a tag may stand: along its timber, then past its ends."""
    (x, y), (bx, by) = names.start, names.finish
    for share in SPOTS:
        yield (x + (bx - x) * share, y + (by - y) * share)
    left, low, right, high = text_box(text, scale)
    length, em = math.dist(names.start, names.finish) or 1.0, text.size / scale
    ux, uy = (bx - x) / length, (by - y) / length
    reach = BEYOND + (abs(ux) * (right - left) + abs(uy) * (high - low)) / 2
    for past in PAST:
        yield (bx + ux * (reach + past * em), by + uy * (reach + past * em))
        yield (x - ux * (reach + past * em), y - uy * (reach + past * em))


def _ringed(text: Text, tag: Text | None, scale: float, under: Mapping[Named, Text]) -> tuple[Item, ...]:
    """Return the ring of a text, what it strikes through, and the text where its ``tag`` is placed, if it is.

    ``under`` are the tags that can be read under all the rings.
    """
    assert text.ringed is not None
    placed = replace(tag, role=text.role, ground=text.ground) if tag and text.text else replace(text, text="")
    outline = _outline(placed, text.ringed, scale)
    line = Line((*outline, outline[0]), text.ringed.role, text.ringed.stroke, "px", text.ringed.dash)
    # What the ring would strike through is lettered once more, over it.
    struck = [
        other
        for other_names, other in under.items()
        if other_names != text.names
        and any(crosses(side, text_box(other, scale)) for side in zip(line.points, outline[1:], strict=False))
    ]
    return (line, *struck, placed) if placed.text else (line, *struck)


def _outline(text: Text, ring: Ring, scale: float) -> list[Point]:
    """Return the corners of the ring round a timber and the tag that stands on it, mm."""
    names = text.names
    assert names is not None
    (x, y), (bx, by) = names.start, names.finish
    length = math.dist(names.start, names.finish) or 1.0
    ux, uy = (bx - x) / length, (by - y) / length
    left, low, right, high = text_box(text, scale)
    gap = (GAP_PX + ring.stroke / 2) / scale
    wide, tall = (right - left) / 2, (high - low) / 2
    middle = (text.at[0] - x) * ux + (text.at[1] - y) * uy
    aside = abs((text.at[1] - y) * ux - (text.at[0] - x) * uy)
    along, half = abs(ux) * wide + abs(uy) * tall + gap, ring.wide / 2
    bulge = abs(uy) * wide + abs(ux) * tall + gap
    begin, end = -BEYOND, length + BEYOND
    profile = [(begin, half), (end, half)]
    if text.text and aside < half and bulge > half:
        first, last = middle - along, middle + along
        profile = [(first, bulge), (last, bulge)]
        profile = [*([(begin, half), (first, half)] if first > begin else []), *profile]
        profile = [*profile, *([(last, half), (end, half)] if last < end else [])]
    place = [*((s, off) for s, off in profile), *((s, -off) for s, off in reversed(profile))]
    return [(x + ux * s - uy * off, y + uy * s + ux * off) for s, off in place]
