"""A lift on a day of gusts that nobody spoke of."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, left_as_found
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting began, and {got}: {member}. Wanted: {want}."),
    why=_("A truss in the slings is a sail. So is a row that has only ties on it."),
    fix=_("Stop lifting. Report the forecast. Agree when lifting stops, and have braces ready."),
    safety=_("The crane's own wind limit comes first. In doubt, don't lift."),
    source=PRACTICE,
)
def forecast_not_heeded(before: Site, event: Event, after: Site) -> Finds:
    """The first lift is made on a day with gusts forecast that nobody reported."""
    for flaw in left_as_found(before, "gust forecast"):
        want = _("the forecast reported and a limit agreed first")
        yield Found(_("weather"), _("nobody spoke of the gusts forecast"), want, cause_of_flaw(flaw))
