"""A truss stood on a verandah beam with a post that is not tied to the ground."""

from __future__ import annotations

from trainer.rules.first_lift import built_over, cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("A truss was stood on the verandah beam at {member}, and {got}. Wanted: {want}."),
    why=_(
        "Wind pushes up under an open roof. A loose post lifts out, and the roof goes with it. "
        "Whoever set the posts ties them down. You look at them before they carry a truss."
    ),
    fix=_("Take the weight off. Report it. Have the foot of the post tied to its footing before you go on."),
    safety=_("Keep out from under that roof when the wind gets up."),
    source=PRACTICE,
)
def post_not_tied_down(before: Site, event: Event, after: Site) -> Finds:
    """The first truss on a beam with a post that is not tied down, which was not reported."""
    for flaw in built_over(before, event, after, "post not tied down"):
        yield Found(
            _("post {at}").format(at=flaw.where),
            _("the foot of a post under it was loose"),
            _("every post tied down to its footing first"),
            cause_of_flaw(flaw),
        )
