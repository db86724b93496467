"""A lift over people in the exclusion zone."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, left_as_found
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting began with {got} in the {member}. Wanted: {want}."),
    why=_("A truss that slips from its slings comes down on whoever is below. Nobody has time to run."),
    fix=_("Stop lifting. Report it. Have the zone cleared and fenced, and somebody keep it so."),
    safety=_("Never lift over people. Call out before each lift, and wait for an answer."),
    source=PRACTICE,
)
def people_under_the_lift(before: Site, event: Event, after: Site) -> Finds:
    """The first lift is made with people in the exclusion zone whom nobody reported."""
    for flaw in left_as_found(before, "people in the exclusion zone"):
        want = _("nobody under or near the lift")
        yield Found(_("exclusion zone"), _("people at work"), want, cause_of_flaw(flaw))
