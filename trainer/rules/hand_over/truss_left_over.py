"""A truss still in the yard while another stands in its place."""

from __future__ import annotations

from trainer.rules.completeness import left_over
from trainer.rules.placement import cause_of_place
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} is left over: {got}. Wanted: {want}."),
    why=_("Every truss sent has a place. If one is left over, its place is empty, or holds a wrong one."),
    fix=_("Find its tag on the layout. Take down what stands there, and stand the right truss."),
    safety=_("Take down from the free end of the row. Hold each truss before you loosen it."),
    source=PRACTICE,
)
def truss_left_over(before: Site, event: Event, after: Site) -> Finds:
    """A truss lies in the yard at hand-over, and a wrong one stands where it belongs."""
    for tag, taker in left_over(after):
        place = after.stood[taker].place or taker
        got = _("it is still in the yard, and {taker} stands in its place").format(taker=taker)
        yield Found(
            tag, got, _("{tag} in the place of {place}").format(tag=tag, place=place), cause_of_place(after, taker)
        )
