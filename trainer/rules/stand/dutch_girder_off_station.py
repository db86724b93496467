"""The girder of a dutch gable that stands too near its wall or too far in."""

from __future__ import annotations

from trainer.rules.placement import girders_out
from trainer.rules.rule import LEVEL, Finds, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("Girder {member} stands {got}. For the dutch gable it stands {want}."),
    why=_("The hips and jacks are cut to land on it there. Off its station, the hip end won't close."),
    fix=_("Take it down. Measure again from the outside of the end wall."),
    safety=_("Keep it on the crane until it is in line, braced and fixed. Hang nothing on it where it is."),
    source=LEVEL,
)
def dutch_girder_off_station(before: Site, event: Event, after: Site) -> Finds:
    """The girder of a dutch gable just stood, or handed over so, is off its station by more than is allowed."""
    yield from girders_out(event, after, "dutch gable")
