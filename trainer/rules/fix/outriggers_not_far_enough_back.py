"""Outriggers whose inner ends stop short of the next truss."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.rules.framing import gables_asking
from trainer.rules.plain import mm
from trainer.rules.rule import PRACTICE, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.load_path import parts_on
from trainer.site.verge import far_enough, reach
from trainer.words import _


@rule(
    "outriggers-not-far-enough-back",
    stage="fix",
    severity="rework",
    on=HandOver,
    what=_("On {member} the outriggers run {got}. Wanted: {want}."),
    why=_("The verge tips them up. Only an inner end fixed well back holds them down."),
    fix=_("Put in longer ones. Run them to the next truss or further, and fix them there."),
    safety=_("Work from a platform, clear of the gable's edge. Never lean out over the verge."),
    source=PRACTICE,
)
def outriggers_not_far_enough_back(before: Site, event: Event, after: Site) -> Iterator[Found]:
    """A gable is handed over with outriggers that do not reach the next truss of the row."""
    for place, tag, cause in gables_asking(after, "outrigger"):
        short = [piece for piece in parts_on(after, place, "outrigger") if not far_enough(after, place, piece)]
        if short:
            got = _("{back} back from it").format(back=mm(min(piece.back or 0.0 for piece in short)))
            want = _("at least {reach}, to the next truss").format(reach=mm(reach(after, place)))
            yield Found(tag, got, want, cause)
