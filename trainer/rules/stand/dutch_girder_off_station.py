"""The girder of a dutch gable that stands too near its wall or too far in."""

from __future__ import annotations

from trainer.rules.placement import misplaced
from trainer.rules.rule import LEVEL, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=Stand,
    what=_("Girder {member} stands {got}. For the dutch gable it stands {want}."),
    why=_("The hips and jacks are cut to land on it there. Off its station, the hip end won't close."),
    fix=_("Take it down. Measure again from the outside of the end wall."),
    safety=_("Keep it on the crane until it is in line, braced and fixed. Hang nothing on it where it is."),
    source=LEVEL,
)
def dutch_girder_off_station(before: Site, event: Event, after: Site) -> Finds:
    """The girder of a dutch gable just stood is off its station by more than the level's tolerance."""
    wrong = misplaced(after, truss_of(event))
    if wrong and wrong.how == "dutch gable":
        yield Found(truss_of(event), wrong.got, wrong.want, wrong.cause)
