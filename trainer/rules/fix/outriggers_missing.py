"""A gable with no outriggers to carry its verge."""

from __future__ import annotations

from trainer.rules.framing import gables_asking
from trainer.rules.plain import mm
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.load_path import parts_on
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("The verge hangs out past the wall. Only outriggers that cross the gable truss can carry it."),
    fix=_("Lay outriggers over the gable truss. Fix them to it and to the trusses inside."),
    safety=_("Work from a guarded platform or scaffold at the gable. Never lean out over the verge."),
    source=PRACTICE,
)
def outriggers_missing(before: Site, event: Event, after: Site) -> Finds:
    """A gable whose verge overhangs is handed over with no outriggers."""
    for place, tag, cause in gables_asking(after, "outrigger"):
        if not parts_on(after, place, "outrigger"):
            every = mm(after.layout.house.trusses.spacing)
            want = _("outriggers up both slopes, no more than {every} apart")
            if after.layout.by_tag[place].ends[1].on_ledger:  # the other slope would be inside the higher wall
                want = _("outriggers up the slope, no more than {every} apart")
            yield Found(tag, _("no outriggers"), want.format(every=every), cause)
