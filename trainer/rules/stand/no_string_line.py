"""A truss between the outermost two stood without a string, over a plate that is not straight."""

from __future__ import annotations

from trainer.order import Step
from trainer.order.straightening import STRING_FIRST
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import mm
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.rules.stand.out_of_order import REASONS
from trainer.site import Event, Site, Stand, done, plate_out, plates_out
from trainer.words import _


@rule(
    severity="habit",
    on=Stand,
    what=_("{member} was stood {got}. A better order is {want}."),
    why=_("A string from top to top shows each truss where to be. A bowed plate misleads."),
    fix=_("Pull the string now. Plumb again each truss that was lined up by the plate."),
    safety=_("Work from a platform inside the walls while you pull the string."),
    source=PRACTICE,
)
def no_string_line(before: Site, event: Event, after: Site) -> Finds:
    """The first truss of a row between its outermost two was stood with no string up, and a bowed plate misleads it.

    Sighting along a straight plate is as good. Where an outermost truss does not stand, that is the cause.
    """
    tag = truss_of(event)
    place = after.stood[tag].place
    if place is None or in_wrong_place(after, tag) or not _misled(after, tag):
        return
    for edge in after.job.order.into.get(Step("stand", place), ()):
        if edge.first.verb == "string" and not done(before, edge.first) and _first_without(before, edge.first, place):
            text = _("with no string up, and its plate is {out} out of straight")
            got = text.format(out=mm(max(abs(plate_out(after, tag, end)) for end in (1, 2))))
            yield Found(tag, got, REASONS[STRING_FIRST], f"string {after.layout.by_tag[place].row}")


def _first_without(before: Site, string: Step, place: str) -> bool:
    """Whether the outermost two stand, and no other truss of the row was misled by its plate before this one."""
    order = before.job.order
    others = (edge.then.tag for edge in order.out_of[string] if edge.then.verb == "stand" and edge.then.tag != place)
    up = (before.at_place[other] for other in others if other in before.at_place)
    ends = {edge.first.tag for edge in order.into[string]}
    return ends <= before.at_place.keys() and not any(_misled(before, tag) for tag in up)


def _misled(site: Site, tag: str) -> bool:
    """Whether the plates under a truss lead its top further off the line than it may be."""
    return abs(plates_out(site, tag)) > site.job.limits.apex
