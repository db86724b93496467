"""A lift planned with too few people."""

from __future__ import annotations

from trainer.rules.first_lift import plan_of_first
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import PEOPLE, Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} was lifted with {got}. Wanted: {want}."),
    why=_("One person can't hold both ends of a truss. Nor can one land it and hold its tag line."),
    fix=_("Set it down. Plan two people at least: one at each end, or one on the tag line."),
    safety=_("Wait for help. Nobody lifts a truss alone."),
    source=PRACTICE,
)
def too_few_to_lift(before: Site, event: Event, after: Site) -> Finds:
    """The first truss of a kind is lifted, and its plan has fewer than two people."""
    first = plan_of_first(before, event, after)
    if first and first[1].people < PEOPLE:
        yield Found(first[0], _("one person alone"), _("two people at least"), f"lift plan {first[1].kind} people")
