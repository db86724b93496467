"""A truss of the inspection that nobody looked at."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="habit",
    on=HandOver,
    what=_("{member} was handed over {got}. Wanted: {want}."),
    why=_("An inspection finds faults while they are still easy to reach. Later they are covered."),
    fix=_("In each wing, measure one truss of each kind. Accept it or reject it."),
    safety=_("Inspect from a platform, with the trusses braced and fixed."),
    source=PRACTICE,
)
def not_inspected(before: Site, event: Event, after: Site) -> Finds:
    """A truss that the inspection asks for stands, and was neither accepted nor rejected."""
    for step in after.job.order.steps:
        if step.verb == "inspect" and step.tag in after.stood and step.tag not in after.inspected:
            yield Found(step.tag, _("with no verdict on it"), _("measured, then accepted or rejected"))
