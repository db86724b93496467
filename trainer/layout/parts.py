"""Framing that goes with a gable: outriggers, verge rafters and gable studs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from trainer.layout.ground import DraftGround
from trainer.layout.model import Member, Part, Plane
from trainer.plan import Point
from trainer.roof import distance

Stretch = tuple[float, float]


def gable_parts(ground: DraftGround, gable: Member, row: list[Member], outward: tuple[int, int]) -> list[Part]:
    """The parts of one gable: ``row`` are the trusses of its wing, ``outward`` the way out through the gable.

    Outriggers stand on the gable truss at the spacing up each slope, from the verge back as :func:`run_in` has it.
    """
    spacing = ground.house.trusses.spacing
    along = 0 if outward[0] else 1
    here = gable.start[along]
    inner = [(here - m.start[along]) * outward[along] for m in row if (here - m.start[along]) * outward[along] > 0]
    first, last = sorted((gable.start[1 - along], gable.finish[1 - along]))
    end_line, own = _own_walls(ground, here, outward, first, last)
    plane: Plane = ("y" if along == 0 else "x", end_line, -outward[along])
    overhang = min(ground.eave(plane, v) for v in (first, (first + last) / 2, last))
    verge = end_line + outward[along] * overhang
    back = here - outward[along] * run_in((verge - here) * outward[along], inner)

    def spot(u: float, v: float) -> Point:
        return (u, v) if along == 0 else (v, u)

    def in_own(v: float) -> bool:
        return any(low <= v <= high for low, high in own)

    parts: list[Part] = []
    if overhang:
        parts += [
            Part("outrigger", gable.tag, spot(verge if in_own(v) else end_line, v), spot(back, v))
            for v in _outriggers(gable, along, spacing)
        ]
        parts += [
            Part("verge rafter", gable.tag, spot(verge, eave), spot(verge, top))
            for rafter in _verge_rafters(gable, along, overhang)
            for eave, top in _within(rafter, own)
        ]
    studs = [
        first + k * float(spacing) for k in range(1, int((last - first) // spacing) + 1) if first + k * spacing < last
    ]
    plan = ground.house.roof_plan

    def stands_above(v: float) -> bool:
        inside, beyond = (distance(plan, *spot(u, v)) for u in (here, end_line + outward[along]))
        return inside > beyond + 1.0

    parts += [
        Part("gable stud", gable.tag, spot(here, v), spot(here, v)) for v in studs if in_own(v) or stands_above(v)
    ]
    return parts


def _within(rafter: Stretch, own: Iterable[Stretch]) -> Iterator[Stretch]:
    """What of a verge rafter, from its lower end to its upper, lies before the gable's own walls."""
    low, high = sorted(rafter)
    for first, last in own:
        start, stop = max(low, first), min(high, last)
        if start < stop:
            yield (start, stop) if rafter[0] < rafter[1] else (stop, start)


def _outriggers(gable: Member, along: int, spacing: float) -> list[float]:
    """Where across its row the outriggers on a gable truss lie: by the spacing from both eaves up to the ridge.

    Beside a higher wall there is but one slope.
    """
    first, last = sorted((gable.start[1 - along], gable.finish[1 - along]))
    if not gable.ends[1].on_ledger:
        steps = [k * float(spacing) for k in range(int((last - first) / 2 // spacing) + 1)]
        return sorted({first + s for s in steps} | {last - s for s in steps})
    eave, face = gable.start[1 - along], gable.finish[1 - along]
    way = 1 if face > eave else -1
    return [eave + way * k * float(spacing) for k in range(math.ceil(gable.span / spacing))]


def _verge_rafters(gable: Member, along: int, overhang: float) -> list[tuple[float, float]]:
    """(lower end, upper end) across the row of each verge rafter: a pair to the ridge, or one to a higher wall."""
    first, last = sorted((gable.start[1 - along], gable.finish[1 - along]))
    if gable.ends[1].on_ledger:
        eave, face = gable.start[1 - along], gable.finish[1 - along]
        return [(eave - overhang if face > eave else eave + overhang, face)]
    middle = (first + last) / 2
    return [(first - overhang, middle), (last + overhang, middle)]


def run_in(out: float, inner: Iterable[float]) -> float:
    """Return how far in over a gable truss outriggers run that stand out ``out``, both from its centre, mm.

    At least as far as they stand out, and to the centre of a truss: ``inner`` are how far in the trusses of its row
    stand. Where none stands so far in, to the last of them. Common practice, no source; for rafters a published limit
    is an overhang of half the backspan, from memory.
    """
    in_order = sorted(inner)
    return next((far for far in in_order if far >= out), in_order[-1] if in_order else 0.0)


def _own_walls(
    ground: DraftGround, here: float, outward: tuple[int, int], first: float, last: float
) -> tuple[float, list[Stretch]]:
    """Where the outside of a gable lies, and from where to where walls of its own stand: endless past an eave.

    Where it goes on past an inside corner, over another part of the roof, it has none there, and no verge.
    """
    along = 0 if outward[0] else 1
    walls = [
        (float(wall.a[along]), *sorted((float(wall.a[1 - along]), float(wall.b[1 - along]))))
        for wall in ground.house.plan.walls
        if wall.gable and wall.inward == (-outward[0], -outward[1])
    ]
    over = [wall for wall in walls if wall[1] < last and first < wall[2]]
    line = min((wall[0] for wall in over), key=lambda line: abs(line - here))
    own = ((low, high) for at, low, high in over if at == line)
    return line, [(-math.inf if a <= first else a, math.inf if b >= last else b) for a, b in own]
