"""A truss hung where there is no hanger for it."""

from __future__ import annotations

from trainer.rules.brackets import brackets_missing
from trainer.rules.rule import PRACTICE, Finds, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, HandOver),
    what=_("{member} hangs on {got}. Wanted: {want}."),
    why=_("Nails through the end can't carry a truss. Only a hanger takes its load into the carrier."),
    fix=_("Hold the truss and fit the hanger to the carrier. Then set the truss down in it."),
    safety=_("Fit hangers before you lift. Keep out from under a truss with no hanger."),
    source=PRACTICE,
)
def hanger_missing(before: Site, event: Event, after: Site) -> Finds:
    """A hung end came down where its carrier has no hanger for it."""
    yield from brackets_missing(before, event, after, "hanger")
