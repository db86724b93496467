"""A truss cut inside its tails."""

from __future__ import annotations

from trainer.rules.inspected import cause_of_cut
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site
from trainer.site.actions import Cut
from trainer.words import _


@rule(
    severity="stop-work",
    on=Cut,
    what=_("{member} was cut {got}. Wanted: {want}."),
    why=_("Each timber carries load. One cut can bring the truss down, today or in a storm."),
    fix=_("Stop. Prop the truss, mark it and tell the fabricator. Repair only by their written detail."),
    safety=_("Keep clear of a cut truss, above and below."),
    source=PRACTICE,
)
def truss_cut(before: Site, event: Event, after: Site) -> Finds:
    """A chord or a web was cut; tails have a rule of their own."""
    if isinstance(event.action, Cut) and event.action.where != "tail":
        got = _("through its {timber}").format(timber=event.action.where)
        cause = cause_of_cut(event.action.tag, len(after.cuts[event.action.tag]))
        yield Found(event.action.tag, got, _("no cut, notch or hole inside the tails"), cause)
