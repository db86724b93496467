"""The roof covered: its planes in the sun, whole or as far as their sheets have run on, and the house as it will stand.

Worked out from the plan and the solved roof: trusses are laid out only for the posts of a beam.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout.model import House, Layout
from trainer.picture.ground import ground, visitor
from trainer.picture.higher_walls import GOES_ON, higher_walls
from trainer.picture.model import Box, Item, Line, Polygon
from trainer.picture.space import Turn
from trainer.picture.sun import cast, lit
from trainer.picture.timbers import facing
from trainer.picture.verandah import in_space
from trainer.picture.wall_frames import SLAB, bays, slab, wall_faces
from trainer.plan import DutchGable, Wall
from trainer.roof.model import Face, Point3, Roof
from trainer.roof.steps import over_gable

SHEET = 760.0
"""Width that one sheet covers, mm; common practice, no source."""
OVER = 0.06
"""So much room is left over the highest ridge, as a part of the height of the picture."""


def finished(house: House, roof: Roof, turn: Turn, layout: Layout | None = None) -> list[Item]:
    """Return the house as it will stand, on its ground and in the sun, with a person beside it for scale.

    Where posts stand under its beams comes from its ``layout``.
    """
    plan, floor = house.plan, -house.plan.height
    near = {wall.name for wall in plan.walls if _seen(wall, turn)}
    items = ground(plan, turn)
    items += cast_of(house, roof, turn)
    items += slab(plan, turn)
    items += _walls_behind(house, roof, turn)
    items += visitor(house, turn, near=False)
    items += in_space(layout, turn, floor, walls=set(plan.by_name) - near) if layout else ()
    items += bays(plan, turn, fine=True)
    items += in_space(layout, turn, floor, walls=near) if layout else ()
    items += covered(house, roof, turn)
    items += visitor(house, turn, near=True)
    for wall in higher_walls(plan):
        if _seen(wall, turn):
            face = turn.all_flat(((*wall.a, floor), (*wall.b, floor), (*wall.b, _top(roof)), (*wall.a, _top(roof))))
            items.append(Line((*face, face[0]), "plate_edge", 1.2, "px", (8.0, 5.0)))
    return items


def box_of(house: House, roof: Roof, turn: Turn, past: float = 900.0, over: float = 0.0) -> Box:
    """Return the box on the paper round a house on its ground.

    ``past`` is how much of the ground outside its eaves is shown, ``over`` how far up over it, mm.
    """
    left, bottom, right, top = house.plan.bounds
    out = house.roof.overhang + past
    floor = -house.plan.height
    corners = [
        (x, y, z) for x in (left - out, right + out) for y in (bottom - out, top + out) for z in {floor, floor + over}
    ]
    xs, ys = zip(*turn.all_flat((*corners, *(p for face in roof.faces for p in face.polygon))), strict=True)
    low, high = min(ys), max(ys)
    return min(xs), low, max(xs), high + OVER * (high - low)


def covered(house: House, roof: Roof, turn: Turn, share: float = 1.0) -> list[Item]:
    """Return the planes of the roof that are seen from here, the far ones first, with the walls of their gables.

    ``share`` (0 to 1) is how far their sheets have run on; the walls of the gables are closed with the last.
    """
    plan, faces = house.plan, roof.faces
    dutch = [gable for gable in house.roof_plan.dutch_gables if _seen(house.roof_plan.by_name[gable.wall], turn)]
    depths = [sum(turn.depth(place) for place in face.polygon) / len(face.polygon) for face in faces]
    for end in (gable.wall for gable in house.roof_plan.dutch_gables):
        # The side planes run on over it: it comes before the further of them.
        corners = {place[:2] for face in faces if end in face.walls for place in face.polygon}
        beside = [depth for face, depth in zip(faces, depths, strict=True) if corners & {p[:2] for p in face.polygon}]
        depths = [max(beside) + 1.0 if end in face.walls else d for face, d in zip(faces, depths, strict=True)]
    seen: list[tuple[float, Face | Polygon]] = [
        (depth, face) for face, depth in zip(faces, depths, strict=True) if facing(face.polygon, turn)
    ]
    seen += _upright(roof, turn) if share >= 1.0 else ()
    items: list[Item] = list(_gable_walls(house, turn)) if share >= 1.0 else []
    for _depth, face in sorted(seen, key=lambda one: -one[0]):
        if isinstance(face, Polygon):
            items.append(face)
            continue
        wall = plan.by_name[face.wall]
        items += _sheets(face, wall, turn, share)
        if share >= 1.0:
            items += (_small_gable(house, gable, turn) for gable in dutch if gable.wall in face.walls)
    return items


def _sheets(face: Face, wall: Wall, turn: Turn, share: float) -> Iterator[Item]:
    """Yield a plane as far as its sheets have run on along its wall; the last one laid has an edge of its own."""
    runs = [wall.run(place[:2]) for place in face.polygon]
    first, last = min(runs), max(runs)
    laid = face.polygon
    if share < 1.0:
        reach = first + SHEET * round((last - first) * share / SHEET)
        laid = _up_to(face.polygon, runs, reach)
    if len(laid) > 2:
        (nx, ny) = wall.inward
        yield Polygon(turn.all_flat(laid), lit("cover", (-nx, -ny)), "roof", 1.2)


def _up_to(polygon: tuple[Point3, ...], runs: list[float], reach: float) -> tuple[Point3, ...]:
    """Return what of a plane lies no further along its wall than ``reach``, mm."""
    kept: list[Point3] = []
    for i, (place, run) in enumerate(zip(polygon, runs, strict=True)):
        after, beyond = polygon[(i + 1) % len(polygon)], runs[(i + 1) % len(runs)]
        if run <= reach:
            kept.append(place)
        if (run <= reach) != (beyond <= reach):
            t = (reach - run) / (beyond - run)
            x, y, z = (a + (b - a) * t for a, b in zip(place, after, strict=True))
            kept.append((x, y, z))
    return tuple(kept)


def _upright(roof: Roof, turn: Turn) -> Iterator[tuple[float, Polygon]]:
    """Yield (depth, what is seen) of the vertical faces where one part of the roof stands above another."""
    for ring in roof.steps:
        if facing(ring, turn):
            (ax, ay, _az), (bx, by, _bz) = ring[0], max(ring, key=lambda place: math.dist(place[:2], ring[0][:2]))
            length = math.dist((ax, ay), (bx, by))
            depth = sum(turn.depth(place) for place in ring) / len(ring)
            yield (
                depth,
                Polygon(turn.all_flat(ring), lit("wall", ((by - ay) / length, (ax - bx) / length)), "wall_line", 1.0),
            )


def _gable_walls(house: House, turn: Turn) -> Iterator[Item]:
    """Yield what closes each gable that is seen from outside, from the plate to the roof over it."""
    spec = house.roof
    for wall in house.plan.walls:
        if wall.gable and _seen(wall, turn):
            top = [(*wall.at(run), spec.heel + d * spec.slope) for run, d in over_gable(house.roof_plan, wall)]
            face = [(*wall.a, 0.0), (*wall.b, 0.0), *reversed(top)]
            yield Polygon(turn.all_flat(face), lit("wall", (-wall.inward[0], -wall.inward[1])), "wall_line", 1.0)


def _small_gable(house: House, gable: DutchGable, turn: Turn) -> Polygon:
    """What closes a dutch gable: on its girder, from the end's plane to the ridge."""
    wall, spec = house.roof_plan.by_name[gable.wall], house.roof
    (nx, ny) = wall.inward

    def spot(run: float, up: float) -> Point3:
        x, y = wall.at(run)
        return x + nx * gable.at, y + ny * gable.at, spec.heel + up * spec.slope

    half = wall.length / 2
    corners = (spot(gable.at, gable.at), spot(wall.length - gable.at, gable.at), spot(half, half))
    return Polygon(turn.all_flat(corners), lit("wall", (-nx, -ny)), "wall_line", 1.0)


def cast_of(house: House, roof: Roof, turn: Turn) -> list[Item]:
    """Return the shadow of the covered house on the ground."""
    plan = house.plan
    return cast((*wall_faces(plan), *(face.polygon for face in roof.faces)), -plan.height - SLAB, turn)


def _walls_behind(house: House, roof: Roof, turn: Turn) -> Iterator[Item]:
    """Yield the higher walls that stand behind the roof."""
    floor = -house.plan.height
    for wall in higher_walls(house.plan):
        if _seen(wall, turn):
            continue
        face = ((*wall.a, floor), (*wall.b, floor), (*wall.b, _top(roof)), (*wall.a, _top(roof)))
        (nx, ny) = wall.inward
        yield Polygon(turn.all_flat(face), lit("wall", (nx, ny)), "plate_edge", 1.2)


def _top(roof: Roof) -> float:
    return max((z for face in roof.faces for _x, _y, z in face.polygon), default=0.0) + GOES_ON


def _seen(wall: Wall, turn: Turn) -> bool:
    """Whether one looks on the outside of a wall."""
    (nx, ny), away = wall.inward, turn.away
    return nx * away[0] + ny * away[1] > 0
