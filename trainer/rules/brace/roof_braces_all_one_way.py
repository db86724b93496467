"""Roof braces that all lean the same way on one slope."""

from __future__ import annotations

from trainer.rules.permanent import leaning_one_way
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("Over {member} there are {got}. Wanted: {want}."),
    why=_("A strap only pulls. When the wind turns it goes slack, and nothing holds the row."),
    fix=_("Put one in the other way on the same slope. Make a V or a cross, as the job sheet says."),
    safety=_("Leave the temporary bracing on until roof braces run both ways."),
    source=PRACTICE,
)
def roof_braces_all_one_way(before: Site, event: Event, after: Site) -> Finds:
    """Every truss of a slope is crossed, but all its braces rise the same way along the row; once for each slope."""
    for piece, tags, cause in leaning_one_way(after):
        got = _("roof braces that all lean one way, on the slope up from {bearing}").format(bearing=piece.side)
        want = _("roof braces both ways over {trusses}").format(trusses=listed(tags))
        yield Found(tags[0], got, want, cause)
