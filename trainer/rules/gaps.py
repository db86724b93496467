"""How far apart two neighbours stand, and how far apart they may."""

from __future__ import annotations

from trainer.layout.bays import Bay
from trainer.rules.moved import moved
from trainer.site import Site


def gap_of(site: Site, bay: Bay) -> float:
    """Return the gap of a bay whose two trusses stand, as it stands, mm."""
    i = 0 if bay.axis == "x" else 1
    shifts = [
        moved(site.stood[site.at_place[place]], site.layout.by_tag[place])[end - 1][i]
        for place, end in ((bay.first, bay.ends[0]), (bay.second, bay.ends[1]))
    ]
    return bay.gap + shifts[1] - shifts[0]


def widest_gap_of(site: Site, bay: Bay) -> float:
    """Return the widest that a bay may be, mm; beside the end of a girder the layout itself may leave more."""
    return max(site.layout.house.trusses.spacing, bay.gap)
