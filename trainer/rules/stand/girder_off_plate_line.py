"""A girder whose outside face is not in line with the outside of the plates."""

from __future__ import annotations

from trainer.rules.placement import girders_out
from trainer.rules.rule import PRACTICE, Finds, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("Girder {member} stands {got}. Wanted: {want}."),
    why=_("The girder stands in for a wall. What hangs on it is cut to reach that line and no further."),
    fix=_("Take it down. Pull a string along its line. Set its outside face to the string."),
    safety=_("A girder is heavy. Keep it on the crane until it is in line, braced and fixed."),
    source=PRACTICE,
)
def girder_off_plate_line(before: Site, event: Event, after: Site) -> Finds:
    """The girder just stood, or handed over so, is off the line of the plates by more than the level's tolerance."""
    yield from girders_out(event, after, "girder line")
