"""A long truss lifted without spread slings."""

from __future__ import annotations

from trainer.rules.first_lift import plan_of_first
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=Stand,
    what=_("{member} was lifted {got}. Wanted: {want}."),
    why=_("Close slings leave the ends of a long truss hanging. It bends sideways, and its nailplates open."),
    fix=_("Set it down and look it over. Lift that kind with spread slings or a spreader."),
    safety=_("Don't stand a truss that bent in the air. The fabricator decides first."),
    source=LEVEL,
)
def slings_not_spread(before: Site, event: Event, after: Site) -> Finds:
    """The first truss of a kind that is longer than the level's limit is slung at panel points alone."""
    first = plan_of_first(before, event, after)
    if first:
        tag, plan, lift, limits = first
        if plan.slung == "panel points" and lift.spread(limits):
            got = _("at panel points alone, and its kind is up to {length} long").format(
                length=mm(lift.length, limits.spread_over)
            )
            want = _("spread slings or a spreader over {length}").format(length=mm(limits.spread_over))
            yield Found(tag, got, want, f"lift plan {plan.kind} slings")
