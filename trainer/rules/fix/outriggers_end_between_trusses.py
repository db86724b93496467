"""Outriggers whose inner ends hang between two trusses."""

from __future__ import annotations

from trainer.rules.framing import gables_asking
from trainer.rules.plain import mm
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.load_path import parts_on
from trainer.site.verge import between_trusses, far_enough, held_at
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("On {member} the outriggers end {got}. Wanted: {want}."),
    why=_("An inner end has to be fixed down. Between two trusses there is nothing to fix it to."),
    fix=_(
        "Run them on to the centre of the next truss. Or end them at the truss before. That one must stand in at least "
        "as far as they stand out."
    ),
    safety=_("Work from a guarded platform or scaffold at the gable. Never lean out over the verge."),
    source=PRACTICE,
)
def outriggers_end_between_trusses(before: Site, event: Event, after: Site) -> Finds:
    """Outriggers that reach far enough in are handed over with their ends past a truss and short of the next."""
    for place, tag, cause in gables_asking(after, "outrigger"):
        for piece in parts_on(after, place, "outrigger"):
            if far_enough(after, place, piece) and between_trusses(after, place, piece):
                past = (piece.back or 0.0) - held_at(after, place, piece)
                yield Found(tag, _("{past} past a truss").format(past=mm(past)), _("on the centre of a truss"), cause)
                break
