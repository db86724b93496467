"""A truss rejected at the inspection that has nothing wrong with it."""

from __future__ import annotations

from trainer.rules.inspected import wrong_with
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, sound
from trainer.site.actions import Inspect
from trainer.words import _


@rule(
    severity="habit",
    on=Inspect,
    what=_("{member} was rejected, {got}. Wanted: {want}."),
    why=_("Work that is right is then done again, for nothing. People stop trusting the inspection."),
    fix=_("Measure first. Hold the reading against the limit on the job sheet, then decide."),
    safety=_("Do not loosen a sound truss to adjust it."),
    source=PRACTICE,
)
def rejected_though_sound(before: Site, event: Event, after: Site) -> Finds:
    """A truss is rejected that stands in its place, true, whole and fastened."""
    if not isinstance(event.action, Inspect) or event.action.accept:
        return
    tag = event.action.tag
    if sound(after, tag) and next(wrong_with(after, tag), None) is None:
        yield Found(tag, _("and it is within every limit"), _("sound work accepted"))
