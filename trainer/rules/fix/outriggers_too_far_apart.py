"""Outriggers further apart than the level allows."""

from __future__ import annotations

from trainer.rules.framing import gables_asking
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.load_path import parts_on
from trainer.site.verge import outrigger_gap
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got} with no outrigger. Wanted: {want}."),
    why=_("The verge rafter spans from one outrigger to the next. Too far apart, it sags."),
    fix=_("Add outriggers, so that no gap is more than the job sheet says."),
    safety=_("Work from a guarded platform or scaffold at the gable. Never lean out over the verge."),
    source=LEVEL,
)
def outriggers_too_far_apart(before: Site, event: Event, after: Site) -> Finds:
    """A gable is handed over with a stretch of slope longer than the spacing and no outrigger on it."""
    most = after.layout.house.trusses.spacing
    for place, tag, cause in gables_asking(after, "outrigger"):
        pieces = parts_on(after, place, "outrigger")
        if pieces and (gap := outrigger_gap(after, place, pieces)) > most + after.job.station_tolerance:
            yield Found(tag, mm(gap, most), _("no more than {most}").format(most=mm(most)), cause)
