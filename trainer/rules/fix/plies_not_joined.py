"""A truss of several plies that carries others before its plies are joined."""

from __future__ import annotations

from trainer.rules.links import first_on
from trainer.rules.plain import called
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, HandOver, Site, Stand, joined
from trainer.words import _, ngettext


@rule(
    severity="stop-work",
    on=(Stand, HandOver),
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("Plies share a load only when they are joined. One ply alone can bend and break."),
    fix=_("Join all plies as the drawing shows. Do it before the truss carries a load."),
    safety=_("Keep out from under a girder until its plies are joined."),
    source=PRACTICE,
)
def plies_not_joined(before: Site, event: Event, after: Site) -> Finds:
    """The first truss is set down on a multi-ply truss that is not joined, or it is handed over so; told once."""
    if "fix" not in after.job.stages:
        return
    if isinstance(event.action, HandOver):
        places = list(after.at_place)
    else:
        place = after.stood[truss_of(event)].place
        places = [tag for tag in after.layout.by_tag[place].carried_by if first_on(before, tag)] if place else []
    for place in places:
        if place in after.at_place and not joined(after, place):
            member = after.layout.by_tag[place]
            n = member.plies
            got = ngettext("{n} ply that is not joined", "{n} plies that are not joined", n).format(n=n)
            want = _("the plies of {truss} joined before it carries").format(truss=called(member))
            yield Found(after.at_place[place], got, want, f"join {place}")
