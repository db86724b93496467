"""A truss stood on a verandah beam that is not bolted to its posts.

The beam is there before the roof: whoever put it up bolts it to its posts. Who stands trusses looks, and has it put
right; what they tie down themselves is each truss to the beam. Common practice, no source.
"""

from __future__ import annotations

from trainer.rules.first_lift import built_over, cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("A truss was stood on the verandah beam of wall {member}, and {got}. Wanted: {want}."),
    why=_(
        "Nothing but its weight keeps such a beam on its posts. It can roll under a load, and wind lifts it off. "
        "Whoever put the beam up bolts it. You look at it before it takes a truss."
    ),
    fix=_("Take the weight off. Report it, and have the beam bolted down before you go on."),
    safety=_("Keep out from under that beam until it is bolted."),
    source=PRACTICE,
)
def beam_not_bolted_down(before: Site, event: Event, after: Site) -> Finds:
    """The first truss on a beam that is not bolted down, which was not reported."""
    for flaw in built_over(before, event, after, "beam not bolted down"):
        yield Found(
            flaw.wall, _("it was not bolted down"), _("the beam bolted to every post first"), cause_of_flaw(flaw)
        )
