"""The roof so far in space, from above at an angle, as a display list: far things first."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from trainer.layout import Layout
from trainer.picture.bodies import Body
from trainer.picture.frame import Timber
from trainer.picture.house import HIP_DASH, INSIDE_DASH, RIDGE_DASH, VALLEY_DASH, grown
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.space import Turn
from trainer.picture.struts import Run, Strut
from trainer.roof.model import Crease, Point3

WALL = 700.0
"""How far the walls are drawn down from their plates, mm: they go on, but the roof is the matter."""
PLATE = 45.0
"""Thickness of the plates as drawn, mm."""
FACES = {"girder": ("timber", "girder"), "truncated_girder": ("timber", "girder"), "saddle": ("saddle", "timber")}
"""Colours of the upper and the side faces of timbers, by kind of truss."""
PLAIN = ("timber", "timber_shade")
PLANE_FILLS = {(0, 1): "plate", (0, -1): "saddle", (1, 0): "panel", (-1, 0): "shadow"}
"""Planes of the roof by the way they face away from, so that they tell apart."""
RUNS: dict[Run, tuple[str, float, tuple[float, ...]]] = {
    "batten": ("brace", 3.0, ()),
    "steel brace": ("brace", 2.0, (7.0, 3.0)),
    "prop": ("brace", 3.0, ()),
    "string": ("string", 1.4, ()),
    "framing": ("timber_edge", 2.4, ()),
    "roof brace": ("fastener", 2.2, (10.0, 3.0)),
    "tie": ("brace", 2.0, (14.0, 4.0)),
}
"""How each strut is drawn: colour, px wide, dash."""
ON_TOP = 90.0
"""How much nearer than their middle struts count when it is told what lies before what, mm."""
FINE = 0.035
"""Px per mm from which timbers are drawn with their faces; below, each is a stroke."""
_Far = tuple[float, list[Item]]


@dataclass(frozen=True, slots=True)
class Scene3:
    """What is to be seen: the house, the trusses as they stand, and the struts between them."""

    layout: Layout
    bodies: Mapping[str, Body]
    struts: tuple[Strut, ...]


def angled(scene: Scene3, turn: Turn, scale: float, named: Collection[str] = (), *, planes: bool = False) -> list[Item]:
    """Return the whole view at ``scale`` px per mm; ``named`` trusses have their tags, ``planes`` covers the roof."""
    items = [*_house(scene.layout, turn)]
    far: list[_Far] = []
    for body in scene.bodies.values():
        far += _truss(body, turn, fine=scale >= FINE)
    far += [_strut(strut, turn) for strut in scene.struts]
    if planes:
        far += _planes(scene.layout, turn)
    far.sort(key=lambda piece: -piece[0])
    for _depth, piece in far:
        items += piece
    items += _creases(scene.layout, turn)
    items += [_tag(tag, scene.bodies[tag], turn) for tag in named if tag in scene.bodies]
    return items


def sketch(scene: Scene3, turn: Turn) -> list[Item]:
    """Return the same as strokes alone, for the time that it is being turned."""
    items = _house(scene.layout, turn)
    for body in scene.bodies.values():
        items.append(Line(turn.all_flat(body.rim), "timber_edge", 1.0))
    items += [_strut(strut, turn)[1][0] for strut in scene.struts]
    items += _creases(scene.layout, turn)
    return items


def _house(layout: Layout, turn: Turn) -> list[Item]:
    """Return walls, plates, internal walls and the eave line; all of them lie under every truss."""
    plan = layout.house.plan
    inner = grown(plan, -plan.plate_width)
    count = len(plan.outline)
    items: list[Item] = []
    for wall in plan.walls:
        a, b = (*wall.a, -PLATE), (*wall.b, -PLATE)
        low = ((*wall.a, -WALL), (*wall.b, -WALL))
        items.append(Line(turn.all_flat((a, low[0], low[1], b)), "grid", 1.4))
    for inside_wall in plan.internal_walls:
        items.append(
            Line(turn.all_flat([(x, y, -PLATE) for x, y in inside_wall]), "plate_edge", 3.0, "px", INSIDE_DASH)
        )
    for i, wall in enumerate(plan.walls):
        top = ((*wall.a, 0.0), (*wall.b, 0.0), (*inner[(i + 1) % count], 0.0), (*inner[i], 0.0))
        side = ((*wall.b, 0.0), (*wall.a, 0.0), (*wall.a, -PLATE), (*wall.b, -PLATE))
        inside = (top[3], top[2], (*top[2][:2], -PLATE), (*top[3][:2], -PLATE))
        for face in (side, inside):
            if not turn.sees(*face[:3]):
                items.append(Polygon(turn.all_flat(face), "plate", "plate_edge", 0.8))
        items.append(Polygon(turn.all_flat(top), "plate", "plate_edge", 0.8))
    heel = layout.house.roof
    edge = grown(plan, heel.overhang)
    if not plan.gables:
        z = heel.heel - heel.overhang * heel.slope
        items.append(Line(turn.all_flat([(x, y, z) for x, y in (*edge, edge[0])]), "faint", 0.8))
    return items


def _truss(body: Body, turn: Turn, *, fine: bool) -> Iterator[_Far]:
    upper, side = FACES.get(body.member.kind, PLAIN)
    half = body.member.width / 2
    near = half if turn.depth(body.at(0.0, 0.0, half)) < turn.depth(body.at(0.0, 0.0, -half)) else -half
    for piece in body.framed.pieces:
        (a, az), (b, bz) = piece.upper
        depth = turn.depth(body.at((a + b) / 2, (az + bz) / 2))
        if fine:
            yield depth, _faces(body, piece, turn, (upper, side), near, half)
        else:
            ends = turn.all_flat((body.at(a, az), body.at(b, bz)))
            if piece.part == "web":
                yield depth, [Line(ends, "timber_edge", 1.0)]
            else:
                yield depth, [Line(ends, "timber_edge", 3.0), Line(ends, upper, 1.0)]


def _faces(body: Body, piece: Timber, turn: Turn, roles: tuple[str, str], near: float, half: float) -> list[Item]:
    """Return the faces of a timber that are turned to whoever looks: its near side, and its upper edge."""
    if piece.part == "extension":
        roles = ("paper", "paper")
    side = turn.all_flat(body.at(run, z, near) for run, z in piece.outline)
    items: list[Item] = [Polygon(side, roles[1], "timber_edge", 0.8)]
    if piece.part != "web":
        (a, az), (b, bz) = piece.upper
        upper = (body.at(a, az, half), body.at(b, bz, half), body.at(b, bz, -half), body.at(a, az, -half))
        items.append(Polygon(turn.all_flat(upper), roles[0], "timber_edge", 0.8))
    return items


def _strut(strut: Strut, turn: Turn) -> _Far:
    role, wide, dash = RUNS[strut.run]
    a, b = strut.a, strut.b
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2 + ON_TOP)
    return turn.depth(middle), [Line(turn.all_flat((a, b)), role, wide, "px", dash)]


def _planes(layout: Layout, turn: Turn) -> Iterator[_Far]:
    """Return the planes of the finished roof, those that can be seen from here."""
    plan = layout.house.plan
    for face in layout.roof.faces:
        if turn.sees(*face.polygon[:3]) or _facing(face.polygon, turn):
            middle = tuple(sum(p[i] for p in face.polygon) / len(face.polygon) for i in range(3))
            fill = PLANE_FILLS[plan.by_name[face.wall].inward]
            depth = turn.depth((middle[0], middle[1], middle[2] + 4 * ON_TOP))
            yield depth - 1e7, [Polygon(turn.all_flat(face.polygon), fill, "roof", 1.2)]


def _facing(polygon: tuple[Point3, ...], turn: Turn) -> bool:
    """Whether a face that is anticlockwise in plan is seen from above: its area on the paper is positive."""
    flat = turn.all_flat(polygon)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(flat, flat[1:] + flat[:1], strict=True)) > 0


def _creases(layout: Layout, turn: Turn) -> list[Item]:
    """Return ridges, hips and valleys where the finished roof will have them."""
    roof = layout.roof
    kinds: tuple[tuple[tuple[Crease, ...], tuple[float, ...], float], ...] = (
        (roof.ridges, RIDGE_DASH, 1.6),
        (roof.hips, HIP_DASH, 1.1),
        (roof.valleys, VALLEY_DASH, 1.6),
    )
    return [
        Line(turn.all_flat(crease), "roof", wide, "px", dash) for creases, dash, wide in kinds for crease in creases
    ]


def _tag(tag: str, body: Body, turn: Turn) -> Text:
    member = body.member
    run = member.span * (0.5 if member.kind in {"girder", "creeper", "saddle"} else 0.3)
    return Text(turn.flat(body.top(run)), tag, "ink", 14.0, "px", bold=True, ground="paper")
