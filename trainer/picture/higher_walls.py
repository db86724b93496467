"""A higher wall that a lower roof is built against, and the ledger on its face: from above, in space and in a section.

How far the wall is drawn on up, and how thick it and its ledger are, is a look only: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from trainer.layout import Layout
from trainer.picture.model import MEDIUM, THIN, Group, Item, Line, Polygon
from trainer.picture.space import Turn
from trainer.plan import PlatePlan, Point, Wall
from trainer.roof.model import Point3

THICK = 110.0
"""Thickness of the wall as drawn, mm."""
HATCH = 220.0
"""How far apart the strokes across it are, mm."""
GOES_ON = 700.0
"""How far it is drawn on above the roof beside it, mm."""
LEDGER_WIDE, LEDGER_DEEP, LEDGER_PAST = 45.0, 190.0, 100.0
"""The ledger as drawn, mm, and how far it runs past what hangs on it."""


def higher_walls(plan: PlatePlan) -> Iterator[Wall]:
    """Yield the walls that go on up."""
    return (wall for wall in plan.walls if wall.against)


def ledgers(layout: Layout) -> dict[str, tuple[float, float]]:
    """Return from where to where along its wall each ledger runs, mm, by the wall's name: past all that hangs on it."""
    found = {}
    for name in layout.ledgers.values():
        wall = layout.house.plan.by_name[name]
        (ax, ay), (dx, dy) = wall.a, wall.along
        runs = [
            (end.at[0] - ax) * dx + (end.at[1] - ay) * dy
            for member in layout.members
            for end in member.ends
            if end.on_ledger and end.wall == name
        ]
        found[name] = max(min(runs) - LEDGER_PAST, 0.0), min(max(runs) + LEDGER_PAST, wall.length)
    return found


def from_above(wall: Wall, ledger: tuple[float, float] | None) -> Group:
    """Return the wall on a plan, hatched, outside the line of its face, and inside it its ``ledger``, where it runs."""
    items: list[Item] = [Polygon(_strip(wall, (0.0, wall.length), -THICK, 0.0), "shadow", "plate_edge", MEDIUM)]
    for k in range(1, int(wall.length / HATCH)):
        (x, y), (dx, dy) = wall.at(k * HATCH), wall.along
        (nx, ny) = wall.inward
        ends = (x - dx * THICK / 2, y - dy * THICK / 2), (x + dx * THICK / 2, y + dy * THICK / 2)
        items.append(Line((ends[0], (ends[1][0] - nx * THICK, ends[1][1] - ny * THICK)), "plate_edge", THIN))
    if ledger:
        items.append(Polygon(_strip(wall, ledger, 0.0, LEDGER_WIDE), "plate", "plate_edge", MEDIUM))
    return Group("plates", tuple(items), wall.name)


def _strip(wall: Wall, runs: tuple[float, float], low: float, high: float) -> tuple[Point, ...]:
    """A strip along a wall between two places along it, from ``low`` to ``high`` mm inward from its face."""
    (nx, ny), (a, b) = wall.inward, (wall.at(run) for run in runs)
    return tuple((p[0] + nx * h, p[1] + ny * h) for p, h in ((a, low), (b, low), (b, high), (a, high)))


def in_space(layout: Layout, turn: Turn, low: float, *, near: bool) -> Iterator[Item]:
    """Yield the higher walls down to ``low`` mm: those behind the roof whole, those in front (``near``) by outline."""
    high = top_of(layout)
    for wall in higher_walls(layout.house.plan):
        (nx, ny), away = wall.inward, turn.away
        face: tuple[Point3, ...] = ((*wall.a, low), (*wall.b, low), (*wall.b, high), (*wall.a, high))
        in_front = nx * away[0] + ny * away[1] > 0
        if in_front != near:
            continue
        flat = turn.all_flat(face)
        if near:
            yield Line((*flat, flat[0]), "plate_edge", 1.2, "px", (8.0, 5.0))
            continue
        yield Polygon(flat, "shadow", "plate_edge", 1.2)
        if wall.name in ledgers(layout):
            first, last = (wall.at(run) for run in ledgers(layout)[wall.name])
            x, y = nx * LEDGER_WIDE, ny * LEDGER_WIDE
            z0, z1 = 0.0, LEDGER_DEEP
            ends = [(p[0] + x, p[1] + y) for p in (first, last)]
            front = ((*ends[0], z0), (*ends[1], z0), (*ends[1], z1), (*ends[0], z1))
            over = ((*first, z1), (*last, z1), (*ends[1], z1), (*ends[0], z1))
            yield Polygon(turn.all_flat(front), "plate", "plate_edge", 0.8)
            yield Polygon(turn.all_flat(over), "plate", "plate_edge", 0.8)


def in_section(layout: Layout, along: float, way: float, low: float) -> Polygon:
    """Return a higher wall that a section cuts at ``along``; ``way`` (1 or -1) is inward on the paper."""
    high, out = top_of(layout), along - way * THICK
    return Polygon(((along, low), (along, high), (out, high), (out, low)), "shadow", "plate_edge", 1.4)


def ledger_end(along: float, way: float, low: float) -> Polygon:
    """Return a ledger seen from its end, on a face at ``along``, up from ``low``; ``way`` as for the wall."""
    edge, high = along + way * LEDGER_WIDE, low + LEDGER_DEEP
    return Polygon(((along, low), (along, high), (edge, high), (edge, low)), "plate", "plate_edge", 1.2)


def ledgers_cut(layout: Layout, place: Callable[[Point], Point]) -> Iterator[Polygon]:
    """Yield the ledgers that a section's line cuts, before the ends of what hangs on them.

    ``place`` gives (along, aside) of a place on the plan, mm.
    """
    for name, (low, high) in ledgers(layout).items():
        wall = layout.house.plan.by_name[name]
        (ax, ay), (bx, by) = place(wall.at(low)), place(wall.at(high))
        if (ay > 0) != (by > 0):
            t = ay / (ay - by)
            (x, y), (nx, ny) = wall.at(low + (high - low) * t), wall.inward
            along = ax + (bx - ax) * t
            yield ledger_end(along, 1.0 if place((x + nx, y + ny))[0] > along else -1.0, 0.0)


def top_of(layout: Layout) -> float:
    """How high the higher walls are drawn, mm above the plates."""
    return max((z for face in layout.roof.faces for _x, _y, z in face.polygon), default=0.0) + GOES_ON
