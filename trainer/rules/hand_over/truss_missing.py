"""A place with no truss in it at hand-over."""

from __future__ import annotations

from trainer.rules.completeness import missing
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.terms import KIND_NAMES
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("The place of {member} has {got}. Wanted: {want}."),
    why=_("The roof has a hole in what holds it up. The trusses on either side carry too much."),
    fix=_("Stand the truss. Count the trusses against the layout before you hand over."),
    safety=_("Nothing goes on the roof until every truss is in and fixed."),
    source=PRACTICE,
)
def truss_missing(before: Site, event: Event, after: Site) -> Finds:
    """A place of the layout stands empty for want of a truss; its fixings are not told as well.

    One that fell and was cleared away is missing because of the fall.
    """
    for place in missing(after):
        want = _("a {kind}").format(kind=KIND_NAMES[after.layout.by_tag[place].kind])
        cause = after.fell[place].cause if place in after.fell else f"stand {place}"
        yield Found(place, _("no truss in it"), want, cause)
