"""A load put on a roof that is not finished."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site
from trainer.site.actions import Load
from trainer.words import _


@rule(
    severity="stop-work",
    on=Load,
    what=_("The {member} was loaded with {got}. Wanted: {want}."),
    why=_("An unfinished roof can't carry packs or battens. Loads tip trusses that are not fully braced."),
    fix=_("Take the load off. Finish the bracing and the fixings, then hand over."),
    safety=_("Nobody goes under a roof that was loaded too early."),
    source=PRACTICE,
)
def loaded_before_hand_over(before: Site, event: Event, after: Site) -> Finds:
    """Battens, sheets, tiles or packs were put on the roof before it was handed over."""
    if isinstance(event.action, Load) and not event.action.pattern:
        yield Found(_("roof"), event.action.what, _("no load on the roof before hand-over"), "loaded")
