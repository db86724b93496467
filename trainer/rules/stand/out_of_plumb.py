"""A truss handed over out of plumb."""

from __future__ import annotations

from trainer.rules.rule import PLUMB, Finds, rule
from trainer.rules.trueness import handed_over_untrue
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} stands {got}. Wanted: {want}."),
    why=_("A truss carries its load standing upright. One that leans pushes sideways on the rest."),
    fix=_("Hold a plumb line or a long level to it. Push it upright, then nail the ties again."),
    safety=_("Ease one tie at a time. Keep the truss held while it moves."),
    source=PLUMB,
)
def out_of_plumb(before: Site, event: Event, after: Site) -> Finds:
    """A truss leans by more than its height and the level's cap allow."""
    yield from handed_over_untrue(after, "plumb")
