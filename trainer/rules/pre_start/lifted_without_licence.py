"""A crane lift that nobody with a licence directs."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, left_as_found
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting began with {got}: {member}. Wanted: {want}."),
    why=_("Slinging and directing a crane load is high-risk work. The law asks for a licence."),
    fix=_("Stop lifting. Report it. Wait for a licensed dogger or rigger."),
    safety=_("Don't sling or signal a load that you are not licensed to."),
    source=PRACTICE,
)
def lifted_without_licence(before: Site, event: Event, after: Site) -> Finds:
    """The first lift is made with nobody licensed to direct the crane, which was not reported."""
    for flaw in left_as_found(before, "licence missing"):
        want = _("a licensed dogger or rigger to direct every lift")
        yield Found(_("licence"), _("nobody licensed to direct the crane"), want, cause_of_flaw(flaw))
