"""A truss lifted before anybody planned how."""

from __future__ import annotations

from trainer.rules.first_lift import first_of_kind
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.terms import KIND_NAMES
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} was lifted with {got}. Wanted: {want}."),
    why=_("Who lifts, how many, and where it is slung is settled on the ground. In the air it is too late."),
    fix=_("Set it down. Look up its mass and length on the job sheet. Plan the lift of each kind of truss."),
    safety=_("A licensed person signs the plan of a crane lift."),
    source=PRACTICE,
)
def lift_not_planned(before: Site, event: Event, after: Site) -> Finds:
    """The first truss of a kind is lifted, and there is no plan for that kind."""
    first = first_of_kind(before, event, after)
    if first and first[1] not in before.plans:
        got = _("no plan for a {kind}").format(kind=KIND_NAMES[first[1]])
        yield Found(first[0], got, _("a lift plan for each kind of truss first"), "lift plan")
