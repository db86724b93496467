"""The walls in space, from the plates down to the slab: frames in bays between studs, openings only hinted.

Where windows and doors are is not in a level file: they are a look, the same every time. No truss is judged by them.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.picture.house import grown
from trainer.picture.model import Item, Line, Polygon
from trainer.picture.space import Turn
from trainer.picture.sun import lit, prism
from trainer.plan import PlatePlan, Point, Wall
from trainer.roof.model import Point3

STUD = 600.0
"""How far apart studs are drawn, mm; common practice, no source."""
COARSE = 12
"""Far away, and while it turns, so many bays are one, and openings are panes on it."""
PLATE = 45.0
"""Thickness of the plates as drawn, mm."""
SLAB, SLAB_PAST = 100.0, 0.0
"""Thickness of the slab as drawn, mm, and how far it runs past the frame."""
WINDOW, SILL, HEAD = 1200.0, 900.0, 2100.0
DOOR = 900.0
"""Width of a window, its sill and head over the slab, and width of a door, mm; common practice, no source."""
APART = 3600.0
"""One opening is hinted in so much of a wall, mm."""
SHORT = 2000.0
"""No opening is hinted in a wall shorter than this, mm."""


@dataclass(frozen=True, slots=True)
class Opening:
    """From where to where along a wall an opening is, and its sill and head over the slab, mm."""

    first: float
    last: float
    sill: float
    head: float


def openings(length: float, *, inside: bool = False) -> tuple[Opening, ...]:
    """Return the openings hinted in a wall of a length, mm: a window in each stretch, and a door in a wall inside."""
    if length < SHORT:
        return ()
    if inside:
        at = length * 0.4
        return (Opening(at - DOOR / 2, at + DOOR / 2, 0.0, HEAD),)
    count = max(1, round(length / APART))
    middles = [length * (k + 0.5) / count for k in range(count)]
    return tuple(Opening(at - WINDOW / 2, at + WINDOW / 2, SILL, HEAD) for at in middles)


def slab(plan: PlatePlan, turn: Turn) -> Iterator[Item]:
    """Yield the slab that the frame stands on."""
    floor = -plan.height
    yield from prism([*grown(plan, SLAB_PAST)], floor - SLAB, floor, "slab", turn, "plate_edge")


def bays(plan: PlatePlan, turn: Turn, *, fine: bool) -> list[Item]:
    """Return all walls bay by bay, the far ones first; ``fine``: with their studs, otherwise in longer bays."""
    return [item for _depth, bay in sorted(_walls(plan, turn, fine=fine), key=_far_first) for item in bay]


def _far_first(bay: tuple[float, list[Item]]) -> float:
    return -bay[0]


def _walls(plan: PlatePlan, turn: Turn, *, fine: bool) -> Iterator[tuple[float, list[Item]]]:
    """Yield the bays of all walls, each with how far away it is."""
    inner = grown(plan, -plan.plate_width)
    count = len(plan.outline)
    for wall in plan.walls:
        if wall.against:
            continue
        (nx, ny), away = wall.inward, turn.away
        if nx * away[0] + ny * away[1] > 0:  # its outside is seen
            face, a, b = (-nx, -ny), wall.a, wall.b
        else:
            face, a, b = (nx, ny), inner[wall.index], inner[(wall.index + 1) % count]
        for p, q in walled(plan, wall):
            yield from _bays(_on(wall, p, a, b), _on(wall, q, a, b), face, plan.height, turn, fine=fine)
    for ends in plan.internal_walls:
        for a, b in itertools.pairwise(ends):
            yield from _bays(a, b, _towards(a, b, turn), plan.height, turn, fine=fine, inside=True)


def walled(plan: PlatePlan, wall: Wall) -> Iterator[tuple[Point, Point]]:
    """Yield from where to where there is a wall under a plate, and not a beam on posts."""
    at = 0.0
    for beam in sorted((beam for beam in plan.beams if beam.wall == wall.name), key=lambda beam: beam.low):
        if beam.low > at:
            yield wall.at(at), wall.at(beam.low)
        at = beam.high
    if at < wall.length:
        yield wall.at(at), wall.b


def wall_faces(plan: PlatePlan) -> Iterator[tuple[Point3, ...]]:
    """Yield the outside faces of the walls, whole, from the slab to the plates."""
    for wall in plan.walls:
        for p, q in walled(plan, wall):
            yield (*p, -plan.height), (*q, -plan.height), (*q, 0.0), (*p, 0.0)


def _on(wall: Wall, place: Point, a: Point, b: Point) -> Point:
    """Return a place along a wall on its face from ``a`` to ``b``, no further than its corners."""
    (dx, dy), run = wall.along, wall.run(place)
    least, most = wall.run(a), wall.run(b)
    by = min(max(run, least), most) - least
    return a[0] + dx * by, a[1] + dy * by


def _towards(a: Point, b: Point, turn: Turn) -> Point:
    """Return the level step square to a wall inside that looks towards whoever looks."""
    normal, away = (b[1] - a[1], a[0] - b[0]), turn.away
    sign = -1.0 if normal[0] * away[0] + normal[1] * away[1] > 0 else 1.0
    return normal[0] * sign, normal[1] * sign


def _bays(
    a: Point, b: Point, face: Point, height: float, turn: Turn, *, fine: bool, inside: bool = False
) -> Iterator[tuple[float, list[Item]]]:
    """Yield one face of a wall bay by bay: boarded between studs, and open where an opening is."""
    length = abs(b[0] - a[0]) + abs(b[1] - a[1])
    if length < 1:
        return
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    holes = openings(length, inside=inside)
    step = STUD if fine else STUD * COARSE
    edges = {e for hole in holes for e in (hole.first, hole.last)} if fine else set()
    stops = sorted({0.0, length} | edges | _steps(step, length, holes if fine else ()))
    fill, stud = lit("wall", face), "wall_line"
    left_is_far = ux * turn.away[0] + uy * turn.away[1] < 0

    def flat(first: float, last: float, low: float, high: float) -> tuple[Point, ...]:
        p, q = ((a[0] + ux * run, a[1] + uy * run) for run in (first, last))
        return turn.all_flat(((*p, low), (*q, low), (*q, high), (*p, high)))

    for first, last in itertools.pairwise(stops):
        hole = next((h for h in holes if h.first <= first and last <= h.last), None) if fine else None
        levels = [(-height, -PLATE)] if hole is None else [(-height, hole.sill - height), (hole.head - height, -PLATE)]
        quads = [flat(first, last, low, high) for low, high in levels if high - low > 1]
        items: list[Item] = [Polygon(quad, fill) for quad in quads]
        if fine:  # at the further end: the next bay there is painted already, the one at the nearer end is not
            items += [Line((quad[0], quad[3]) if left_is_far else (quad[1], quad[2]), stud, 1.0) for quad in quads]
        middle = (first + last) / 2
        yield turn.depth((a[0] + ux * middle, a[1] + uy * middle, -height / 2)), items
    for hole in holes:
        frame = flat(hole.first, hole.last, hole.sill - height, hole.head - height)
        nearer = hole.first if not left_is_far else hole.last
        depth = turn.depth((a[0] + ux * nearer, a[1] + uy * nearer, -height / 2)) - step / 2 - STUD
        yield depth, [Line((*frame, frame[0]), stud, 1.6)] if fine else [Polygon(frame, "slab 1", stud, 1.2)]


def _steps(step: float, length: float, holes: tuple[Opening, ...]) -> set[float]:
    """Return where studs stand along a wall, but for its openings."""
    places = (step * k for k in range(1, int(length / step) + 1))
    return {at for at in places if at < length and not any(h.first <= at <= h.last for h in holes)}
