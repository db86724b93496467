"""The house without its trusses: top plates, eave line, internal walls, ridge, hip and valley lines."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from trainer.picture.higher_walls import from_above
from trainer.picture.model import HEAVY, MEDIUM, THIN, Group, Item, Line, Polygon
from trainer.plan import PlatePlan, Point
from trainer.roof.model import Crease, Roof

RIDGE_DASH = (14.0, 4.0, 3.0, 4.0)
HIP_DASH = (9.0, 5.0)
VALLEY_DASH = (3.0, 4.0)
INSIDE_DASH = (2.0, 6.0)
NO_LEDGERS: Mapping[str, tuple[float, float]] = MappingProxyType({})


def grown(plan: PlatePlan, by: float, *, past_walls: bool = False) -> tuple[Point, ...]:
    """Return the outline moved ``by`` mm outwards (inwards if negative), corners square.

    The face of a higher wall stays where it is, but for ``past_walls``.
    """
    corners = []
    for i, wall in enumerate(plan.walls):
        before = plan.walls[i - 1]
        first, then = (by if past_walls or not each.against else 0.0 for each in (before, wall))
        (bx, by_), (ax, ay) = before.inward, wall.inward
        corners.append((wall.a[0] - bx * first - ax * then, wall.a[1] - by_ * first - ay * then))
    return tuple(corners)


def plates(plan: PlatePlan, ledgers: Mapping[str, tuple[float, float]] = NO_LEDGERS) -> Group:
    """Return the top plates of the outside walls, mitred at the corners, and the internal walls.

    In place of a plate a higher wall shows itself, and its ledger: ``ledgers`` says from where to where along it, mm.
    """
    inner = grown(plan, -plan.plate_width)
    count = len(plan.outline)
    items: list[Item | Group] = [
        Line(tuple((float(x), float(y)) for x, y in wall), "plate_edge", HEAVY, "px", INSIDE_DASH)
        for wall in plan.internal_walls
    ]
    for i, wall in enumerate(plan.walls):
        if wall.against:
            items.append(from_above(wall, ledgers.get(wall.name)))
            continue
        shape = (wall.a, wall.b, inner[(i + 1) % count], inner[i])
        items.append(Group("plates", (Polygon(shape, "plate", "plate_edge", MEDIUM),), wall.name))
    return Group("plates", tuple(items))


def eave(plan: PlatePlan, overhang: float) -> Group:
    """Return the outer edge of the roof: the ends of the tails, and the verges."""
    return Group("eave", (Polygon(grown(plan, overhang), None, "faint", THIN),))


def roof_lines(roof: Roof) -> Group:
    """Return ridges (long and short dashes), hips (dashes), valleys (short dashes), and whole lines elsewhere.

    These are small verges, and the face of a gable above a lower roof.
    """
    return Group(
        "roof",
        (
            *_creases(roof.ridges, RIDGE_DASH, MEDIUM),
            *_creases(roof.hips, HIP_DASH, MEDIUM),
            *_creases(roof.valleys, VALLEY_DASH, MEDIUM),
            *_creases(roof.verges, (), MEDIUM),
            *(Line(tuple(place[:2] for place in ring), "roof", MEDIUM) for ring in roof.steps),
        ),
    )


def _creases(creases: Iterable[Crease], dash: tuple[float, ...], width: float) -> list[Item]:
    return [Line(((a[0], a[1]), (b[0], b[1])), "roof", width, "px", dash) for a, b in creases]
