"""Where a hip comes down past the corner of a girder's end, the girder is cut back to clear it.

A hip stays on its line, and the girder's end still has most of the plate to bear on. Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from trainer.layout.draft import Draft
from trainer.layout.slopes import height_on

ROOT2 = math.sqrt(2.0)
MOST = 0.5
"""Of the plate's width, the most that a girder's end gives up."""


def clear_of_hips(girder: Draft, hips: Iterable[Draft], thickness: float, plate: float) -> None:
    """Cut a girder back where its end's corner would stand in a hip that does not hang on it, by whole mm."""
    width = girder.plies * thickness
    low = 0 if girder.ends[0].at[1] == girder.ends[1].at[1] else 1
    for hip in hips:
        if hip.ends[0].carrier is girder or hip.ends[1].carrier is girder:
            continue
        for i, end in enumerate(girder.ends):
            if not end.wall or end.tail:
                continue
            inward = 1 if girder.ends[1 - i].at[low] > end.at[low] else -1
            back = max(_in_hip(hip, _corner(end.at, low, side * width / 2), low, inward, thickness) for side in (-1, 1))
            if 0 < back <= MOST * plate:
                _cut_back(girder, i, low, inward * float(math.ceil(back)))


def _corner(at: tuple[float, float], low: int, aside: float) -> tuple[float, float]:
    return (at[0], at[1] + aside) if low == 0 else (at[0] + aside, at[1])


def _in_hip(hip: Draft, corner: tuple[float, float], low: int, inward: int, thickness: float) -> float:
    """How far a corner of the end must move along the girder to leave a hip that comes from the end's side; 0: none."""
    (ax, ay), (bx, by) = hip.ends[0].at, hip.ends[1].at
    length = math.hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / length, (by - ay) / length
    along = (corner[0] - ax) * ux + (corner[1] - ay) * uy
    if not 0 < along < length:
        return 0.0
    aside = (corner[0] - ax) * -uy + (corner[1] - ay) * ux
    grows = (-uy if low == 0 else ux) * inward
    return max(0.0, (thickness / 2 - aside * math.copysign(1, grows)) * ROOT2)


def _cut_back(girder: Draft, i: int, low: int, by: float) -> None:
    """Move the end ``i`` by ``by`` mm along x or y; what is left of the roof line stays where it is."""
    end, other = girder.ends[i], girder.ends[1 - i]
    end.at = (end.at[0] + by, end.at[1]) if low == 0 else (end.at[0], end.at[1] + by)
    span, shift = math.dist(end.at, other.at), by if i == 0 else 0.0
    line = [(run - shift, z) for run, z in girder.top]
    cut = 0.0 if i == 0 else span
    inside = [spot for spot in line if (spot[0] > 0 if i == 0 else spot[0] < span)]
    edge = (cut, height_on(line, cut) or 0.0)
    girder.top = (edge, *inside) if i == 0 else (*inside, edge)
    girder.legs = tuple(replace(leg, run=leg.run - shift) for leg in girder.legs)
