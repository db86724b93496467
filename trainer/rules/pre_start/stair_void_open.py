"""A lift while a stair void lies open below."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, left_as_found
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting began over an {member}, and {got}. Wanted: {want}."),
    why=_("People look up when they land a truss. A step back into a stair void is a fall of a whole storey."),
    fix=_("Stop lifting. Report it. Have the void decked over or railed on every side."),
    safety=_("A loose sheet is no cover. It must be fixed, and strong enough to stand on."),
    source=PRACTICE,
)
def stair_void_open(before: Site, event: Event, after: Site) -> Finds:
    """The first lift is made with a stair void that nobody reported."""
    for flaw in left_as_found(before, "open stair void"):
        want = _("every void covered or railed before anything is lifted")
        yield Found(_("open stair void"), _("nothing guarded it"), want, cause_of_flaw(flaw))
