"""What the inspection asks of a truss, and whether it is sound."""

from __future__ import annotations

from trainer.order.inspection import READINGS
from trainer.site.model import Site
from trainer.site.query import end_fixed, half_nailed
from trainer.site.shape import untrue

SPOILT = ("broken web", "loose nailplate", "unwanted tail")
"""What is wrong with a truss itself, however it is stood."""


def measured(site: Site, tag: str) -> bool:
    """Whether all that the inspection reads of a truss has been read."""
    return all((what, tag) in site.readings for what in READINGS.values())


def sound(site: Site, tag: str) -> bool:
    """Whether the standing truss is in its place, the right way round, whole, true, and fastened at both ends."""
    stood = site.stood[tag]
    if stood.place is None or stood.turned or site.cuts.get(tag):
        return False
    if any(flaw.tag == stood.piece and flaw.what in SPOILT for flaw in site.flaws):
        return False
    near = site.job.station_tolerance
    if any(max(abs(off.along), abs(off.across)) > near for off in stood.off) or any(untrue(site, tag)):
        return False
    fixed = all(end_fixed(site, stood.place, end) for end in (1, 2)) and not half_nailed(site, tag)
    return "fix" not in site.job.stages or fixed
