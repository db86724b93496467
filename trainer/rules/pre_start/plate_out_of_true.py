"""A truss stood on a plate or a verandah beam that is out of straight, level, length or square."""

from __future__ import annotations

from trainer.rules.first_lift import built_over, cause_of_flaw
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import MEASURED, Event, Site, Stand
from trainer.words import _

_HOW = {
    "bowed wall": _("it is bowed by {by}"),
    "plate out of level": _("its plate is out of level by {by}"),
    "wrong length": _("it is {by} out in length"),
    "out of square": _("the plates are out of square by {by}"),
    "bowed beam": _("its verandah beam is bowed by {by}"),
}


@rule(
    severity="rework",
    on=Stand,
    what=_("A truss was stood on wall {member}, and {got}. Wanted: {want}."),
    why=_("Trusses follow the plate. A plate that is out puts the roof out. It can't be put right from above."),
    fix=_("Take the trusses off that wall. Report it, have it put right, and measure it again."),
    safety=_("Straighten walls from the floor or a platform, never from the plate."),
    source=LEVEL,
)
def plate_out_of_true(before: Site, event: Event, after: Site) -> Finds:
    """The first truss on a plate that is further out than the level allows, which was not reported."""
    for flaw in built_over(before, event, after, *MEASURED):
        want = _("plates within {near} before trusses go on").format(near=mm(before.job.limits.plates))
        yield Found(
            flaw.wall, _HOW[flaw.what].format(by=mm(abs(flaw.by), before.job.limits.plates)), want, cause_of_flaw(flaw)
        )
