"""What the house stands on in space: the ground up to its horizon, and a person for scale; all of it a look only."""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout.model import House
from trainer.picture.model import Item, Polygon
from trainer.picture.space import Turn
from trainer.plan import PlatePlan, Point, Wall
from trainer.roof.model import Point3

FIGURE = ("ink", "vest", "skin")
"""The colours of what is the person, and not what is on it."""
LANDSCAPE = ("hills", "ground")
"""The colours of what lies round the house."""
WIDE = 90_000.0
"""How far the ground is drawn to each side and towards whoever looks, mm of paper."""
FAR = 4_000.0
"""How far behind the house the horizon lies, mm: near, so that it is seen over the roof."""
PAST = 600.0
"""How far behind what lies on the ground the horizon is at least, mm of paper."""
STEEP = 68.0
"""Looking down more steeply than this there is no horizon in sight, degrees."""
VISITOR = 640.0
"""How far outside the eave somebody stands, mm."""
_LEG = ((20.0, 0.0), (150.0, 0.0), (165.0, 850.0), (10.0, 850.0))
_BODY = ((-175.0, 830.0), (175.0, 830.0), (235.0, 1420.0), (-235.0, 1420.0))
_ARM = ((235.0, 1400.0), (330.0, 960.0), (260.0, 930.0), (170.0, 1330.0))
_STRIPE = ((-190.0, 1010.0), (190.0, 1010.0), (197.0, 1080.0), (-197.0, 1080.0))
_HAT = ((-135.0, 1615.0), (135.0, 1615.0), (120.0, 1690.0), (50.0, 1750.0), (-50.0, 1750.0), (-120.0, 1690.0))


def ground(plan: PlatePlan, turn: Turn, farthest: float = -WIDE) -> list[Item]:
    """Return the ground up to the horizon, and low hills along it that turn with the house.

    What lies ``farthest`` up the paper, mm, lies on the ground.
    """
    foot = -WIDE
    if turn.tilt > STEEP:
        return [_band(foot, WIDE, "ground")]
    x0, y0, x1, y1 = plan.bounds
    beyond = math.hypot(x1 - x0, y1 - y0) / 2 + FAR
    _c, _s, down, up, _mx, _my = turn.numbers
    edge = max(beyond * down - plan.height * up, farthest + PAST)
    line = []
    for k in range(61):
        x = (k / 30 - 1) * WIDE
        way = math.radians(turn.yaw) + x / 30_000
        line.append((x, edge + up * (900 + 420 * math.sin(3 * way) + 260 * math.sin(7 * way + 1))))
    hills = Polygon((*line, (WIDE, edge), (-WIDE, edge)), "hills")
    return [hills, _band(foot, edge, "ground")]


def _band(low: float, high: float, role: str) -> Polygon:
    return Polygon(((-WIDE, low), (WIDE, low), (WIDE, high), (-WIDE, high)), role)


def visitor(house: House, turn: Turn, *, near: bool) -> Iterator[Item]:
    """Yield a person on the ground before the first wall with an eave, where that is before the house or behind it."""
    wall, plan, away = eave_wall(house.plan), house.plan, turn.away
    (nx, ny), out = wall.inward, house.roof.overhang + VISITOR
    x, y = wall.at(wall.length * 0.25)
    if (nx * away[0] + ny * away[1] > 0) == near:
        yield from person((x - nx * out, y - ny * out, -plan.height), turn)


def person(at: Point3, turn: Turn) -> Iterator[Item]:
    """Yield a person who stands at a place and faces whoever looks: 1750 mm, with a helmet."""
    c, s, *_rest = turn.numbers
    x, y, z = at

    def flat(shape: tuple[Point, ...], side: float = 1.0) -> tuple[Point, ...]:
        return turn.all_flat([(x + c * u * side, y - s * u * side, z + up) for u, up in shape])

    for side in (1.0, -1.0):
        yield Polygon(flat(_LEG, side), "ink")
        yield Polygon(flat(_ARM, side), "vest")
    yield Polygon(flat(_BODY), "vest")
    yield Polygon(flat(_STRIPE), "panel")
    head = tuple((105 * math.cos(math.tau * k / 10), 1540 + 115 * math.sin(math.tau * k / 10)) for k in range(10))
    yield Polygon(flat(head), "skin")
    yield Polygon(flat(_HAT), "panel", "ink", 1.0)


def eave_wall(plan: PlatePlan) -> Wall:
    """Return the first wall with an eave."""
    walls = plan.walls
    return next((wall for wall in walls if wall.eave), walls[0])


def figure(at: Point3, turn: Turn) -> tuple[tuple[Point, ...], ...]:
    """Return the outlines of a person who stands at a place: two legs, the body and the head."""
    return tuple(item.points for item in person(at, turn) if isinstance(item, Polygon) and item.fill in FIGURE)
