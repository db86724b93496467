"""Roofs and layouts as the JSON that other programs lean on; changed only by adding.

Plan places and stations are given to 0.5 mm, heights, runs and areas as they were reckoned.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from trainer.layout.bracing import Restraint
from trainer.layout.model import End, Layout, Member, Part, Wing
from trainer.layout.posts import on_beam, post_areas
from trainer.layout.shares import Share, loads
from trainer.plan import Beam, Point
from trainer.roof.model import Crease, Point3, Roof

Json = dict[str, Any]


def roof_json(roof: Roof) -> Json:
    """Return the faces, creases and areas of a roof."""
    return {
        "faces": [
            {"wall": face.wall, "walls": list(face.walls), "polygon": [_corner(corner) for corner in face.polygon]}
            for face in roof.faces
        ],
        "ridges": _creases(roof.ridges),
        "hips": _creases(roof.hips),
        "valleys": _creases(roof.valleys),
        "verges": _creases(roof.verges),
        "steps": [[_corner(corner) for corner in ring] for ring in roof.steps],
        "plan_area_m2": roof.plan_area_m2,
        "area_m2": roof.area_m2,
        "step_area_m2": roof.step_area_m2,
    }


def layout_json(level: str, layout: Layout, bracing: Iterable[Restraint] = ()) -> Json:
    """Return the whole layout of the level called ``level``, and its plan of permanent bracing."""
    load = loads(layout)
    return {
        "level": level,
        "roof": roof_json(layout.roof),
        "wings": [_wing(wing) for wing in layout.wings],
        "members": [_member(member, load[member.tag]) for member in layout.members],
        "parts": [_part(part) for part in layout.parts],
        "bracing": [_restraint(piece) for piece in bracing],
        "crossings": [
            {"over": crossing.over, "under": crossing.under, "at": _place(crossing.at), "what": crossing.what}
            for crossing in layout.crossings
        ],
        "counts": layout.counts,
        "beams": [_beam(layout, beam) for beam in layout.house.plan.beams],
    }


def _beam(layout: Layout, beam: Beam) -> Json:
    wall = layout.house.plan.by_name[beam.wall]
    return {
        "wall": beam.wall,
        "from": _place(wall.at(beam.low)),
        "to": _place(wall.at(beam.high)),
        "carries": [{"tag": member.tag, "end": end} for member, end in on_beam(layout, beam)],
        "posts": [
            {
                "run": _half(post.run),
                "at": _place(post.at),
                "wall_end": post.wall_end,
                "under": list(post.under),
                "reaches_m2": area,
            }
            for post, area in post_areas(layout, beam)
        ],
    }


def _wing(wing: Wing) -> Json:
    return {
        "id": wing.id,
        "rect": [_half(value) for value in wing.rect],
        "axis": wing.axis,
        "span": _half(wing.span),
        "bodies": [[_half(value) for value in body] for body in wing.bodies],
    }


def _member(member: Member, load: Share) -> Json:
    return {
        "tag": member.tag,
        "kind": member.kind,
        "wing": member.wing,
        "row": member.row,
        "station": _half(member.station),
        "plies": member.plies,
        "thickness": member.thickness,
        "from": _place(member.start),
        "to": _place(member.finish),
        "top": [[run, z] for run, z in member.top],
        "ends": [_end(end, area) for end, area in zip(member.ends, load.ends_m2, strict=True)],
        "carried_by": list(member.carried_by),
        "tributary_m2": load.direct_m2,
    } | ({"half_of": member.half_of} if member.half_of else {})


def _end(end: End, area_m2: float) -> Json:
    return {"bears_on": end.bears_on, "tail": end.tail, "fixing": end.fixing, "reaches_m2": area_m2}


def _part(part: Part) -> Json:
    """One part; ``top`` is the height of its upper edge above the plate, where it has one of its own."""
    own = {} if part.top is None else {"top": part.top}
    return {
        "part": part.part,
        "on": part.on,
        "name": part.name,
        "from": _place(part.start),
        "to": _place(part.finish),
        **own,
    }


def _restraint(piece: Restraint) -> Json:
    return {
        "kind": piece.kind,
        "name": piece.name,
        "row": piece.row,
        "from": _place(piece.start),
        "to": _place(piece.finish),
        "over": list(piece.over),
    }


def _creases(creases: Iterable[Crease]) -> list[list[list[float]]]:
    return [[_corner(a), _corner(b)] for a, b in creases]


def _corner(corner: Point3) -> list[float]:
    return [_half(corner[0]), _half(corner[1]), corner[2]]


def _place(at: Point) -> list[float]:
    return [_half(at[0]), _half(at[1])]


def _half(value: float) -> float:
    """Return mm to the nearest 0.5, as a whole number where it is one."""
    halves = round(value * 2)
    return halves // 2 if halves % 2 == 0 else halves / 2
