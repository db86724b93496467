"""Corners of an outline: whether one is an outside corner, and how a fault shows it."""

from __future__ import annotations

from collections.abc import Sequence

Xy = tuple[int, int]


def outside_corner(corners: Sequence[Xy], i: int) -> bool:
    """Whether corner ``i`` of an anticlockwise outline is an outside corner."""
    (px, py), (x, y), (nx, ny) = corners[i - 1], corners[i], corners[(i + 1) % len(corners)]
    return (x - px) * (ny - y) - (y - py) * (nx - x) > 0


def xy(point: Xy) -> str:
    """A corner as a level file writes it."""
    return f"[{point[0]}, {point[1]}]"
