"""A truss braced to a verandah beam, as if that were solid."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Brace, Event, Site
from trainer.words import _


@rule(
    severity="stop-work",
    on=Brace,
    what=_("{member} was braced {got}. Wanted: {want}."),
    why=_("A beam on posts can sway. A brace to it holds nothing, and pulls at the posts."),
    fix=_("Take that brace off. Brace the truss to the floor, the ground or a braced wall."),
    safety=_("Fix the brace point before the truss arrives. Keep out from under it until it is held."),
    source=PRACTICE,
)
def braced_to_beam(before: Site, event: Event, after: Site) -> Finds:
    """A brace that is to hold a truss is fixed to a verandah beam."""
    if isinstance(event.action, Brace) and event.action.to == "beam":
        for tag in event.action.tags:
            place = before.stood[tag].place or tag
            want = _("braced to something that can't move")
            yield Found(tag, _("to the verandah beam"), want, f"tie {place}")
