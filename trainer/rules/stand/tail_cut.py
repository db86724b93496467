"""A tail cut before the eave line is set out."""

from __future__ import annotations

from trainer.rules.inspected import cause_of_cut
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site
from trainer.site.actions import Cut
from trainer.words import _


@rule(
    severity="rework",
    on=Cut,
    what=_("{member} was cut {got}. Wanted: {want}."),
    why=_("The tails make the eave. Cut one by one, they never line up. A short one stays short."),
    fix=_("Tell the fabricator. Extend the tail only by their written detail."),
    safety=_("Nobody works from a tail or leans out over the eave."),
    source=PRACTICE,
)
def tail_cut(before: Site, event: Event, after: Site) -> Finds:
    """A tail was cut before hand-over. Tails are trimmed afterwards, to one line, where the plan allows."""
    if isinstance(event.action, Cut) and event.action.where == "tail":
        cause = cause_of_cut(event.action.tag, len(after.cuts[event.action.tag]))
        yield Found(event.action.tag, _("at its tail"), _("tails left whole until the eave line is marked"), cause)
