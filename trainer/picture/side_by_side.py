"""Roofs as they stand on site, side by side, each with its number: what two crews have built."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.picture.as_built import whole_box
from trainer.picture.model import SHEET_SCALE, Box, Group, Item, Picture, Text, shifted
from trainer.picture.still_site import StillSite
from trainer.plan import Point
from trainer.site import Site

GAP = 0.18
"""Room between two roofs, as a share of the wider side of one."""
LETTER_PX = 22.0
"""Size of a roof's number, px."""
NAMES = "1234"


def side_by_side(sites: Sequence[Site], title: str, words: str) -> Picture:
    """Return the plans of some sites of one house in one picture: beside or above each other, as the house is long."""
    layout = sites[0].layout
    left, low, right, high = box = whole_box(layout)
    wide, tall = right - left, high - low
    gap = GAP * max(wide, tall)
    step = (wide + gap, 0.0) if wide <= tall else (0.0, -(tall + gap))
    still = StillSite(layout)
    layers: list[Group] = []
    for n, site in enumerate(sites):
        by = (step[0] * n, step[1] * n)
        items: list[Item] = [shifted(item, by) for item in still.items(site, SHEET_SCALE)]
        if len(sites) > 1:
            at = (left + by[0], high + by[1])
            items.append(Text(at, NAMES[n], "ink", LETTER_PX, "px", bold=True, ground="paper", off=(0.3, 0.7)))
        layers.append(Group(f"roof {n}", tuple(items)))
    return Picture(_all(box, step, len(sites), gap), tuple(layers), title, words)


def _all(box: Box, step: Point, count: int, gap: float) -> Box:
    """The box of all of them, with room above for the first number and round it for the letters of walls."""
    left, low, right, high = box
    room = gap / 2
    return left - room, low + min(0.0, step[1] * (count - 1)) - room, right + step[0] * (count - 1) + room, high + gap
