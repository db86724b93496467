"""A truncated girder at another setback than the level's."""

from __future__ import annotations

from trainer.rules.placement import girders_out
from trainer.rules.rule import LEVEL, Finds, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("Truncated girder {member} stands {got}. Its setback on this job is {want}."),
    why=_("The hip trusses and jacks are cut to meet it there. Off its setback, the hip end won't close."),
    fix=_("Take it down. Measure the setback again from the outside of the end wall."),
    safety=_("Keep it tied until it is moved. Do not hang a hip end on it where it is."),
    source=LEVEL,
)
def setback_not_the_levels(before: Site, event: Event, after: Site) -> Finds:
    """The truncated girder just stood, or handed over so, is off its setback by more than the level's tolerance."""
    yield from girders_out(event, after, "setback")
