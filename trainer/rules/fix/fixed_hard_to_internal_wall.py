"""A truss nailed down to an internal wall."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import SLOTTED, Event, Fix, Site, over_internal_wall
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
        yield Found(action.tag, action.with_, _("a slotted bracket, with its nails left loose in the slot"))
