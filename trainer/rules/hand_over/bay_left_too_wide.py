"""A bay so wide at hand-over that the trusses beside it carry more roof than they were made for."""

from __future__ import annotations

from trainer.layout.bays import Bay
from trainer.rules.gaps import far_too_wide, gap_of, widest_gap_of
from trainer.rules.placement import misplaced
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} was handed over with a gap of {got}. Wanted: {want}."),
    why=_(
        "Each truss is made to carry the roof half way to the next. Beside a wide bay it carries too much, and battens "
        "can't reach."
    ),
    fix=_("Move the truss to its mark. Its ties, its fixings and the roof braces over it are then done again."),
    safety=_("Nobody goes on the roof before that. Hold the truss by another way before you loosen its ties."),
    source=LEVEL,
)
def bay_left_too_wide(before: Site, event: Event, after: Site) -> Finds:
    """Two neighbours are handed over much further apart than the spacing; once for each truss that is out."""
    if "stand" not in after.job.stages:
        return
    near = after.job.station_tolerance
    seen: set[str] = set()
    for bay in dict.fromkeys(bay for bays in after.job.bays.values() for bay in bays):
        tags = [after.at_place.get(place) for place in (bay.first, bay.second)]
        if None in tags or not _any_moved(after, bay, near):
            continue
        gap, most, too_wide = gap_of(after, bay), widest_gap_of(after.job, bay), far_too_wide(after.job, bay)
        if gap > too_wide:
            tag, other, cause = _who_is_out(after, bay)
            if tag not in seen:
                seen.add(tag)
                got = _("{gap} to {other}").format(gap=mm(gap, too_wide), other=other)
                yield Found(tag, got, _("{spacing} at most").format(spacing=mm(most)), cause)


def _any_moved(site: Site, bay: Bay, near: float) -> bool:
    """Whether either truss of a bay is out by more than the tolerance: without that no bay is far too wide."""
    stood = (site.stood[site.at_place[place]] for place in (bay.first, bay.second))
    return any(max(abs(off.along), abs(off.across)) > near for one in stood for off in one.off)


def _who_is_out(site: Site, bay: Bay) -> tuple[str, str, str]:
    """The truss of the two that stands out of its place, the other, and the cause of it."""
    first, second = site.at_place[bay.first], site.at_place[bay.second]
    for tag, other in ((second, first), (first, second)):
        if wrong := misplaced(site, tag):
            return tag, other, wrong.cause
    return second, first, ""
