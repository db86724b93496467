"""A row let go with nothing solid in it."""

from __future__ import annotations

from dataclasses import replace

from trainer.rules.letting_go import let_go_loose
from trainer.rules.rule import TRAINING_CODE, Finds, Found, rule
from trainer.site import Event, HandOver, Remove, Site, Stand
from trainer.site.actions import Unbrace
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, Remove, Unbrace, HandOver),
    what=_("{member} was let go {got}. Wanted: {want}."),
    why=_(
        "Trusses tied only to each other fall together, like dominoes. One must be held by something that can't move."
    ),
    fix=_(
        "Brace the first truss to a braced wall, the floor or the ground. Then tie the next to it. "
        "Leave that brace on until the row is braced for good."
    ),
    safety=_("Nobody stands in the fall zone of a row. Fix the brace points before the truss arrives."),
    source=TRAINING_CODE,
)
def row_with_nothing_solid(before: Site, event: Event, after: Site) -> Finds:
    """A row went over because nothing in it was held when hands left a truss; once a row."""
    for loose in let_go_loose(before, event):
        if loose.fell:
            yield replace(loose.found, got=_and_fell(loose.found, event))


def _and_fell(found: Found, event: Event) -> str:
    """What came of it: the whole row went over, or one truss alone."""
    if len(event.fell) == 1:
        return _("{how}, and went over: no other truss of its row stood to catch it").format(how=found.got)
    return _("{how}. No truss in its row was held, so the whole row went over").format(how=found.got)
