"""How far apart two neighbours stand, and how far apart they may."""

from __future__ import annotations

from trainer.layout.bays import Bay
from trainer.rules.moved import moved
from trainer.site import Job, Site

MORE = 0.1
"""A truss takes half of what a bay is wider. This share of the spacing gives each a twentieth more roof than it was
made for; common practice, no source."""


def gap_of(site: Site, bay: Bay) -> float:
    """Return the gap of a bay whose two trusses stand, as it stands, mm."""
    i = 0 if bay.axis == "x" else 1
    shifts = [
        moved(site.stood[site.at_place[place]], site.layout.by_tag[place])[end - 1][i]
        for place, end in ((bay.first, bay.ends[0]), (bay.second, bay.ends[1]))
    ]
    return bay.gap + shifts[1] - shifts[0]


def widest_gap_of(job: Job, bay: Bay) -> float:
    """Return the widest that a bay may be, mm; beside the end of a girder the layout itself may leave more."""
    return max(job.layout.house.trusses.spacing, bay.gap)


def far_too_wide(job: Job, bay: Bay) -> float:
    """Return the gap from which on a bay makes the trusses beside it carry much more than they were made for, mm.

    Never less than two trusses can leave between them that are both within the tolerance.
    """
    most = widest_gap_of(job, bay)
    return max(most * (1 + MORE), most + 2 * job.station_tolerance)
