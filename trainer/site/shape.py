"""How true a truss stands: its lean, its bow, and its apex off the line of the others.

All come of the seed and the truss's own name and turn, and of what it was lined up by, so that one more action
elsewhere changes nothing. The sizes are common practice, no source: enough to need straightening about every
third time.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from trainer.chance import between
from trainer.layout.model import Member
from trainer.site.load_path import crossed
from trainer.site.model import Restrained, Site, Trued

AS_STOOD = 1.5
"""A truss just stood is out by up to this share of what is allowed."""
BY_OTHERS = 1.15
"""One that others left standing before the work began, by up to this share."""
BY_HAND = 0.2
"""And once straightened, by up to this share."""
SIGHTED = 3.0
"""An apex lined up by the plates is off by up to this, mm, and by what the plates are."""
STRUNG = 2.0
"""One lined up by a string is off by up to this, mm, and by what the ends of the string are."""
PULLED_OVER = 1.5
"""A truss that a strap was pulled over leans by this share of what is allowed."""
LEANING = (200.0, 350.0)
"""Truncated trusses lean by this, mm, under extensions that were left unfixed: a failure told in the trade
press, Timber Trader News, 11 October 2015, seen once."""

Way = Literal["plumb", "bow", "apex"]


@dataclass(frozen=True, slots=True)
class StandingShape:
    """``lean`` across the truss at its top, ``bow`` across it at its middle, ``apex`` along it off the line; mm."""

    lean: float
    bow: float
    apex: float


@dataclass(frozen=True, slots=True)
class Untrue:
    """A way in which a truss is out by more than is allowed: by ``got`` where ``limit`` is allowed, mm."""

    way: Way
    got: float
    limit: float


def shape(site: Site, tag: str) -> StandingShape:
    """Return how true the standing truss ``tag`` stands."""
    return StandingShape(_lean(site, tag), _bow(site, tag), _apex(site, tag))


def _lean(site: Site, tag: str) -> float:
    limit = site.job.limits.plumb(height(site.layout.by_tag[tag]))
    if pulled := pulled_over_by(site, tag):
        return PULLED_OVER * limit * (1 if pulled.start > pulled.finish else -1)
    if site.handed_over and left_unfixed(site, tag):
        return between(*LEANING, site.job.seed, "left unfixed", tag)
    return _out(site, tag, "lean", _share(site, tag) * limit)


def _bow(site: Site, tag: str) -> float:
    return _out(site, tag, "bow", _share(site, tag) * site.job.limits.bow(site.layout.by_tag[tag].span))


def _apex(site: Site, tag: str) -> float:
    trued = site.plumbed.get(tag)
    line = trued.line if trued else plates_out(site, tag)
    return _out(site, tag, "apex", STRUNG if trued and trued.by_string else SIGHTED) + line


def _share(site: Site, tag: str) -> float:
    """The share of what is allowed that a truss may be out by."""
    return BY_HAND if tag in site.plumbed else AS_STOOD if "stand" in site.job.stages else BY_OTHERS


def _out(site: Site, tag: str, what: str, most: float) -> float:
    """How far a truss is out in one way, drawn from its name, its turn, and whether it was straightened."""
    return between(-most, most, site.job.seed, what, tag, site.stood[tag].turn, tag in site.plumbed)


WAYS: tuple[Way, ...] = ("plumb", "bow", "apex")


def untrue(site: Site, tag: str, ways: Iterable[Way] = WAYS) -> Iterator[Untrue]:
    """Yield each of ``ways`` in which the standing truss ``tag`` is out by more than this job allows.

    Only a full-height truss has an apex to be in line with others.
    """
    member, limits = site.layout.by_tag[tag], site.job.limits
    for way in ways:
        if way == "plumb":
            got, limit = _lean(site, tag), limits.plumb(height(member))
        elif way == "bow":
            if tag in site.plumbed:
                continue  # by hand it comes within BY_HAND of what is allowed
            got, limit = _bow(site, tag), limits.bow(member.span)
        elif member.kind == "standard" or member.is_dutch:
            got, limit = _apex(site, tag), limits.apex
        else:
            continue
        if abs(got) > limit:
            yield Untrue(way, abs(got), limit)


def height(member: Member) -> float:
    """Height of a truss's top above its plate, mm."""
    return max(z for _, z in member.top)


