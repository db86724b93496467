"""Whether the links of the load path are in: the fixings at a truss's own ends, and what is beside them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from trainer.layout.model import Crossing
from trainer.order import Step, runs_over_truncated, trimmers
from trainer.plan import Point
from trainer.plan.points import half, middle, to_half
from trainer.site.model import Fitted, Site

SLOTTED = "slotted bracket"
NEAR = 150.0
"""How near to its place a trimmer or a bracket must be to be there, mm."""


def ends_fixed(site: Site, tag: str) -> bool:
    """Whether both ends of a standing truss are fixed, by one connector each at least; a job may count that as done."""
    return not loose_ends(site, tag)


def loose_ends(site: Site, tag: str) -> tuple[int, ...]:
    """Return the truss's own ends (1, 2) that are not fixed yet."""
    if "fix" not in site.job.stages:
        return ()
    return tuple(end for end in (1, 2) if not site.fixed.get((tag, end)))


def parts_on(site: Site, place: str, part: str) -> list[Fitted]:
    """Return the parts of one kind on the truss in ``place``, or on the place's own truss where none stands there."""
    tag = site.at_place.get(place, place)
    return [fitted for fitted in site.fitted.get(tag, ()) if fitted.part == part]


def joined(site: Site, place: str) -> bool:
    """Whether the plies of the truss in ``place`` are joined, or it has but one."""
    return site.layout.by_tag[place].plies == 1 or bool(parts_on(site, place, "plies joined"))


def seated(site: Site, place: str) -> bool:
    """Whether the batten for the saddle in ``place`` is down."""
    return bool(parts_on(site, place, "batten"))


def trimmer_at(site: Site, saddle: str, number: int) -> float:
    """Return where on a saddle its trimmer goes (the layout's part ``number``), mm from its ``from``."""
    part, member = site.layout.parts[number], site.layout.by_tag[saddle]
    return min(max(half(member.run(middle(part.start, part.finish))), 0.0), half(member.span))


def trimmed(site: Site, saddle: str, number: int) -> bool:
    """Whether the trimmer ``number`` is in under the saddle in ``saddle``."""
    return any(
        part.at is not None and trimmer_meant(site, saddle, part.at) == number
        for part in parts_on(site, saddle, "trimmer")
    )


def trimmer_meant(site: Site, saddle: str, at: float) -> int | None:
    """Which trimmer goes ``at`` so many mm along a saddle: the nearest, since a short saddle may need two."""
    places = {number: trimmer_at(site, saddle, number) for number in trimmers(site.layout, site.layout.by_tag[saddle])}
    nearest = min(places, key=lambda number: abs(places[number] - at), default=None)
    return nearest if nearest is not None and abs(places[nearest] - at) <= NEAR else None


def bridged(site: Site, number: int) -> bool:
    """Whether the trimmer for the wall spot ``number`` is in."""
    spot = site.job.wall_spots[number]
    return _there(parts_on(site, spot.tag, "trimmer"), spot.run)


def _there(parts: list[Fitted], run: float) -> bool:
    return any(part.at is not None and abs(part.at - run) <= NEAR for part in parts)


def crossing_key(site: Site, crossing: Crossing) -> tuple[str, Point] | None:
    """The key of a crossing's fixings: by the truss that runs over; none where that doesn't stand."""
    over = site.at_place.get(crossing.over)
    return None if over is None else (over, to_half(crossing.at))


def crossed(site: Site, crossing: Crossing) -> bool:
    """Whether an extension is fixed at one crossing."""
    key = crossing_key(site, crossing)
    return key is not None and bool(site.fixed.get(key))


def steadied(site: Site, place: str) -> bool:
    """Whether the extension of the truss in ``place`` has something to hold it up.

    It is propped, braced or tied; or fixed where it crosses a truncated truss; or all those under it stand.
    """
    under = runs_over_truncated(site.layout, place)
    tag = site.at_place.get(place)
    return (
        all(other in site.at_place for other in under)
        or any(tag in piece.tags for piece in site.bracing)
        or any(crossed(site, c) for c in site.job.crossings[place] if c.over == place and c.under in under)
    )


def slots_on(site: Site, wall: int) -> list[float]:
    """Return where slotted brackets hold the internal wall ``wall``, mm along it, in order."""
    return sorted(spot for spot, with_ in _fixed_on(site, wall) if with_ == SLOTTED)


def wall_at(site: Site, at: Point) -> int:
    """Return the number of the internal wall that a place fixed to one is on."""
    return next(number for number in range(len(site.job.inner_walls)) if _along(site, number, at) is not None)


def hard_on(site: Site, wall: int) -> list[float]:
    """Return where the internal wall ``wall`` is fixed hard to a truss, mm along it, in order."""
    return sorted(spot for spot, with_ in _fixed_on(site, wall) if with_ != SLOTTED)


def _fixed_on(site: Site, wall: int) -> Iterator[tuple[float, str]]:
    """Yield (mm along an internal wall, connector) of all that is fixed there."""
    for (_tag, at), how in site.fixed.items():
        if not isinstance(at, int) and (spot := _along(site, wall, at)) is not None:
            yield from ((spot, one.with_) for one in how)


def _along(site: Site, wall: int, at: Point) -> float | None:
    """How far along an internal wall a place is, mm; none where it is on none, or on another in line with it."""
    here = site.job.inner_walls[wall]
    on_it = at[1 - here.along] == to_half((here.line, 0))[0] and here.low <= at[here.along] <= here.high
    return at[here.along] if on_it else None


def loose_stretches(site: Site, wall: int) -> Iterator[tuple[float, float]]:
    """Yield (from, to) of every stretch of an internal wall without a bracket that is wider than the house allows.

    A wall's ends are held by what they meet. Where no truss could take a bracket, none is missed.
    """
    here = site.job.inner_walls[wall]
    wanted = [spot.spot for spot in site.job.wall_spots if spot.wall == wall]
    for low, high in pairwise([here.low, *slots_on(site, wall), here.high]):
        wide = high - low > site.layout.house.fixings.wall_brackets + site.job.station_tolerance
        if wide and any(low < spot < high for spot in wanted):
            yield low, high


def slotted(site: Site, number: int) -> bool:
    """Whether the wall spot ``number`` has its bracket, or others hold that stretch of the wall."""
    spot = site.job.wall_spots[number]
    return not any(low < spot.spot < high for low, high in loose_stretches(site, spot.wall))


def propped(site: Site, step: Step) -> bool:
    """Whether the extension of the truss in a place is held up."""
    return step.tag in site.at_place and steadied(site, step.tag)
