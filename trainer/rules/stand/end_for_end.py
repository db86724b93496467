"""A truss turned end for end."""

from __future__ import annotations

from trainer.layout.model import Member
from trainer.rules.inspected import cause_of_turn
from trainer.rules.placement import in_wrong_place, looked_at
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site, Stand
from trainer.words import _


@rule(
    severity="rework",
    on=(Stand, HandOver),
    what=_("{member} is turned end for end: {got}. Wanted: {want}."),
    why=_("Each end is made for what it lands on. Turned round, neither end fits its place."),
    fix=_("Take it down, turn it round and stand it again. Find on the layout which end goes where."),
    safety=_("Turn a truss on the ground or on the crane, never on the walls. Use tag lines."),
    source=PRACTICE,
)
def end_for_end(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood has its two ends the wrong way round. A truss with like ends can't be.

    At hand-over again, if it stands so still: the roof is not whole.
    """
    for tag in looked_at(event, after):
        stood = after.stood[tag]
        if stood.turned and stood.place is not None and not in_wrong_place(after, tag):
            truss, place = after.layout.by_tag[stood.piece], after.layout.by_tag[stood.place]
            yield Found(tag, *_ends(truss, place), cause_of_turn(after, tag))


def _ends(truss: Member, place: Member) -> tuple[str, str]:
    """What is at the ends as it is turned, and what should be."""
    for end, own in zip(place.ends, reversed(truss.ends), strict=True):
        if own.tail and not end.tail and not end.on_plate:
            return (
                _("it has a tail where it hangs on {carrier}").format(carrier=end.bears_on),
                _("the end without a tail at {carrier}").format(carrier=end.bears_on),
            )
        if end.tail and not own.tail:
            return _("it has no tail at the eave"), _("the end with the tail on {plate}").format(plate=end.bears_on)
    bearing = place.ends[0].bears_on
    return _("its ends have changed places"), _("the end made for {bearing} on {bearing}").format(bearing=bearing)
