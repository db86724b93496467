"""Marks measured each from the one before, so that errors add up."""

from __future__ import annotations

from trainer.rules.marks import TAPES, called, marked_on
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Mark, Site
from trainer.words import _


@rule(
    severity="habit",
    on=Mark,
    what=_("{member} was marked {got}. Wanted: {want}."),
    why=_("Each time the tape is set down it is a little off. Bay by bay, all of that adds up."),
    fix=_("Hook the tape on one end and let it run on. Mark every station off that."),
    safety=_("Mark out from a ladder or platform, never from the plate."),
    source=PRACTICE,
)
def measured_bay_by_bay(before: Site, event: Event, after: Site) -> Finds:
    """The third mark in a chain, each measured from the one before; told once for each wall or carrier."""
    where = marked_on(event)
    made = after.set_out[where][-1]
    if made.links >= TAPES and not any(mark.links >= TAPES for mark in before.set_out.get(where, ())):
        got = _("bay by bay: {links} tapes end to end, {out:.1f} mm out by now").format(
            links=made.links, out=abs(made.is_at - made.at)
        )
        want = _("one tape, running on from one end")
        yield Found(called(after, where), got, want, f"bay by bay {where}")
