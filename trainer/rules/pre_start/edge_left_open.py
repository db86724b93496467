"""A lift with a rail or a work platform missing."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, left_as_found
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting began with no protection at {member}: {got}. Wanted: {want}."),
    why=_("Most bad injuries on roofs come of falls. People fall from edges and from poor footholds."),
    fix=_("Stop lifting. Report it. Have the rail or the platform put up first."),
    safety=_("Stay clear of that edge until it is guarded. Keep off the outside plates."),
    source=PRACTICE,
)
def edge_left_open(before: Site, event: Event, after: Site) -> Finds:
    """The first lift is made with a rail or a platform missing that nobody reported."""
    for flaw in left_as_found(before, "missing rail"):
        want = _("rails up before anything is lifted")
        yield Found(_("wall {wall}").format(wall=flaw.wall), _("its rail was missing"), want, cause_of_flaw(flaw))
    for flaw in left_as_found(before, "missing platform"):
        want = _("platforms up before anything is lifted")
        yield Found(_("the place to work"), _("its platform was missing"), want, cause_of_flaw(flaw))
