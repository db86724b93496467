"""A ring round a timber that goes round its tag as well, so that the tag never covers it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from trainer.picture.lettering import PAD, text_box
from trainer.picture.model import Item, Line, Named, Ring, Text
from trainer.picture.taken import Taken, crosses
from trainer.plan import Point

BEYOND = 120.0
"""How far a ring goes past the ends of a timber, mm."""
GAP_PX = 3.0
"""What is kept free between a tag and the ring round it, px."""


def ringed(text: Text, scale: float, alone: Mapping[Named, Text], taken: Taken) -> tuple[Item, ...]:
    """Return the ring of a text, the text where its tag stands already or where there is room, and what it crosses.

    ``alone`` are the tags under it that stand by themselves; ``taken`` is the room of all that is lettered there.
    """
    names, ring = text.names, text.ringed
    assert names is not None and ring is not None
    own = alone.get(names)
    if own is not None:
        placed = replace(text, at=own.at, size=own.size, places=())
    else:
        spots = [replace(text, at=at, places=()) for at in (text.at, *text.places)]
        placed = next((spot for spot in spots if taken.free(text_box(spot, scale, PAD))), spots[0])
    outline = _outline(placed, ring, scale)
    line = Line((*outline, outline[0]), ring.role, ring.stroke, "px", ring.dash)
    # What the ring would strike through is lettered once more, over it.
    struck = [
        other
        for other_names, other in alone.items()
        if other_names != names
        and any(crosses(side, text_box(other, scale)) for side in zip(line.points, outline[1:], strict=False))
    ]
    return (line, *struck, placed) if text.text else (line, *struck)


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
