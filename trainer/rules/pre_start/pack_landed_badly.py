"""A pack left standing where the frame can't take it."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, left_as_found
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting went on while {got} on wall {member}. Wanted: {want}."),
    why=_("A pack is heavy. A frame or a lintel may not take it, and gives way."),
    fix=_("Report it. Have the pack moved to level bearers, clear of the frame."),
    safety=_("Keep out from under a frame with a pack on it."),
    source=PRACTICE,
)
def pack_landed_badly(before: Site, event: Event, after: Site) -> Finds:
    """Something is lifted for the first time while a pack stands where the frame can't take it."""
    for flaw in left_as_found(before, "pack landed badly", "pack on a lintel"):
        got = _("a pack stood") if flaw.what == "pack landed badly" else _("a pack stood over a door or a window")
        yield Found(flaw.wall, got, _("packs on level bearers, where they can be carried"), cause_of_flaw(flaw))
