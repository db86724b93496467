"""Trusses with no roof brace over them on one slope."""

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
    why=_("Once the temporary bracing is off, only roof braces keep the row from leaning."),
    fix=_("Put a roof brace over them, from the plate up to the ridge."),
    safety=_("Leave the temporary bracing on until the roof braces are in."),
    source=LEVEL,
)
def roof_brace_missing(before: Site, event: Event, after: Site) -> Finds:
    """Full-height trusses are handed over with no roof brace over one slope; once for what one brace would cross."""
    for missing in left_unserved(after, "roof brace"):
        tags = missing.tags(after)
        got = _("no roof brace on the slope up from {bearing}").format(bearing=missing.piece.side)
        want = _("a roof brace over {trusses}").format(trusses=listed(tags))
        yield Found(tags[0], got, want, missing.cause)
