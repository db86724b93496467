"""A truss at a higher wall that was let go with its top not tied to that wall."""

from __future__ import annotations

from trainer.rules.letting_go import to_the_wall
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, Stand, wall_tied
from trainer.site.actions import Unbrace
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, Unbrace, HandOver),
    what=_("{member} was {got}. Wanted: {want}."),
    why=_("A truss at a higher wall gets its hold from that wall. Tied to each other alone, the whole row can tip."),
    fix=_("Tie its top to the studs of the higher wall. Only then let it go."),
    safety=_("Stay on the platform while you tie it. Keep hold of the truss until the tie is in."),
    source=PRACTICE,
)
def wall_tie_missing(before: Site, event: Event, after: Site) -> Finds:
    """A truss at a higher wall is let go, or left, held by other trusses or by a brace, but not tied to the wall.

    One that nothing holds at all is found by the rules about letting go.
    """
    for tag in _left(before, event):
        if tag in after.stood and tag in after.holds and tag in before.holds and not wall_tied(after, tag):
            place = after.stood[tag].place or tag
            got = _("let go with its top not tied to the wall")
            yield Found(tag, got, to_the_wall(after, place), f"tie {place}")


def _left(before: Site, event: Event) -> tuple[str, ...]:
    """The trusses that hands leave in an event; where they stood from the start, all at hand-over."""
    if isinstance(event.action, Unbrace):
        return event.action.tags if event.action.kind == "wall tie" else ()
    if isinstance(event.action, HandOver) and "stand" not in before.job.stages:
        return tuple(before.stood)
    return event.let_go
