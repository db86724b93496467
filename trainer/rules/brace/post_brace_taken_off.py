"""Lifting on after the braces came off a post under a verandah beam."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand, come_up
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Lifting went on with {got} at {member}. Wanted: {want}."),
    why=_("The roof holds the posts once it is braced for good. Until then their own braces do."),
    fix=_("Stop. Report it. Have the post plumbed and braced both ways again before the next lift."),
    safety=_("Keep out from under that beam until the post is braced."),
    source=PRACTICE,
)
def post_brace_taken_off(before: Site, event: Event, after: Site) -> Finds:
    """A truss is lifted after somebody took the braces off a post, and nobody reported it."""
    for flaw in come_up(before) if before.job.conditions.flaws else ():
        if flaw.what == "post brace taken off":
            want = _("posts braced until the roof is braced for good")
            yield Found(
                _("post {at}").format(at=flaw.where), _("a post left without its braces"), want, cause_of_flaw(flaw)
            )
