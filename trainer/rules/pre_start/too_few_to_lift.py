"""A lift planned with too few people."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.rules.first_lift import first_of_kind
from trainer.rules.rule import PRACTICE, Found, rule
from trainer.site import PEOPLE, Event, Site, Stand
from trainer.words import _


@rule(
    "too-few-to-lift",
    stage="pre-start",
    severity="stop-work",
    on=Stand,
    what=_("{member} was lifted with {got}. Wanted: {want}."),
    why=_("One person can't carry both ends, nor land a truss and hold its tag line."),
    fix=_("Set it down. Plan two people at least: one at each end, or one on the tag line."),
    safety=_("Wait for help. Nobody lifts a truss alone."),
    source=PRACTICE,
)
def too_few_to_lift(before: Site, event: Event, after: Site) -> Iterator[Found]:
    """The first truss of a kind is lifted, and its plan has fewer than two people."""
    member = first_of_kind(before, event)
    plan = before.plans.get(member.kind) if member is not None else None
    if member is not None and plan is not None and plan.people < PEOPLE:
        want = _("two people at least")
        yield Found(member.tag, _("one person alone"), want, f"lift plan {member.kind} people")
