"""A girder hung on a girder without its heavy bracket."""

from __future__ import annotations

from trainer.rules.brackets import brackets_missing
from trainer.rules.rule import PRACTICE, Finds, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, HandOver),
    what=_("Truncated girder {member} hangs on {got}. Wanted: {want}."),
    why=_("It brings the load of a whole hip end to one point. A light hanger, or none, tears off."),
    fix=_("Hold the girder. Bolt the heavy bracket through all plies of its carrier, then set it down."),
    safety=_("Bolt the bracket on before the carrier is lifted. Keep out from under the girder."),
    source=PRACTICE,
)
def heavy_girder_bracket_missing(before: Site, event: Event, after: Site) -> Finds:
    """A truncated girder came down on a girder that has no heavy bracket for it."""
    yield from brackets_missing(before, event, after, "heavy girder bracket")
