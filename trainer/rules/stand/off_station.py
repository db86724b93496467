"""A truss that stands further from its station than the level allows."""

from __future__ import annotations

from trainer.rules.placement import misplaced
from trainer.rules.rule import LEVEL, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="tolerance",
    on=Stand,
    what=_("{member} stands {got}. Wanted: {want}."),
    why=_("Battens, sheets and linings are made for even gaps. A truss off its mark carries too much roof."),
    fix=_("Move it to its mark. Measure from one end of the wall, never from the truss before."),
    safety=_("Move a truss only while others hold it. Stand clear of the outside walls."),
    source=LEVEL,
)
def off_station(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood is out by more than the level's tolerance, across its line or along it."""
    wrong = misplaced(after, truss_of(event))
    if wrong and wrong.how == "off station":
        yield Found(truss_of(event), wrong.got, wrong.want, wrong.cause)
