"""A truss nailed down to an internal wall."""

from __future__ import annotations

from trainer.rules.links import cause_of_slot
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import SLOTTED, Event, Fix, Refused, Site, over_internal_wall, wall_at
from trainer.site.crossing import at_place
from trainer.words import _


@rule(
    severity="rework",
    on=Fix,
    what=_("{member} was fixed to an internal wall with {got}. Wanted: {want}."),
    why=_("An internal wall must not carry the roof. A truss fixed hard to it can't move, and it cracks the ceiling."),
    fix=_("Take the fixing out. Use a slotted bracket, so that the truss can move up and down."),
    safety=_("Pull nails from a platform, not from the top of the wall."),
    source=PRACTICE,
)
def fixed_hard_to_internal_wall(before: Site, event: Event, after: Site) -> Finds:
    """A truss was fixed to an internal wall with something that does not let it move."""
    action = event.action
    if isinstance(action, Fix) and action.with_ != SLOTTED and over_internal_wall(before, action):
        want = _("a slotted bracket, with its nails left loose in the slot")
        yield Found(action.tag, action.with_, want, _cause(before, action))


def _cause(before: Site, action: Fix) -> str:
    """The slotted bracket that belongs there: left out at hand-over, it is the same thing."""
    key = at_place(before, action)
    if isinstance(key, Refused) or isinstance(key[1], int):
        return ""
    wall = wall_at(before, key[1])
    return cause_of_slot(wall, key[1][before.job.inner_walls[wall].along])
