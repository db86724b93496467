"""Lifting on with a pack on a row that is half braced."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand, come_up
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting went on while {got} on the {member}. Wanted: {want}."),
    why=_("A half-braced row can't carry a pack. It rolls over, and takes everyone near with it."),
    fix=_("Stop. Report it. Have the pack lifted off before anything else."),
    safety=_("Keep out from under that row, and off it, until the pack is gone."),
    source=PRACTICE,
)
def pack_left_on_row(before: Site, event: Event, after: Site) -> Finds:
    """A truss is lifted after a pack was set down on the row, and nobody reported it."""
    for flaw in come_up(before) if before.job.conditions.flaws else ():
        if flaw.what == "pack on a half-braced row":
            want = _("packs on the ground until the row is braced for good")
            yield Found(_("row"), _("a pack lay"), want, cause_of_flaw(flaw))
