"""How true a truss stands: its lean, its bow, and its apex off the line of the others.

All come of the seed and the truss's own name and turn, so that one more action elsewhere changes
nothing. The sizes are common practice, no source: enough to need straightening about every third time.
"""

from __future__ import annotations

from dataclasses import dataclass

from trainer.layout.model import Member
from trainer.site.chance import between
from trainer.site.model import Site, Stood

AS_STOOD = 1.5
"""A truss just stood is out by up to this share of what is allowed."""
BY_HAND = 0.2
"""And once straightened, by up to this share."""
SIGHTED = 3.0
"""An apex lined up by the plates is off by up to this, mm, and by what the plates are."""
STRUNG = 2.0
"""One lined up by a string is off by up to this, mm."""
LEANING = (200.0, 350.0)
"""Truncated trusses lean by this, mm, under extensions that were left unfixed: a failure told in the trade
press, Timber Trader News, 11 October 2015, seen once."""


@dataclass(frozen=True, slots=True)
class Shape:
    """``lean`` across the truss at its top, ``bow`` across it at its middle, ``apex`` along it off the line; mm."""

    lean: float
    bow: float
    apex: float


def shape(site: Site, tag: str) -> Shape:
    """Return how true the standing truss ``tag`` stands."""
    stood, member = site.stood[tag], site.layout.by_tag[tag]
    straightened = tag in site.plumbed
    share = BY_HAND if straightened else AS_STOOD
    limits, seed = site.job.limits, site.job.seed

    def out(what: str, most: float) -> float:
        return between(-most, most, seed, what, tag, stood.turn, straightened)

    lean = out("lean", share * limits.plumb(height(member)))
    if site.handed_over and _unfixed_above(site, stood):
        lean = between(*LEANING, seed, "left unfixed", tag)
    if straightened and strung(site, tag):
        apex = out("apex", STRUNG)
    else:
        apex = out("apex", SIGHTED) + _plate_out(site, member, stood)
    return Shape(lean, out("bow", share * limits.bow(member.span)), apex)


def height(member: Member) -> float:
    """Height of a truss's top above its plate, mm."""
    return max(z for _, z in member.top)


def strung(site: Site, tag: str) -> bool:
    """Whether a string runs over the truss from one truss of its row to another beyond it, or from itself."""
    row = site.layout.rows[site.layout.by_tag[tag].row]
    here = row.index(tag)
    for ends in site.strings:
        spots = sorted(row.index(end) for end in ends if end in row)
        if len(spots) == 2 and spots[0] <= here <= spots[1]:
            return True
    return False


def _unfixed_above(site: Site, stood: Stood) -> bool:
    """Whether this is a truncated truss under extensions that stand, none of them fixed to it."""
    if stood.place is None or site.layout.by_tag[stood.place].kind != "truncated":
        return False
    over = [c for c in site.layout.crossings if c.under == stood.place and c.what == "extension"]
    standing = [c for c in over if c.over in site.at_place]
    return bool(standing) and not any(
        site.fixed.get((tag, c.at)) for c in standing for tag in (site.at_place[c.over], stood.tag)
    )


def _plate_out(site: Site, member: Member, stood: Stood) -> float:
    """How far the plate under the truss's ``from`` end is bowed inward where it stands, mm."""
    bearing = site.layout.by_tag[stood.place or member.tag].ends[0].bears_on
    wall = site.layout.house.plan.by_name.get(bearing.removeprefix("plate "))
    if wall is None:
        return 0.0
    dx, dy = wall.along
    t = ((stood.start[0] - wall.a[0]) * dx + (stood.start[1] - wall.a[1]) * dy) / wall.length
    bowed = sum(f.by for f in site.flaws if f.what == "bowed wall" and f.wall == wall.name)
    return bowed * 4 * t * (1 - t)
