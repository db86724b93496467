"""A strap pulled hard while nothing pulls the other way."""

from __future__ import annotations

from trainer.rules.permanent import cause_of, put_in
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Restrain, Site
from trainer.words import _


@rule(
    severity="rework",
    on=Restrain,
    what=_("The roof brace over {member} was {got}. Wanted: {want}."),
    why=_("One strap pulled hard pulls the tops of the row over with it. Then the row is braced out of plumb."),
    fix=_("Ease it off until it is just straight. Check the row for plumb, and put in the brace the other way."),
    safety=_("Keep the temporary bracing on until straps both ways are in. A strap that slips can whip back."),
    source=PRACTICE,
)
def strap_pulled_too_hard(before: Site, event: Event, after: Site) -> Finds:
    """A strap is pulled past straight, and no roof brace that leans the other way holds the row yet."""
    piece = put_in(event, after)
    if piece and piece.pulled_over:
        got, want = _("pulled hard with nothing to hold the row against it"), _("pulled until it is straight, no more")
        yield Found(piece.crosses[0][0], got, want, cause_of(after, piece))
