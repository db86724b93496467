"""A truss lifted by its apex alone."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, plan_of_first
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} was lifted {got}. Wanted: {want}."),
    why=_("Hung by its apex alone a truss swings and bends. Its joints can break. It was made to sit on its ends."),
    fix=_("Set it down. Sling it at panel points either side of the middle. Check its nailplates."),
    safety=_("Keep out from under it. Steady it with a tag line from well clear."),
    source=PRACTICE,
)
def slung_at_apex(before: Site, event: Event, after: Site) -> Finds:
    """The first truss of a kind is slung by its apex by plan; or a truss that was found slung so is lifted."""
    first, tag = plan_of_first(before, event, after), truss_of(event)
    want = _("slings at panel points either side of the middle")
    if first and first[1].slung == "apex":
        yield Found(tag, _("by its apex alone, as planned"), want, "slung at the apex")
    elif before.job.conditions.flaws and "pre-start" in before.job.stages and tag not in before.turns:
        for flaw in before.flaws:
            if flaw.what == "sling at the apex" and flaw.tag == tag:
                yield Found(tag, _("by its apex alone, as it was found"), want, cause_of_flaw(flaw))
