"""A truss stood where nothing was marked for it."""

from __future__ import annotations

from trainer.order import marks_end
from trainer.rules.marks import called, is_marked
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand, mark_wanted
from trainer.words import _


@rule(
    severity="habit",
    on=Stand,
    what=_("{member} was stood {got}. Wanted: {want}."),
    why=_("With no line to stand to, a truss is stood by eye. What is out shows only when the battens go on."),
    fix=_("Mark the rest of the stations before you stand any more."),
    safety=_("Measure from a ladder or platform, never along a plate."),
    source=PRACTICE,
)
def station_not_marked(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood has no mark at an end; told once for each wall or carrier."""
    stood = after.stood[truss_of(event)]
    if "set-out" not in before.job.stages or stood.place is None:
        return
    place = before.layout.by_tag[stood.place]
    for end in (1, 2):
        if not marks_end(place, end):
            continue
        where, run = mark_wanted(before, place.tag, end)
        if not is_marked(before, where, run) and not _found_before(before, where):
            got = _("with no mark for it on {where}").format(where=called(before, where))
            yield Found(truss_of(event), got, _("each station marked first"), f"no marks {where}")
            return


def _found_before(site: Site, where: str) -> bool:
    """Whether another truss stands there already with no mark for it."""
    return any(
        station.tag in site.at_place and not is_marked(site, where, station.run)
        for station in site.job.stations.get(where, ())
    )
