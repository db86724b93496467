"""The planes that a truss holds up: one leg for each sloping piece of the roof line along it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from trainer.layout.model import Leg
from trainer.roof.rects import Axis, Profile


def legs_of(line: Profile, planes_along: Axis, spot: float, run0: float, way: int) -> Iterator[Leg]:
    """Yield a leg for each slope of ``line``, (place across the planes, distance to the outside) pairs.

    The planes' walls run along ``planes_along``, where the truss stands at ``spot``. The place ``run0`` is the
    truss's ``from``, and ``way`` (1 or -1) how its run goes by the places.
    """
    for (a, low), (b, high) in pairwise(line):
        if low == high or a == b:
            continue
        inward = 1 if high > low else -1
        foot = a - low if inward > 0 else b + high
        yield Leg(
            (planes_along, foot, inward), spot, 0, min(low, high), max(low, high), way * (foot - run0), way * inward
        )


def height_on(line: Iterable[tuple[float, float]], at: float) -> float | None:
    """Height of a line of (place, height) pairs at a place; None beyond its ends."""
    for (a, low), (b, high) in pairwise(line):
        if a <= at <= b:
            return low if a == b else low + (high - low) * (at - a) / (b - a)
    return None
