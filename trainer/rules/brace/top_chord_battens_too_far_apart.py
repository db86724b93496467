"""Rows of ties (battens) along the top chords further apart than the level allows while trusses go up."""

from __future__ import annotations

from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Brace, Event, Site
from trainer.site.batten_rows import stretch_left
from trainer.words import _


@rule(
    severity="rework",
    on=Brace,
    what=_("{member} has {got} of top chord with no tie. Wanted: {want}."),
    why=_("Until roof battens are on, only ties keep a top chord straight. Too far apart, they let it bend."),
    fix=_("Nail on more rows of ties. No gap may be more than the job sheet says."),
    safety=_("Work from a platform. Stand on no truss that is not braced and fixed."),
    source=LEVEL,
)
def top_chord_battens_too_far_apart(before: Site, event: Event, after: Site) -> Finds:
    """The ties just put on leave too long a stretch, and none lie closer on the same trusses; once a row."""
    piece, most = after.bracing[-1], after.job.bracing.batten_rows
    if piece.kind != "batten" or (stretch := stretch_left(after, piece)) <= most:
        return
    over = set(piece.tags)
    others = (other for other in before.bracing if other.kind == "batten" and over <= set(other.tags))
    if any(stretch_left(after, other) <= most for other in others):
        return
    tag = [tag for tag in after.stood if tag in over][-1]
    row = after.layout.by_tag[after.stood[tag].place or tag].row
    yield Found(tag, mm(stretch, most), _("no more than {most}").format(most=mm(most)), f"batten rows {row}")
