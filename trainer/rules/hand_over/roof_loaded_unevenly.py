"""The first packs sent to land where the roof should not take them."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import RIGHT_PATTERN, Event, HandOver, Site
from trainer.words import _

_WHERE = {
    "one slope": _("on one slope alone"),
    "middle of span": _("at the middle of the span"),
    "eaves": _("on the eaves"),
    "one stack": _("in one stack"),
}


@rule(
    severity="rework",
    on=HandOver,
    what=_("The first packs for the {member} are to land {got}. Wanted: {want}."),
    why=_("Trusses are made for an even load. A heap on one side or at mid-span bends them and strains their joints."),
    fix=_("Tell the crew before they lift. Small stacks on both slopes, near the walls."),
    safety=_("Nobody works under a roof that is being loaded."),
    source=PRACTICE,
)
def roof_loaded_unevenly(before: Site, event: Event, after: Site) -> Finds:
    """The roof is handed over, and what was said last of its first packs is no even load."""
    if before.pattern and before.pattern != RIGHT_PATTERN:
        want = _("in small stacks on both slopes, near the walls")
        yield Found(_("roof"), _WHERE[before.pattern], want, "first packs")
