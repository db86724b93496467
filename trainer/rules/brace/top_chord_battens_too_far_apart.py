"""Rows of ties (battens) along the top chords further apart than the level allows while trusses go up."""

from __future__ import annotations

from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Brace, Bracing, Event, HandOver, Site
from trainer.site.batten_rows import stretch_left
from trainer.words import _


@rule(
    severity="rework",
    on=(Brace, HandOver),
    what=_("{member} has {got} of top chord with no tie. Wanted: {want}."),
    why=_("Until roof battens are on, only ties keep a top chord straight. Too far apart, they let it bend."),
    fix=_("Nail on more rows of ties. No gap may be more than the job sheet says."),
    safety=_("Work from a platform. Stand on no truss that is not braced and fixed."),
    source=LEVEL,
)
def top_chord_battens_too_far_apart(before: Site, event: Event, after: Site) -> Finds:
    """The ties just put on leave too long a stretch, and none lie closer on the same trusses; once a row.

    They are found again where they are handed over so: the roof is not whole.
    """
    if isinstance(event.action, Brace):
        if after.bracing[-1].kind == "batten":
            yield from _too_far(after, after.bracing[-1])
        return
    rows: dict[str, Found] = {}
    for piece in after.bracing if "brace" in after.job.stages else ():
        for found in _too_far(after, piece) if piece.kind == "batten" else ():
            rows[found.cause] = found
    yield from rows.values()


def _too_far(site: Site, piece: Bracing) -> Finds:
    most = site.job.bracing.batten_rows
    over = set(piece.tags)
    if not over <= set(site.stood) or (stretch := stretch_left(site, piece)) <= most:
        return
    others = (other for other in site.bracing if other is not piece and other.kind == "batten")
    if any(over <= set(other.tags) and stretch_left(site, other) <= most for other in others):
        return
    tag = [tag for tag in site.stood if tag in over][-1]
    row = site.layout.by_tag[site.stood[tag].place or tag].row
    yield Found(tag, mm(stretch, most), _("no more than {most}").format(most=mm(most)), f"batten rows {row}")
