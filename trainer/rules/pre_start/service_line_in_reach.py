"""A lift within reach of a live service line."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, left_as_found
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting began with {got} from the {member}. Wanted: {want}."),
    why=_("A truss or a sling that comes near a live line can kill. Current can jump before anything touches."),
    fix=_("Stop lifting. Measure how near loads swing. Report it, and wait until the line is off or out of reach."),
    safety=_("Only those who run the line say that it is dead. Nobody touches a load that has met a line."),
    source=LEVEL,
)
def service_line_in_reach(before: Site, event: Event, after: Site) -> Finds:
    """The first lift is made with a service line nearer than the level allows, which was not reported."""
    for flaw in left_as_found(before, "service line"):
        got = _("loads that swing {near}").format(near=mm(flaw.clear, before.job.limits.clear_of_lines))
        want = _("{far} or more, or the line made dead").format(far=mm(before.job.limits.clear_of_lines))
        yield Found(_("service line"), got, want, cause_of_flaw(flaw))
