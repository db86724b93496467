"""A truss stood on a verandah beam with a prop under its middle."""

from __future__ import annotations

from trainer.rules.first_lift import built_over, cause_of_flaw
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("A truss was stood on the verandah beam of wall {member}, and {got}. Wanted: {want}."),
    why=_("A prop takes load that the posts are made for. It is not tied down, and the beam drops when it goes."),
    fix=_("Take the weight off. Report it. Where the beam sags, ask who designed it. A post more may be wanted."),
    safety=_("Never take a prop from under a loaded beam."),
    source=PRACTICE,
)
def beam_propped(before: Site, event: Event, after: Site) -> Finds:
    """The first truss on a beam that is propped in the middle, which was not reported."""
    for flaw in built_over(before, event, after, "beam propped"):
        yield Found(
            flaw.wall, _("a prop held up its middle"), _("the beam on its posts alone, as drawn"), cause_of_flaw(flaw)
        )
