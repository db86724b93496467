"""Two neighbours, each near enough to its station, too far from each other."""

from __future__ import annotations

from trainer.rules.gaps import gap_of, widest_gap_of
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
    widest: dict[str, tuple[float, float]] = {}
    for bay in after.job.bays[place]:
        other = after.at_place.get(bay.second if bay.first == place else bay.first)
        most = widest_gap_of(after.job, bay)
        if other is not None and (gap := gap_of(after, bay)) > most + after.job.station_tolerance:
            widest[other] = max((gap, most), widest.get(other, (0.0, 0.0)))
    for other, (gap, most) in widest.items():
        if not misplaced(after, other):
            got = _("{gap} to {other}").format(gap=mm(gap, most + after.job.station_tolerance), other=other)
            want = _("{spacing} at most, within {near}").format(spacing=mm(most), near=mm(after.job.station_tolerance))
            yield Found(tag, got, want)
