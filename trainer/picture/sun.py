"""The one sun that shines on the site in space: how bright a face is by the way it faces, and the shadow on the ground.

It stands still: turning the house turns its light with it. A look only: it stands for no place and no time of day.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from trainer.picture.model import Item, Polygon
from trainer.picture.space import Turn
from trainer.plan import Point
from trainer.roof.model import Point3

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

TO_SUN = (-0.84, -0.54)
"""The unit step in plan towards the sun: no wall of a house lies along it, so that each side has a shade of its own."""
CAST = 0.85
"""Length of the shadow of what is 1 high, on level ground."""
FULL, ASIDE, TURNED = 0.7, 0.0, -0.7
"""A face is in shade 1, 2, 3 or 4 as the cosine of the way it faces to the sun's is over these."""
LEVEL = 0.05
"""What leans no further than this from facing straight up is as bright as can be: the level part of its normal."""
SOFT = 170.0
"""Half the width of the soft edge of the shadow, mm."""
NEARLY = 120.0
"""How far an outline of the shadow may be off, mm."""
LEAST = 1e4
"""Pieces of shadow smaller than this are left out, mm²."""


def shade(normal: Sequence[float]) -> int:
    """Return how a face that looks along ``normal`` (x, y or x, y, z) lies to the sun: 1 in it, to 4 turned away."""
    flat = math.hypot(normal[0], normal[1])
    if flat <= LEVEL * math.hypot(*normal):
        return 1
    to_it = (normal[0] * TO_SUN[0] + normal[1] * TO_SUN[1]) / flat
    return next((n for n, least in enumerate((FULL, ASIDE, TURNED), 1) if to_it > least), 4)


def lit(role: str, normal: Sequence[float]) -> str:
    """Return the shade of a colour on a face that looks along ``normal``."""
    return f"{role} {shade(normal)}"


def prism(outline: Sequence[Point], low: float, high: float, role: str, turn: Turn, edge: str) -> Iterator[Item]:
    """Yield the faces that are seen of what stands on an anticlockwise ``outline`` from ``low`` to ``high``, mm."""
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        side = ((ax, ay, low), (bx, by, low), (bx, by, high), (ax, ay, high))
        if turn.sees(*side[:3]):
            yield Polygon(turn.all_flat(side), lit(role, (by - ay, ax - bx)), edge, 0.8)
    yield Polygon(turn.all_flat((x, y, high) for x, y in outline), f"{role} 1", edge, 0.8)


def cast(faces: Iterable[Sequence[Point3]], floor: float, turn: Turn) -> list[Item]:
    """Return the shadow of a few ``faces`` on the ground at ``floor``, mm: the soft edge of all, then all of it."""
    flat = [turn.all_flat((*_fall(place, floor), floor) for place in face) for face in faces]
    edge: list[Item] = [Polygon(outline, "cast_edge", "cast_edge", 2 * SOFT, "mm") for outline in flat]
    return [*edge, *(Polygon(outline, "cast") for outline in flat)]


def shadow(faces: Iterable[Sequence[Point3]], floor: float) -> tuple[tuple[str, tuple[Point, ...]], ...]:
    """Return the shadow of ``faces`` on the ground at ``floor``, as (colour, outline): its soft edge, then itself."""
    from shapely import unary_union  # noqa: PLC0415 - slow to load: once it is drawn
    from shapely.geometry import Polygon as Shape  # noqa: PLC0415

    fallen = [Shape([_fall(place, floor) for place in face]) for face in faces]
    whole = unary_union([shape if shape.is_valid else shape.buffer(0) for shape in fallen if shape.area > LEAST])
    return tuple(
        (role, outline)
        for role, by in (("cast_edge", SOFT), ("cast", -SOFT))
        for outline in _outlines(whole.buffer(by, quad_segs=3))
    )


def _fall(place: Point3, floor: float) -> Point:
    """Return where the shadow of a place in space comes on the ground."""
    by = CAST * (place[2] - floor)
    return place[0] - TO_SUN[0] * by, place[1] - TO_SUN[1] * by


def _outlines(shape: BaseGeometry) -> Iterator[tuple[Point, ...]]:
    """Yield the outlines of a shape; what is lit within a shadow is too little to see."""
    for part in getattr(shape, "geoms", (shape,)):
        if part.area > LEAST:
            yield tuple((x, y) for x, y in part.exterior.simplify(NEARLY).coords[:-1])
