"""The places at which a standing truss can be fixed besides its ends: crossings, and internal walls under it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.layout.inner_walls import InnerWall
from trainer.plan import Point
from trainer.plan.points import to_half
from trainer.site.model import Site, Stood
from trainer.words import _

NEAR = 150.0
"""Places nearer to each other than this are one, mm."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on the plan, and what is there in words; ``other`` is the place of the truss that is crossed there."""

    at: Point
    words: str
    other: str = ""


def spots_of(site: Site, tag: str) -> tuple[Spot, ...]:
    """Return the places along a standing truss at which it can be fixed to what it crosses."""
    if tag not in site.stood:
        return ()
    stood = site.stood[tag]
    found: list[Spot] = []
    for spot in _all(site, stood):
        if all(math.dist(spot.at, other.at) > NEAR or spot.words != other.words for other in found):
            found.append(spot)
    return tuple(found)


def _all(site: Site, stood: Stood) -> Iterator[Spot]:
    place = stood.place or ""
    for crossing in site.job.crossings.get(place, ()):
        other = crossing.under if crossing.over == place else crossing.over
        yield Spot(to_half(crossing.at), _("crossing with {tag}").format(tag=other), other)
    for spot in site.job.wall_spots:
        if spot.tag == place:
            yield Spot(to_half(spot.at), _("internal wall"))
    for wall in site.job.inner_walls:
        if (at := _over(stood, wall)) is not None:
            yield Spot(to_half(at), _("internal wall"))


def _over(stood: Stood, wall: InnerWall) -> Point | None:
    """Return where a truss passes over an internal wall; None where it does not, or runs along it."""
    across = 1 - wall.along
    begin, end = stood.start[across], stood.finish[across]
    if abs(end - begin) < 1:
        return None
    share = (wall.line - begin) / (end - begin)
    spot = stood.start[wall.along] + share * (stood.finish[wall.along] - stood.start[wall.along])
    return wall.at(spot) if 0 <= share <= 1 and wall.low <= spot <= wall.high else None
