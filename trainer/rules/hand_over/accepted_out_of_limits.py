"""A truss accepted at the inspection that should not have been."""

from __future__ import annotations

from trainer.rules.inspected import wrong_with
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site
from trainer.site.actions import Inspect
from trainer.words import _


@rule(
    severity="rework",
    on=Inspect,
    what=_("{member} was accepted, though it is {got}. Wanted: {want}."),
    why=_("What is accepted is covered up. Then it costs far more to put right."),
    fix=_("Reject it and say why. Put it right, measure it again, then accept it."),
    safety=_("Inspect from a platform. Nobody walks on a truss that is in doubt."),
    source=PRACTICE,
)
def accepted_out_of_limits(before: Site, event: Event, after: Site) -> Finds:
    """A truss is accepted that is out of true, out of place, cut, damaged or loose; told once a truss."""
    if isinstance(event.action, Inspect) and event.action.accept:
        for wrong in wrong_with(after, event.action.tag):
            want = _("only what is within the limits accepted")
            yield Found(event.action.tag, wrong.text, want, wrong.cause or f"accepted {event.action.tag}")
            break
