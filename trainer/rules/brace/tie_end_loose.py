"""A tie along a row that stops where nothing holds its end."""

from __future__ import annotations

from trainer.rules.permanent import cause_of
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.restraints import loose_ends
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{got} at {member}, where nothing holds it. Wanted: {want}."),
    why=_("A tie with a loose end moves with the trusses. It only holds them if its ends can't move."),
    fix=_("Run it on to the end truss or a wall, packed and strapped. Or lap the next one to it."),
    safety=_("Work from a platform under the chords. Do not walk on them."),
    source=PRACTICE,
)
def tie_end_loose(before: Site, event: Event, after: Site) -> Finds:
    """A tie is handed over that stops at a truss of its row, with no end truss, wall or other tie to hold it."""
    if "brace" not in after.job.stages:
        return
    for piece in after.permanent:
        if piece.kind not in ("bottom-chord tie", "web tie"):
            continue
        for tag in loose_ends(after, piece):
            got = _("A {kind} stops").format(kind=piece.kind)
            want = _("a tie that runs on to the end of the row, or laps on to another")
            yield Found(tag, got, want, cause_of(after, piece))
