"""House-like plans for tests: a main rectangle with wings grown from its walls one by one. Invented, by seed."""

import random

from plans import Corners, may_be_gable
from shapely.geometry import Polygon, box
from shapely.geometry.polygon import orient

from trainer.plan import PlatePlan, wall_name

STEPS = (100, 50, 10)
"""Plans are drawn to one of these, mm."""
LEAST_SIDE, LEAST_WING, WIDEST_WING = 2400, 3900, 9000


def grown_house(seed: int, gables: bool = True, most_wings: int = 4) -> PlatePlan:
    """Return a main rectangle and up to ``most_wings`` wings: no side under 2400, no wing under 3900 wide."""
    draw = random.Random(f"grown {seed}")
    step = STEPS[seed % len(STEPS)]

    def between(low: int, high: int) -> int:
        return draw.randrange(low // step, high // step + 1) * step

    shape = box(0, 0, between(6000, 15000), between(5000, 10000))
    for _ in range(draw.randrange(most_wings + 1)):
        corners = _corners(shape)
        index = draw.randrange(len(corners))
        a, b = corners[index], corners[(index + 1) % len(corners)]
        length = abs(a[0] - b[0]) + abs(a[1] - b[1])
        if length < LEAST_WING:
            continue
        width = between(LEAST_WING, min(length, WIDEST_WING))
        offset = draw.choice([0, length - width]) if draw.random() < 0.4 else between(0, length - width)
        ux, uy = (b[0] - a[0]) // length, (b[1] - a[1]) // length
        depth = between(LEAST_SIDE, 7000)
        p = (a[0] + ux * offset, a[1] + uy * offset)
        q = (p[0] + ux * width + uy * depth, p[1] + uy * width - ux * depth)
        wing = box(min(p[0], q[0]), min(p[1], q[1]), max(p[0], q[0]), max(p[1], q[1]))
        grown = shape.union(wing)
        if isinstance(grown, Polygon) and not grown.interiors and _shortest(_corners(grown)) >= LEAST_SIDE:
            shape = grown
    outline = _corners(shape)
    return PlatePlan(tuple(outline), 90, _some_gables(draw, outline) if gables else frozenset())


def _some_gables(draw: random.Random, outline: Corners) -> frozenset[str]:
    chosen: set[int] = set()
    for i in range(len(outline)):
        neighbours = {(i - 1) % len(outline), (i + 1) % len(outline)}
        if may_be_gable(outline, i) and draw.random() < 0.35 and not neighbours & chosen:
            chosen.add(i)
    return frozenset(map(wall_name, chosen))


def _corners(shape: Polygon) -> Corners:
    points = [(int(x), int(y)) for x, y in orient(shape).exterior.coords[:-1]]
    around = [(points[i - 1], points[i], points[(i + 1) % len(points)]) for i in range(len(points))]
    return [
        here for three in around for here in three[1:2] if all(len({p[axis] for p in three}) > 1 for axis in (0, 1))
    ]


def _shortest(points: Corners) -> int:
    return min(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in zip(points, points[1:] + points[:1], strict=True))
