"""Handed over without a word on where the first packs land."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="habit",
    on=HandOver,
    what=_("The {member} was handed over, and {got}. Wanted: {want}."),
    why=_("The next crew loads it where it suits their crane. The trusses may not suit that."),
    fix=_("Say where the first packs land: small stacks on both slopes, near the walls."),
    safety=_("Nobody works under a roof that is being loaded."),
    source=PRACTICE,
)
def loading_not_agreed(before: Site, event: Event, after: Site) -> Finds:
    """The level asks where the first packs are to land, and that was not said by hand-over."""
    if before.job.conditions.loading and "hand-over" in before.job.stages and not before.pattern:
        want = _("where the first packs land agreed at hand-over")
        yield Found(_("roof"), _("nobody said where the first packs land"), want, "first packs")
