"""Framing that goes with a gable: outriggers, verge rafters and gable studs."""

from __future__ import annotations

from trainer.layout.ground import Ground
from trainer.layout.model import Member, Part, Plane
from trainer.plan import Point


def gable_parts(ground: Ground, gable: Member, row: list[Member], outward: tuple[int, int]) -> list[Part]:
    """The parts of one gable: ``row`` are the trusses of its wing, ``outward`` the way out through the gable.

    Outriggers stand on the gable truss at the spacing up each slope, from the verge back to the next truss.
    """
    spacing = ground.house.trusses.spacing
    along = 0 if outward[0] else 1
    here = gable.start[along]
    inner = [m.start[along] for m in row if (m.start[along] - here) * outward[along] < 0]
    back = max(inner, key=lambda u: u * outward[along]) if inner else here
    first, last = sorted((gable.start[1 - along], gable.finish[1 - along]))
    end_line = _end_line(ground, here, outward, first, last)
    plane: Plane = ("y" if along == 0 else "x", end_line, -outward[along])
    overhang = min(ground.eave(plane, v) for v in (first, (first + last) / 2, last))
    verge = end_line + outward[along] * overhang

    def spot(u: float, v: float) -> Point:
        return (u, v) if along == 0 else (v, u)

    parts: list[Part] = []
    half = (last - first) / 2
    if overhang:
        steps = [k * float(spacing) for k in range(int(half // spacing) + 1)]
        spots = sorted({first + s for s in steps} | {last - s for s in steps})
        parts += [Part("outrigger", gable.tag, spot(verge, v), spot(back, v)) for v in spots]
        middle = (first + last) / 2
        parts += [
            Part("verge rafter", gable.tag, spot(verge, v), spot(verge, middle))
            for v in (first - overhang, last + overhang)
        ]
    studs = [
        first + k * float(spacing) for k in range(1, int((last - first) // spacing) + 1) if first + k * spacing < last
    ]
    parts += [Part("gable stud", gable.tag, spot(here, v), spot(here, v)) for v in studs]
    return parts


def _end_line(ground: Ground, here: float, outward: tuple[int, int], first: float, last: float) -> float:
    """Where the outside of the gable's wall lies."""
    along = 0 if outward[0] else 1
    walls = [
        wall.a[along]
        for wall in ground.house.plan.walls
        if wall.gable
        and wall.inward == (-outward[0], -outward[1])
        and min(wall.a[1 - along], wall.b[1 - along]) <= first
        and max(wall.a[1 - along], wall.b[1 - along]) >= last
    ]
    return float(min(walls, key=lambda line: abs(line - here)))
