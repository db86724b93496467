"""Verandah beams, read from the trade brief a second time: what bears on one, and which one a post stands under.

Knows a level's own ``beams`` and outline alone. Common practice, no source.
"""

import math
from itertools import pairwise

from trainer.plan import wall_name


def beams_of(level):
    """(wall, one end, other end) of each beam, in plan."""
    corners = [*level.plates.outline, level.plates.outline[0]]
    walls = {wall_name(i): (a, b) for i, (a, b) in enumerate(pairwise(corners))}
    for name, stretch in level.beams.items():
        (ax, ay), (bx, by) = walls[name]
        long = math.dist((ax, ay), (bx, by))
        low, high = stretch or (0, long)
        ux, uy = (bx - ax) / long, (by - ay) / long
        yield name, (ax + ux * low, ay + uy * low), (ax + ux * high, ay + uy * high)


def under(level, end):
    """The wall whose beam an end of a truss bears on; none where it bears on a wall or a truss."""
    for name, a, b in beams_of(level) if level else ():
        if end.bears_on == f"plate {name}" and math.dist(a, end.at) + math.dist(end.at, b) <= math.dist(a, b) + 1:
            return name
    return None


def of_post(level, at):
    """The walls whose beams a post stands under: near to their line, and between their ends."""
    near = level.plates.width
    return {name for name, a, b in beams_of(level) if math.dist(a, at) + math.dist(at, b) <= math.dist(a, b) + 2 * near}
