"""How far the ends of a standing truss are from those of a place."""

from __future__ import annotations

from trainer.layout.model import Member
from trainer.plan import Point
from trainer.site import Stood


def _ends(stood: Stood, place: Member) -> tuple[Point, Point]:
    """Where the truss's ends are, the one at the place's ``from`` first."""
    here = ((stood.start, stood.finish), (stood.finish, stood.start))
    return min(here, key=lambda ends: _distance(ends[0], place.start) + _distance(ends[1], place.finish))


def _distance(a: Point, b: Point) -> float:
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def moved(stood: Stood, place: Member) -> tuple[Point, Point]:
    """Return how far each end stands from the place's ``from`` and ``to``, (x, y) in mm."""
    (ax, ay), (bx, by) = _ends(stood, place)
    return (ax - place.start[0], ay - place.start[1]), (bx - place.finish[0], by - place.finish[1])
