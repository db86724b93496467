"""A tail cut before the eave line is set out."""

from __future__ import annotations

from trainer.rules.delivery import flaws_of
from trainer.rules.inspected import cause_of_cut
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site
from trainer.site.actions import Cut, HandOver
from trainer.words import _


@rule(
    severity="rework",
    on=(Cut, HandOver),
    what=_("{member} was cut {got}. Wanted: {want}."),
    why=_("The tails make the eave. Cut one by one, they never line up. A short one stays short."),
    fix=_("Tell the fabricator. Extend the tail only by their written detail."),
    safety=_("Nobody works from a tail or leans out over the eave."),
    source=PRACTICE,
)
def tail_cut(before: Site, event: Event, after: Site) -> Finds:
    """A tail was cut before hand-over. Tails are trimmed afterwards, to one line, where the plan allows.

    A truss that is handed over with its tail cut is altered: the roof is not whole.
    """
    if isinstance(event.action, Cut):
        if event.action.where == "tail":
            yield _found(after, event.action.tag, _("at its tail"))
        return
    for tag, cuts in after.cuts.items():
        if tag in after.stood and "tail" in cuts:
            yield _found(after, tag, _("at its tail, and handed over so"))


def _found(site: Site, tag: str, got: str) -> Found:
    """One cut, the last in a truss; a tail that should not be there is no more to be cut off than one that should."""
    unwanted = tag in site.stood and any(flaw.what == "unwanted tail" for flaw in flaws_of(site, tag))
    want = (
        _("no cut: the fabricator sends the right truss, or a written detail")
        if unwanted
        else _("tails left whole until the eave line is marked")
    )
    return Found(tag, got, want, cause_of_cut(tag, len(site.cuts[tag])))
