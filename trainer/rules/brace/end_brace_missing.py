"""No end brace where the level asks for one."""

from __future__ import annotations

from trainer.rules.permanent import left_unserved
from trainer.rules.plain import listed
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("Wind along the row pushes at its ends. An end brace takes that push down to the plate."),
    fix=_("Fit one over the plate, between the last two trusses of the row."),
    safety=_("Work from inside the walls. Do not lean out over the eave."),
    source=LEVEL,
)
def end_brace_missing(before: Site, event: Event, after: Site) -> Finds:
    """A row is handed over with no end brace at one of its ends; once for each that is missing."""
    for missing in left_unserved(after, "end brace"):
        tags = missing.tags(after)
        got = _("no end brace over {bearing}").format(bearing=missing.piece.side)
        yield Found(tags[0], got, _("an end brace at {trusses}").format(trusses=listed(tags)), missing.cause)
