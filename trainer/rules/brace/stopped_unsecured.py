"""Lifting stopped with a truss that nothing holds."""

from __future__ import annotations

from trainer.rules.letting_go import half_fixed, needs_tie
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, loose
from trainer.site.actions import Stop
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stop,
    what=_("Lifting stopped, and {member} was left {got}. Wanted: {want}."),
    why=_("When lifting stops, hands leave the row. A truss that nothing holds goes over in the next gust."),
    fix=_("Keep people out until the wind drops. Then brace. Next time, hold every truss before you stop."),
    safety=_("Don't go back to a loose truss while it blows."),
    source=PRACTICE,
)
def stopped_unsecured(before: Site, event: Event, after: Site) -> Finds:
    """Lifting stops, for a gust or to ask, while a truss that stands is not held; after a fall people come first.

    What was left undone is the same that the next lift would find: it is one cause.
    """
    free = next(loose(before), None) if before.fall is None else None
    if free is None:
        return
    want, place = _("every truss that stands held first"), before.stood[free].place or free
    if ends := half_fixed(before, free):
        got = _("with end {end} not fixed").format(end=ends[0]) if len(ends) == 1 else _("with neither end fixed")
        yield Found(free, got, want, f"fix {place}")
    else:
        yield Found(free, _("with nothing to hold it"), want, f"{'tie' if needs_tie(before, free) else 'fix'} {place}")