def line_for(site: Site, tag: str) -> Trued:
    """Return what the truss is lined up by if it is straightened now, and how far that is off.

    By a string, which is as true as its ends are. Else by the plates under it, but for the outermost full-height
    trusses of a row, which are set by tape from the corners.
    """
    if over := string_over(site, tag):
        (first, last), share = over
        a, b = shape(site, first).apex, shape(site, last).apex
        return Trued(a + (b - a) * share, True)
    if outermost(site, tag):
        return Trued(0.0, False)
    return Trued(plates_out(site, tag), False)


def off_string(site: Site, tag: str) -> float:
    """Return how far the apex is off the string that runs over the truss, mm."""
    return shape(site, tag).apex - line_for(site, tag).line


def pulled_over_by(site: Site, tag: str) -> Restrained | None:
    """Return the roof brace that leans a standing truss, if one was pulled too hard over it."""
    pulled = (piece for piece in site.permanent if piece.pulled_over)
    return next((piece for piece in pulled if any(tag == over for over, _run in piece.crosses)), None)


def left_unfixed(site: Site, tag: str) -> tuple[str, ...]:
    """Return the places whose extensions run over this truncated truss, where none that stands is fixed to it."""
    place = site.stood[tag].place
    if place is None or not site.layout.by_tag[place].flat_topped or "fix" not in site.job.stages:
        return ()
    over = [c for c in site.job.crossings.get(place, ()) if c.under == place and c.over in site.at_place]
    return () if any(crossed(site, crossing) for crossing in over) else tuple(crossing.over for crossing in over)


def string_over(site: Site, tag: str) -> tuple[tuple[str, str], float] | None:
    """Return the ends of the string pulled last over a truss, and how far from the first it is, as a share."""
    place = _place(site, tag)
    row = site.layout.rows[place.row]
    here = row.index(place.tag)
    for ends in reversed(site.strings):
        first, last = (_place(site, end) for end in ends)
        if first.row == last.row == place.row:
            a, b = row.index(first.tag), row.index(last.tag)
            if min(a, b) < here < max(a, b):
                return ends, (here - a) / (b - a)
    return None


def outermost(site: Site, tag: str) -> bool:
    """Whether the truss is the first or the last full-height one of its row."""
    by_tag, place = site.layout.by_tag, _place(site, tag)
    row = site.layout.rows[place.row]
    full = [mate for mate in row if by_tag[mate].kind == "standard" or by_tag[mate].is_dutch]
    return bool(full) and place.tag in (full[0], full[-1])


def _place(site: Site, tag: str) -> Member:
    """The place of the layout that a standing truss takes, or else its own."""
    return site.layout.by_tag[site.stood[tag].place or tag]


def plates_out(site: Site, tag: str) -> float:
    """Return how far the apex is off the line, along the truss from its place's ``from``, where its plates lead it, mm.

    A truss does not stretch: where its plates are not a span apart, hands share what is amiss between its two ends.
    So its apex, midway between them, is off by the mean of how far each end's plate is bowed along the truss: two
    plates bowed inward alike leave it in line, two bowed the same way take it with them. An end on another truss is
    where that stands. Common practice, no source.
    """
    return (plate_out(site, tag, 1) - plate_out(site, tag, 2)) / 2


def plate_out(site: Site, tag: str, end: int) -> float:
    """Return how far the plate under an end (1 or 2 of its place) of a standing truss is bowed inward there, mm."""
    stood, bearing = site.stood[tag], _place(site, tag).ends[end - 1].bears_on
    wall = site.layout.house.plan.by_name.get(bearing.removeprefix("plate "))
    if wall is None:
        return 0.0
    dx, dy = wall.along
    t = ((stood.start[0] - wall.a[0]) * dx + (stood.start[1] - wall.a[1]) * dy) / wall.length
    bowed = sum(f.by for f in site.flaws if f.what == "bowed wall" and f.wall == wall.name)
    return bowed * 4 * t * (1 - t) + _beam_out(site, wall.run(stood.start), wall.name)


def _beam_out(site: Site, run: float, wall: str) -> float:
    """How far the beam on a wall is bowed inward so far along the wall, mm."""
    by = sum(f.by for f in site.flaws if f.what == "bowed beam" and f.wall == wall)
    on = next((b for b in site.layout.house.plan.beams if by and b.wall == wall and b.low < run < b.high), None)
    t = (run - on.low) / (on.high - on.low) if on else 0.0
    return by * 4 * t * (1 - t)
