"""A girder stood on a wall that has no studs under it."""

from __future__ import annotations

from trainer.rules.first_lift import cause_of_flaw, missing_studs
from trainer.rules.plain import called
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Wall {member} took {got}. Wanted: {want}."),
    why=_("A girder brings a large part of the roof down on one spot. Plates alone bend and split there."),
    fix=_("Take the girder off again. Report it, and have studs put in right under its end."),
    safety=_("Stay out from under the girder until the studs are in."),
    source=PRACTICE,
)
def studs_missing_under_girder(before: Site, event: Event, after: Site) -> Finds:
    """The first girder on a wall without studs under it, or where it has none, the first truss; it was not reported."""
    tag = truss_of(event)
    for flaw in missing_studs(before, event, after):
        got = _("{truss}, and has no studs under it").format(truss=called(after.layout.by_tag[tag]))
        yield Found(flaw.wall, got, _("studs under each girder before it is lifted"), cause_of_flaw(flaw))
