"""Brackets that hung ends need on their carriers.

They are looked for when the truss is set down in them, and again at hand-over: the roof is not whole without. Where the
carrier did not even stand by then, that is the cause.
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.order import needs_bracket
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import called_bearing, mm
from trainer.rules.rule import Found, truss_of
from trainer.site import Event, HandOver, Site, bracket_wanted, bracketed
from trainer.words import _


def brackets_missing(before: Site, event: Event, after: Site, part: str) -> Iterator[Found]:
    """Yield each hung end that came down, or is handed over, without its bracket of this kind."""
    if "fix" not in after.job.stages:
        return
    if isinstance(event.action, HandOver):
        hung = _handed_over_without(after)
    else:
        place = after.stood[truss_of(event)].place
        hung = _hung_ends(before, place) if place else iter(())
    for place, end in hung:
        tag = after.at_place[place]
        carrier, wanted = bracket_wanted(after, place, end)
        if wanted.part == part and not bracketed(after, place, end) and not in_wrong_place(after, tag):
            text = _("{part} on {carrier} at {at}")
            want = text.format(part=part, carrier=called_bearing(after.layout, carrier), at=mm(wanted.at))
            yield Found(tag, _instead(after, carrier, part, wanted.at), want, f"fit {place}.{end}")


def _hung_ends(site: Site, place: str) -> Iterator[tuple[str, int]]:
    """The ends of a place that hang on a ledger, or on a carrier that stands."""
    member = site.layout.by_tag[place]
    for end in (1, 2):
        here = member.ends[end - 1]
        if needs_bracket(member, end) and (here.on_ledger or here.bears_on in site.at_place):
            yield place, end


def _handed_over_without(site: Site) -> Iterator[tuple[str, int]]:
    """The hung ends with no bracket left for them; where several share a spot, those stood last."""
    turn = {tag: i for i, tag in enumerate(site.stood)}
    near = site.job.station_tolerance
    for place, tag in site.at_place.items():
        for _place, end in _hung_ends(site, place):
            carrier, wanted = bracket_wanted(site, place, end)
            there = [f for f in site.fitted.get(carrier, ()) if f.part == wanted.part and f.at is not None]
            fitted = sum(f.at is not None and abs(f.at - wanted.at) <= near for f in there)
            before = sum(
                hung.part == wanted.part
                and abs(hung.at - wanted.at) <= near
                and turn[site.at_place[hung.tag]] < turn[tag]
                for hung in site.job.hung[carrier]
                if hung.tag in site.at_place
            )
            if fitted <= before:
                yield place, end


def _instead(site: Site, carrier: str, part: str, at: float) -> str:
    """What there is instead: the nearest bracket of the kind within a spacing, or none."""
    near = [f.at for f in site.fitted.get(carrier, ()) if f.part == part and f.at is not None]
    nearest = min(near, key=lambda spot: abs(spot - at), default=None)
    if nearest is None or not site.job.station_tolerance < abs(nearest - at) < site.layout.house.trusses.spacing / 2:
        return _("no {part}").format(part=part)
    return _("a {part} that is {out} out").format(part=part, out=mm(abs(nearest - at), site.job.station_tolerance))
