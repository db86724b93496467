"""Temporary braces and props left inside the house though they are needed no more."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, needed_no_more
from trainer.words import _


@rule(
    severity="habit",
    on=HandOver,
    what=_("{member} was handed over with {got}. Wanted: {want}."),
    why=_("What replaces them is in. Left inside, they are in the way, and walls get pushed about by them."),
    fix=_("Tie each top along the row, girders too. Then take the braces and props out."),
    safety=_("Look along the row before you loosen a brace. Keep everyone clear."),
    source=PRACTICE,
)
def braces_left_inside(before: Site, event: Event, after: Site) -> Finds:
    """Braces to floor, walls or ground, or props, are left in where the permanent bracing is; told once a house."""
    left = needed_no_more(before) if "brace" in before.job.stages else ()
    if left:
        got = _("braces or props left inside: {number}").format(number=len(left))
        yield Found(left[0].tags[0], got, _("all that are needed no more taken out"), "braces inside")
