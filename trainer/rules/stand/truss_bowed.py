"""A truss handed over bowed."""

from __future__ import annotations

from trainer.rules.rule import BOW, Finds, rule
from trainer.rules.trueness import handed_over_untrue
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} is {got}. Wanted: {want}."),
    why=_("A bowed chord is weak. It bends further under load, and the ceiling shows it."),
    fix=_("Pull a string along the chord. Push it straight, then nail it to the ties."),
    safety=_("Straighten it while it is tied on both sides. Do not lean out to reach it."),
    source=BOW,
)
def truss_bowed(before: Site, event: Event, after: Site) -> Finds:
    """A truss is bowed by more than its length and the level's cap allow."""
    yield from handed_over_untrue(after, "bow")
