"""A truss stood on a wall whose frame is not braced."""

from __future__ import annotations

from trainer.rules.first_lift import built_over, cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("A truss was stood on wall {member}, and {got}. Wanted: {want}."),
    why=_("A wall frame that is not braced can fold or lean out. The trusses then come down with it."),
    fix=_("Take the weight off. Report it, and have the frame braced before you go on."),
    safety=_("Keep everybody off and away from that wall until it is braced."),
    source=PRACTICE,
)
def unbraced_wall_loaded(before: Site, event: Event, after: Site) -> Finds:
    """The first truss on a wall whose frame is not braced, which was not reported."""
    for flaw in built_over(before, event, after, "wall not braced"):
        yield Found(flaw.wall, _("its frame is not braced"), _("every wall frame braced first"), cause_of_flaw(flaw))
