"""Where the tape shows a truss on what it bears on: at its centre line, or at its near face where the level says so.

The near face is the one towards the end wall that the truss is counted from, and it is the same all along a
row: truncated trusses count from their own hip end, a gable truss from its own wall, the full-height
trusses between all from one end. A tape is hooked on the wall's own first corner: under a straight fascia a wall that
a step shortens begins at the step's depth, and what stands at a station of the roof is at as much less on it. Common
practice, no source.
"""

from __future__ import annotations

from trainer.layout.model import Layout, Member
from trainer.plan import Point
from trainer.plan.points import half

Vector = tuple[float, float]

SQUARE = 1e-6
"""Directions this near to square are square."""


def along_bearing(layout: Layout, member: Member, end: int) -> tuple[str, Point, Vector]:
    """Return what an end (1 or 2) bears on, by wall's name or carrier's tag; where that starts; its direction."""
    here = member.ends[end - 1]
    if here.wall:
        wall = layout.house.plan.by_name[here.wall]
        return wall.name, wall.a, wall.along
    carrier = layout.by_tag[here.bears_on]
    return carrier.tag, carrier.start, carrier.direction


def centre_run(layout: Layout, member: Member, end: int) -> float:
    """Return how far along what it bears on the centre line of an end is, mm to 0.5."""
    _name, (x, y), (ux, uy) = along_bearing(layout, member, end)
    at = member.ends[end - 1].at
    return half((at[0] - x) * ux + (at[1] - y) * uy)


def mark_run(layout: Layout, member: Member, end: int) -> float:
    """Return how far along what it bears on the mark for an end is, mm to 0.5."""
    _name, _start, (ux, uy) = along_bearing(layout, member, end)
    sx, sy = near_side(layout, member)
    return centre_run(layout, member, end) + round((sx * ux + sy * uy) * member.width) / 2


def near_side(layout: Layout, member: Member) -> Vector:
    """Return the way in plan from a truss's centre line to the face that its marks show; (0, 0): to the centre line."""
    ux, uy = member.direction
    if layout.house.trusses.stations_to == "centre line" or min(abs(ux), abs(uy)) > SQUARE:
        return (0.0, 0.0)
    axis = 0 if abs(ux) < abs(uy) else 1
    sign = _towards(layout, member, axis)
    return (float(sign), 0.0) if axis == 0 else (0.0, float(sign))


def _towards(layout: Layout, member: Member, axis: int) -> int:
    """-1 where a truss counts from the lower end along ``axis`` (0: x, 1: y), 1 where from the higher."""
    spot = member.start[axis]
    if member.kind == "girder" and not member.is_dutch:  # its outside face is on the line of the plates
        corners = {corner[axis] for corner in layout.house.plan.outline}
        return 1 if spot + member.width / 2 in corners else -1
    if " hip end " in member.row:
        wall = layout.house.plan.by_name[member.row.rsplit(" ", 1)[1]]
        return _side_of(spot, wall.a[axis]) if wall.a[axis] == wall.b[axis] else -1
    wing = next(wing for wing in layout.wings if wing.id == member.wing)
    ends = (wing.rect[axis], wing.rect[axis + 2])
    if member.kind in ("girder", "truncated_girder", "gable") or member.flat_topped:
        return -1 if spot - ends[0] <= ends[1] - spot else 1
    return _from_one_end(layout, member, axis, ends)


def _from_one_end(layout: Layout, member: Member, axis: int, ends: tuple[float, float]) -> int:
    """The end that all full-height trusses of a row count from: its one hip end, else its outer or its first end."""
    row = [layout.by_tag[tag] for tag in layout.rows[member.row]]
    hips = {
        -1 if girder.start[axis] - ends[0] <= ends[1] - girder.start[axis] else 1
        for girder in row
        if girder.kind == "truncated_girder" or girder.is_dutch
    }
    if len(hips) == 1:
        return hips.pop()
    outer = [end for end in ends if any(wall.a[axis] == wall.b[axis] == end for wall in layout.house.plan.walls)]
    return 1 if outer == [ends[1]] else -1


def _side_of(spot: float, wall: float) -> int:
    return -1 if wall <= spot else 1
