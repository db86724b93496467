"""A saddle truss whose end has nothing under it, for want of a trimmer."""

from __future__ import annotations

from trainer.order import spanned, trimmers
from trainer.rules.links import saddles_in
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, Stand, trimmed
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("The saddle ends between two trusses. With no trimmer there, its end hangs in the air and sags."),
    fix=_("Lift the saddle off. Put a trimmer between the two trusses, then set the saddle down."),
    safety=_("Stand on your platform to fit it, not on the trusses."),
    source=PRACTICE,
)
def saddle_without_trimmer(before: Site, event: Event, after: Site) -> Finds:
    """A saddle came down, or is handed over, without a trimmer that it needs."""
    for place in saddles_in(event, after):
        for number, part in trimmers(after.layout, after.layout.by_tag[place]).items():
            if not trimmed(after, place, number):
                between = listed(spanned(after.layout, part))
                want = _("a trimmer between {trusses} first").format(trusses=between)
                yield Found(after.at_place[place], _("an end on no trimmer"), want, f"trim {place}.{number}")
