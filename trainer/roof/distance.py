"""How far one place is from the outside, and so how high the roof is over it."""

from __future__ import annotations

import math
from functools import lru_cache

from trainer.plan import PlatePlan, Wall, gable_of, roof_parts
from trainer.roof.rects import RoofRect, grid, roof_rects


def distance(plan: PlatePlan, x: float, y: float) -> float:
    """Return the distance of a place on the plan to the outside, the larger of the x and y distances, mm.

    Inside the plates it is the largest of what the plan's largest rectangles have by themselves. It is negative
    outside, where the planes run on: over an eave it is less the distance to the nearest wall, past a gable it is the
    distance to the eaves beside it, and past the face of a higher wall what it is at that face. The roof's height is
    ``heel + distance * tan(pitch)``. ``plan`` must be sound, as for :func:`trainer.roof.solve`; time grows with the
    rectangles.
    """
    rects = _rects(plan)
    if within := [r for r in rects if r.holds(x, y)]:
        return max(r.distance(x, y) for r in within)
    wall = min(plan.walls, key=lambda wall: _nearness(wall, x, y))
    if wall.eave:
        return 0.0 - _nearness(wall, x, y)[0]
    along, _ = _before(wall, x, y)
    if wall.against:  # nothing lies past it but what rounding puts there
        along = min(max(along, 0.0), wall.length)
        return max(r.distance(*wall.at(along)) for r in rects if r.holds(*wall.at(along)))
    # The eaves on either side run on past the gable; a higher wall does not.
    part, wall = gable_of(plan, wall)
    along, _ = _before(wall, x, y)
    before, after = part.walls[wall.index - 1], part.walls[(wall.index + 1) % len(part.walls)]
    beside = min(along if before.eave else math.inf, wall.length - along if after.eave else math.inf)
    if beside <= 0:
        return beside
    along = min(max(along, 0.0), wall.length)
    return min(beside, max(r.distance(x, y) for r in rects if r.holds(*wall.at(along))))


@lru_cache(maxsize=8)
def _rects(plan: PlatePlan) -> list[RoofRect]:
    """The largest rectangles of a plan; many places of one house are asked for, one after another."""
    return [rect for part in roof_parts(plan) for rect in roof_rects(part, grid(part))]


def _nearness(wall: Wall, x: float, y: float) -> tuple[float, float, float]:
    """What tells the nearest wall: of walls as near, the one that the place lies most squarely before."""
    (ax, ay), (bx, by) = wall.a, wall.b
    far = max(min(ax, bx) - x, x - max(ax, bx), min(ay, by) - y, y - max(ay, by), 0.0)
    along, inward = _before(wall, x, y)
    return (far, inward, max(-along, along - wall.length))


def _before(wall: Wall, x: float, y: float) -> tuple[float, float]:
    """Distance along a wall from its first corner, and inward from its line."""
    (ax, ay), (dx, dy) = wall.a, wall.along
    return ((x - ax) * dx + (y - ay) * dy, (y - ay) * dx - (x - ax) * dy)
