"""A saddle truss set down with no batten under it."""

from __future__ import annotations

from trainer.rules.links import saddles_in
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, Stand, seated
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("{member} sits on {got}. Wanted: {want}."),
    why=_("The batten ties the saddle to every truss under it. It also lifts the saddle to the right height."),
    fix=_("Lift the saddle off. Fix a batten across the trusses, then set the saddle on it."),
    safety=_("Work from a platform. Do not sit or lean on a truss that is not fixed."),
    source=PRACTICE,
)
def saddle_without_batten(before: Site, event: Event, after: Site) -> Finds:
    """A saddle came down, or is handed over, without its batten."""
    for place in saddles_in(event, after):
        if not seated(after, place):
            want = _("a batten under it first, across the trusses below")
            yield Found(after.at_place[place], _("bare trusses"), want, f"seat {place}")
