"""The roof over a plan: its planes out to the eaves, its creases and its areas."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from trainer.plan import PlatePlan, roof_parts, straightened
from trainer.roof.creases import CreasePiece, Kind, creases, seen
from trainer.roof.crowding import crowded
from trainer.roof.dutch import Edge, cut
from trainer.roof.model import Crease, Face, Point3, Roof, RoofSpec
from trainer.roof.plane import GapView, Spread
from trainer.roof.side import Place, sides
from trainer.roof.steps import run_through, vertical_faces, without_flush

_MM2_PER_M2 = 1e6


def solve(plan: PlatePlan, spec: RoofSpec) -> Roof:
    """Return the roof over any plan that :func:`trainer.plan.plan_faults` finds sound, exactly.

    Any mix of hips, gables and higher walls on such a plan is solved. The roof ends at the line of a higher wall; a
    gable that ends at an inside corner parts it (:mod:`trainer.roof.steps`). Places in plan are whole multiples of
    1/16 mm, without rounding. Heights are ``heel + d * tan(pitch)`` for the distance ``d`` to the outside, negative
    over the eaves.

    The planes rise from the outline that is straightened as ``spec`` says; a face's walls are then named after
    the first plate on each line. Each face is one connected polygon, out to the eave and, at a gable, to the
    verge, which overhangs as far. Where walls look at each other over a recess narrower than two overhangs,
    each roof ends halfway. At a dutch gable the side planes run on over the end's plane, from its girder out to the
    small verge, and that overlap counts in the areas of both (:mod:`trainer.roof.dutch`). Ridges, hips and valleys
    are cut at the outside of the plates; each lies between two faces and is as long as those two share it, its lower
    end (if level, the one with the lower x, then y) first.
    """
    plan = straightened(plan, spec.straight_fascia).plan
    found = roof_parts(plan)
    if len(found) == 1:
        return _roof(plan, spec, *_solved(plan, spec))
    spreads: list[Spread] = []
    pieces: list[CreasePiece] = []
    verges: list[Edge] = []
    for part in found:
        planes, lines, edges = _solved(part, spec)
        number = [plan.by_name[wall.name].index if wall.eave else -1 for wall in part.walls]
        own = without_flush(part, plan, planes, spec.overhang)
        spreads += [Spread(tuple(number[wall] for wall in walls), ring) for walls, ring in own]
        pieces += lines
        verges += edges
    spreads = run_through(plan, spreads)
    return _roof(plan, spec, spreads, sorted(pieces), tuple(verges), tuple(vertical_faces(plan)))


def _solved(plan: PlatePlan, spec: RoofSpec) -> tuple[list[Spread], list[CreasePiece], tuple[Edge, ...]]:
    """The planes of one part of a roof, its creases and the edges of its small verges."""
    views = sides(plan.outline, frozenset(wall.index for wall in plan.walls if not wall.eave))
    walls = frozenset(wall.index for wall in plan.walls if wall.against or wall.step)
    pieces: list[CreasePiece] = []
    spreads: list[Spread] = []
    for side in views:
        for gap in side.gaps():
            view = GapView(gap, side.tops, 0)
            inside = view.planes(0)
            rings = [Spread.of(side, gap.h, plane) for plane in inside]
            for plane, spread in zip(inside, rings, strict=True):
                pieces += seen(plane.polygon, spread.ring)
            if spec.overhang:
                view = GapView(gap, side.tops, spec.overhang, walls) if view.open else view
                rings = [Spread.of(side, gap.h, plane) for plane in view.planes(spec.overhang)]
            spreads += rings
    if spec.overhang and crowded(views, spec.overhang):
        from trainer.roof.eaves import share  # noqa: PLC0415 - few roofs ask for shapely, and it is slow to load

        spreads = list(share(plan.outline, views, spec.overhang, walls))
    return cut(plan, spreads, creases(pieces))


def _roof(
    plan: PlatePlan,
    spec: RoofSpec,
    spreads: list[Spread],
    pieces: list[CreasePiece],
    verges: tuple[Edge, ...],
    steps: Iterable[list[Place]] = (),
) -> Roof:
    slope, heel = spec.slope, spec.heel

    def raised(place: Place) -> Point3:
        return (place[0], place[1], heel + place[2] * slope)

    def of(kind: Kind) -> tuple[Crease, ...]:
        return tuple((raised(piece.start), raised(piece.finish)) for piece in pieces if piece.kind == kind)

    names = [wall.name for wall in plan.walls]
    faces = []
    for walls, ring in sorted(spreads):
        own = tuple(names[index] for index in walls)
        faces.append(Face(own[0], own, tuple(map(raised, ring))))
    area = sum(_twice_area(spread.ring) for spread in spreads) / 2 / _MM2_PER_M2
    return Roof(
        faces=tuple(faces),
        ridges=of("ridge"),
        hips=of("hip"),
        valleys=of("valley"),
        plan_area_m2=area,
        area_m2=area / math.cos(math.radians(spec.pitch)),
        verges=tuple((raised(low), raised(high)) for low, high in verges),
        steps=(upright := tuple(tuple(map(raised, ring)) for ring in steps)),
        step_area_m2=sum(map(_upright_area, upright)) / _MM2_PER_M2,
    )


def _upright_area(ring: Sequence[Point3]) -> float:
    """The area of an upright polygon along x or y, mm²."""
    along = 0 if ring[0][1] == ring[1][1] == ring[-1][1] else 1
    return abs(sum(a[along] * b[2] - b[along] * a[2] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))) / 2


def _twice_area(ring: list[Place]) -> float:
    """Twice the area that an anticlockwise ring encloses in plan, mm²; exact, as sums stay under 2**53 sixteenths."""
    total = 0.0
    x0, y0, _ = ring[-1]
    for x1, y1, _ in ring:
        total += x0 * y1 - x1 * y0
        x0, y0 = x1, y1
    return total
