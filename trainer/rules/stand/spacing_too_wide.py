"""Two neighbours, each near enough to its station, too far from each other."""

from __future__ import annotations

from trainer.layout.bays import Bay
from trainer.rules.moved import moved
from trainer.rules.placement import misplaced
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="tolerance",
    on=Stand,
    what=_("{member} leaves a gap of {got}. Wanted: {want}."),
    why=_("Battens and roof sheets can only reach so far between trusses. Too wide a gap sags, or breaks underfoot."),
    fix=_("Measure all stations again from one end. Move the truss that is further out."),
    safety=_("Never step on a batten or sheet between trusses."),
    source=LEVEL,
)
def spacing_too_wide(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood and its neighbour are too far apart, though neither is off its station."""
    tag = truss_of(event)
    place = after.stood[tag].place
    if place is None or misplaced(after, tag):
        return
    spec = after.layout.house.trusses
    widest: dict[str, tuple[float, float]] = {}
    for bay in after.job.bays[place]:
        other = after.at_place.get(bay.second if bay.first == place else bay.first)
        # Beside the end of a girder the layout itself may leave half a thickness more.
        most = max(spec.spacing, bay.gap)
        if other is not None and (gap := _gap(after, bay)) > most + after.job.station_tolerance:
            widest[other] = max((gap, most), widest.get(other, (0.0, 0.0)))
    for other, (gap, most) in widest.items():
        if not misplaced(after, other):
            got = _("{gap} to {other}").format(gap=mm(gap, most + after.job.station_tolerance), other=other)
            want = _("{spacing} at most, within {near}").format(spacing=mm(most), near=mm(after.job.station_tolerance))
            yield Found(tag, got, want)


def _gap(site: Site, bay: Bay) -> float:
    """The gap of a bay as it stands, mm."""
    i = 0 if bay.axis == "x" else 1
    shifts = [
        moved(site.stood[site.at_place[place]], site.layout.by_tag[place])[end - 1][i]
        for place, end in ((bay.first, bay.ends[0]), (bay.second, bay.ends[1]))
    ]
    return bay.gap + shifts[1] - shifts[0]
