"""A truss stood on a verandah beam with a post that is not braced."""

from __future__ import annotations

from trainer.rules.first_lift import built_over, cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("A truss was stood on the verandah beam at {member}, and {got}. Wanted: {want}."),
    why=_("A post stands on a pin. Until the roof is braced it can lean. The beam then goes with it."),
    fix=_("Take the weight off. Report it. Have the post braced plumb both ways before you go on."),
    safety=_("Keep everybody away from that beam until its posts are braced."),
    source=PRACTICE,
)
def post_not_braced(before: Site, event: Event, after: Site) -> Finds:
    """The first truss on a beam with a post that is not braced, which was not reported."""
    for flaw in built_over(before, event, after, "post not braced"):
        yield Found(
            _("post {at}").format(at=flaw.where),
            _("a post under it was not braced"),
            _("every post braced plumb both ways first"),
            cause_of_flaw(flaw),
        )
