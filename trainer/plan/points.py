"""Places on the plan, and the grain in which lengths and places are told: half a millimetre."""

from __future__ import annotations

from trainer.plan.model import Point


def half(length: float) -> float:
    """Round a length to half a millimetre."""
    return round(length * 2) / 2


def to_half(point: Point) -> Point:
    """Round a place to half a millimetre, each way."""
    return (round(point[0] * 2) / 2, round(point[1] * 2) / 2)


def middle(a: Point, b: Point) -> Point:
    """Return the place halfway between two."""
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
