"""A truss accepted that nobody measured."""

from __future__ import annotations

from trainer.rules.inspected import tips
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, measured
from trainer.site.actions import Inspect
from trainer.words import _


@rule(
    severity="habit",
    on=Inspect,
    what=_("{member} was accepted {got}. Wanted: {want}."),
    why=_("The eye misses a lean of a few centimetres. A reading settles it, and can be shown."),
    fix=_("Measure plumb and bow now. Change your verdict if the readings say so."),
    safety=_("Measure from a platform, never from the top plate."),
    source=PRACTICE,
)
def accepted_unmeasured(before: Site, event: Event, after: Site) -> Finds:
    """A truss that tips is accepted before its plumb and its bow were read."""
    if not isinstance(event.action, Inspect) or not event.action.accept:
        return
    tag = event.action.tag
    if tips(after, tag) and not measured(before, tag) and not before.inspected.get(tag):
        yield Found(tag, _as_read(before, tag), _("plumb and bow measured first"))


def _as_read(site: Site, tag: str) -> str:
    """Say what of a truss was read before its verdict; not both readings were."""
    if ("plumb", tag) in site.readings:
        return _("with its plumb measured, but not its bow")
    return _("with its bow measured, but not its plumb") if ("bow", tag) in site.readings else _("by eye alone")
