"""Which corner of each wall a tape is hooked on. Common practice, no source.

All walls that run the same way are measured from the same end of the house, so that the two marks of a truss show one
measure. That is the end where the tape was hooked first: the first corner of the first wall, until it is put elsewhere.
"""

from __future__ import annotations

import math

from trainer.plan.model import PlatePlan, Point, Wall
from trainer.words import _


def read_back(plan: PlatePlan, hook: Point | None = None) -> frozenset[str]:
    """Return the walls along which the tape reads from their other corner: where that is nearer to the ``hook``."""
    hook = hook or plan.walls[0].a
    return frozenset(wall.name for wall in plan.walls if math.dist(hook, wall.b) < math.dist(hook, wall.a))


def taped(plan: PlatePlan, wall: Wall, run: float) -> float:
    """Return what the tape shows at a run from a wall's first corner, mm; the drawings show the same."""
    return wall.length - run if wall.name in read_back(plan) else run


def hooked_at(plan: PlatePlan, wall: Wall) -> str:
    """Return what the corner of a wall is called that the tape is hooked on."""
    return corners(plan, wall.name)[wall.name in read_back(plan)]


def corners(plan: PlatePlan, wall: str) -> tuple[str, str]:
    """Return what the first and the other corner of a wall are called: by the walls that meet there."""
    names = [each.name for each in plan.walls]
    index = names.index(wall)
    name = _("corner {a}{b}")
    return name.format(a=names[index - 1], b=wall), name.format(a=wall, b=names[(index + 1) % len(names)])
