"""A truss carried up by hand that is too heavy or too long for that."""

from __future__ import annotations

from trainer.rules.first_lift import plan_of_first
from trainer.rules.plain import kg, mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} was lifted by hand: {got}. Wanted: {want}."),
    why=_("A heavy or a long truss gets away from those who carry it. Backs are hurt, and it bends and falls."),
    fix=_("Set it down. Change the plan: lift that kind with a crane."),
    safety=_("Lift with your legs, and never alone. If it feels too heavy, it is."),
    source=LEVEL,
)
def too_heavy_by_hand(before: Site, event: Event, after: Site) -> Finds:
    """The first truss of a kind is lifted by hand, and the kind is over the level's limit of mass or length."""
    first = plan_of_first(before, event, after)
    if first:
        tag, plan, lift, limits = first
        if plan.by == "hand" and not lift.by_hand(limits):
            mass, length = kg(lift.mass, limits.by_hand), mm(lift.length, limits.by_hand_span)
            got = _("up to {mass} and {length} long").format(mass=mass, length=length)
            most = _("by hand no more than {mass} and {length} long; a crane beyond that")
            want = most.format(mass=kg(limits.by_hand), length=mm(limits.by_hand_span))
            yield Found(tag, got, want, f"lift plan {plan.kind}")
