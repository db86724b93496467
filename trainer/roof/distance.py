"""How far one place is from the outside, and so how high the roof is over it."""

from __future__ import annotations

from trainer.plan import Plan, Wall
from trainer.roof.side import FAR

_Box = tuple[float, float, float, float]
"""(least x, least y, greatest x, greatest y), mm."""


def distance(plan: Plan, x: float, y: float) -> float:
    """Return the distance of a place on the plan to the outside, the larger of the x and y distances, mm.

    It is negative outside the plates, where the planes run on: over an eave it is less the distance to the
    nearest wall, past a gable it is the distance to the eaves beside it. The roof's height is
    ``heel + distance * tan(pitch)``. ``plan`` must be sound, as for :func:`trainer.roof.solve`; time grows
    with the corners.
    """
    if _inside(plan, x, y):
        return _within(plan, _seen(plan, x, y), x, y)
    wall = min(plan.walls, key=lambda wall: _nearness(wall, x, y))
    if not wall.gable:
        return 0.0 - _to(wall, _EVERYWHERE, x, y)
    along, _ = _before(wall, x, y)
    beside = min(along, wall.length - along)  # the eaves on either side run on past the gable
    if beside <= 0:
        return beside
    return min(beside, _within(plan, _cut(_seen(plan, x, y), wall), x, y))


def _nearness(wall: Wall, x: float, y: float) -> tuple[float, float, float]:
    """What tells the nearest wall: of walls as near, the one that the place lies most squarely before."""
    along, inward = _before(wall, x, y)
    return (_to(wall, _EVERYWHERE, x, y), inward, max(-along, along - wall.length))


def _before(wall: Wall, x: float, y: float) -> tuple[float, float]:
    """Distance along a wall from its first corner, and inward from its line."""
    (ax, ay), (dx, dy) = wall.a, wall.along
    return ((x - ax) * dx + (y - ay) * dy, (y - ay) * dx - (x - ax) * dy)


_EVERYWHERE: _Box = (-FAR, -FAR, FAR, FAR)


def _within(plan: Plan, seen: _Box, x: float, y: float) -> float:
    """Distance to the nearest eave, or part of one, that is seen."""
    return min((_to(wall, seen, x, y) for wall in plan.walls if not wall.gable), default=FAR)


def _seen(plan: Plan, x: float, y: float) -> _Box:
    """What counts for a place: nothing behind a gable that it lies straight in from.

    Where something stands in between, that is nearer than all behind the gable, so no harm is done.
    """
    seen = _EVERYWHERE
    for wall in plan.walls:
        along, inward = _before(wall, x, y)
        if wall.gable and 0 < along < wall.length and inward >= 0:
            seen = _cut(seen, wall)
    return seen


def _cut(seen: _Box, wall: Wall) -> _Box:
    """The part of what is seen on the inward side of a wall's line."""
    x0, y0, x1, y1 = seen
    (ax, ay), (dx, dy) = wall.a, wall.inward
    return (
        max(x0, ax) if dx > 0 else x0,
        max(y0, ay) if dy > 0 else y0,
        min(x1, ax) if dx < 0 else x1,
        min(y1, ay) if dy < 0 else y1,
    )


def _to(wall: Wall, seen: _Box, x: float, y: float) -> float:
    """Distance to the part of a wall that is seen; ``FAR`` if none is."""
    (ax, ay), (bx, by) = wall.a, wall.b
    x0, x1 = max(min(ax, bx), seen[0]), min(max(ax, bx), seen[2])
    y0, y1 = max(min(ay, by), seen[1]), min(max(ay, by), seen[3])
    if x0 > x1 or y0 > y1:
        return FAR
    return max(x0 - x, x - x1, y0 - y, y - y1, 0.0)


def _inside(plan: Plan, x: float, y: float) -> bool:
    """Whether a place is inside the plates; on a wall either answer leads to the same distance."""
    inside = False
    for wall in plan.walls:
        (ax, ay), (bx, by) = wall.a, wall.b
        if ax == bx and x < ax and min(ay, by) <= y < max(ay, by):
            inside = not inside
    return inside
