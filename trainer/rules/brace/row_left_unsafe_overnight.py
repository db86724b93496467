"""A row left for the night that a wind can rack."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.site.overnight import cause_of_night, solid_of
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} and the trusses tied to it were left for the night {got}. Wanted: {want}."),
    why=_("Ties alone only make trusses lean together. Wind at night finds the row with nobody there."),
    fix=_("Before you leave, put a diagonal in each row. Or brace a second truss solid."),
    safety=_("Watch the weather. Nobody goes near a row that has moved in the night."),
    source=PRACTICE,
)
def row_left_unsafe_overnight(before: Site, event: Event, after: Site) -> Finds:
    """At a day's end a row of three or more had one solid brace at most, nothing across it; once a row and night."""
    if event.night is None:
        return
    for row, tags in event.night.unsafe:
        took = event.night.wind == "strong"
        if solid_of(before, tags):
            got = _("with only one of them solid, and the wind took them") if took else _("with only one of them solid")
        else:
            got = _("with ties alone, and the wind took them") if took else _("with ties alone to steady them")
        yield Found(tags[0], got, _("a diagonal, or two trusses solid"), cause_of_night(event.night.number, row))
