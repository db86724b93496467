"""A lift in wind for which lifting should have stopped."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Remove, Site, Stand, come_up
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, Remove),
    what=_("{member} was lifted {got}. Wanted: {want}."),
    why=_("A gust takes a truss out of the hands that land it. It pushes over a row that is not finished."),
    fix=_("Stop lifting. Brace what stands. Go on when the wind has dropped, and crane crew and supervisor say so."),
    safety=_("Stay out from under a load that swings. Let the tag line go before it pulls you."),
    source=PRACTICE,
)
def lifted_in_gust(before: Site, event: Event, after: Site) -> Finds:
    """A truss is lifted, up or down, after the wind got up, and lifting was not stopped in between."""
    for flaw in come_up(before) if before.job.conditions.flaws else ():
        if flaw.what == "gust at noon":
            want = _("lifting stopped, and the row secured, until the wind drops")
            yield Found(truss_of(event), _("after the wind got up"), want, cause_of_flaw(flaw))
