"""An internal wall whose top nothing steadies over too long a stretch."""

from __future__ import annotations

from trainer.layout.inner_walls import WallSpot
from trainer.rules.links import cause_of_slot
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site, hard_on, loose_stretches
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("Over an internal wall, {member} has {got}. Wanted: {want}."),
    why=_("Nothing else holds the top of an internal wall straight. A slotted bracket holds it and carries no load."),
    fix=_("Fix slotted brackets along the wall, no further apart than the plan says."),
    safety=_("Work from a platform or a ladder, not from the wall."),
    source=LEVEL,
)
def slotted_bracket_missing(before: Site, event: Event, after: Site) -> Finds:
    """A wall is handed over with a stretch between brackets that is too long; each stretch is told once.

    Something fixed hard there instead is the same thing.
    """
    job = after.job
    for number in range(len(job.inner_walls)) if "fix" in job.stages else ():
        for low, high in loose_stretches(after, number):
            inside = [spot for spot in job.wall_spots if spot.wall == number and low < spot.spot < high]
            here = next((spot for spot in inside if _could_be(after, spot)), None)
            if here is not None:
                hard = (spot for spot in hard_on(after, number) if low < spot < high)
                got = _("no slotted bracket over {length} of it").format(length=mm(high - low))
                want = _("one every {gap} at most").format(gap=mm(after.layout.house.fixings.wall_brackets))
                yield Found(after.at_place[here.tag], got, want, cause_of_slot(number, next(hard, here.spot)))


def _could_be(site: Site, spot: WallSpot) -> bool:
    """Whether the trusses that a bracket needs stand: for a missing one, nothing else is missed."""
    return spot.tag in site.at_place and (not spot.trimmer or spot.other in site.at_place)
