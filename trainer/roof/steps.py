"""Where one part of a roof ends at the face of another's gable: the vertical faces between, and the verges' ends.

Each part is solved by itself (:func:`trainer.plan.roof_parts`). A gable has its verge where its own wall stands, and
eaves run up to its face below that; over the other part its face is flush. So the planes cover the plan once, but for
the corner where a verge stands out over the end of the lower eave: as at a dutch gable, that counts in both. The
vertical faces between the parts are no planes, and count apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, groupby, pairwise
from typing import TYPE_CHECKING

from trainer.plan import PlatePlan, Wall, gable_of, roof_parts
from trainer.roof.narrow import past_halfway
from trainer.roof.plane import Spread, clean
from trainer.roof.rects import Axis, Profile, grid, profile, roof_rects
from trainer.roof.side import Place

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_GRID = 16
"""Places are whole multiples of 1/16 mm; what shapely rounds is put back on them."""
Stretch = tuple[float, float]


def flush(plan: PlatePlan, whole: PlatePlan, wall: Wall) -> list[Stretch]:
    """From where to where along a part's gable no wall of its own stands; endless past an end that is no corner."""
    own = sorted((wall.run(each.a), wall.run(each.b)) for each in whole.walls if each.gable and wall.holds(each))
    places = [-float("inf"), *(run for stretch in own for run in stretch), float("inf")]
    if own and own[0][0] == 0.0:
        places = places[2:]
    if own and own[-1][1] == wall.length:
        places = places[:-2]
    return list(zip(places[::2], places[1::2], strict=True))


def _off(wall: Wall, other: Wall) -> float:
    """How far in from a wall's line another one stands, mm."""
    (x, y), (nx, ny) = wall.a, wall.inward
    return (other.a[0] - x) * nx + (other.a[1] - y) * ny


def without_flush(plan: PlatePlan, whole: PlatePlan, spreads: Sequence[Spread], overhang: int) -> list[Spread]:
    """Return a part's planes, cut off at the face of its gables where no wall of theirs stands, and half way over a
    recess too narrow for its eave and another part's.
    """
    boxes = [(wall, stretch) for wall in plan.walls if wall.gable and overhang for stretch in flush(plan, whole, wall)]
    cuts = past_halfway(plan, whole, overhang)
    if not boxes and not cuts:
        return list(spreads)
    from shapely import Polygon, union_all  # noqa: PLC0415 - few roofs ask for it, and it is slow to load

    others = [Polygon(part.outline) for part in roof_parts(whole) if part != plan]
    off = union_all([*others, *(Polygon(_box(wall, stretch, overhang)) for wall, stretch in boxes)])
    found = []
    for spread in spreads:
        names = {plan.walls[wall].name for wall in spread.walls}
        left = _shape(plan, spread) - off
        for cut in (cut for cut in cuts if names.isdisjoint(cut.beside)):
            left -= cut.shape
        shapes = [each for each in getattr(left, "geoms", [left]) if each.geom_type == "Polygon" and not each.is_empty]
        found += [_spread(plan, spread, shape.exterior.coords[:-1]) for shape in shapes]
    return found


def run_through(plan: PlatePlan, spreads: Sequence[Spread]) -> list[Spread]:
    """Join the planes of two parts that go on into each other, rising from one line: a wall that runs past both."""
    planes: dict[tuple[tuple[int, int], float], list[Spread]] = {}
    for spread in spreads:
        wall = plan.walls[spread.walls[0]]
        planes.setdefault((wall.inward, wall.a[0] if wall.inward[0] else wall.a[1]), []).append(spread)
    return [joined for same in planes.values() for joined in (_joined(plan, same) if len(same) > 1 else same)]


def _joined(plan: PlatePlan, spreads: Sequence[Spread]) -> Iterator[Spread]:
    from shapely import union_all  # noqa: PLC0415 - few roofs ask for it, and it is slow to load

    shapes = [(spread, _shape(plan, spread)) for spread in spreads]
    joined = union_all([shape for _spread, shape in shapes])
    wholes = getattr(joined, "geoms", [joined])
    if any(whole.interiors for whole in wholes):  # round a lower roof whose recess two verges close: no one polygon
        yield from spreads
        return
    for whole in wholes:
        own = {wall for spread, shape in shapes if whole.covers(shape.representative_point()) for wall in spread.walls}
        walls = tuple(sorted(own))
        yield _spread(plan, Spread(walls, []), whole.exterior.coords[:-1])


def _shape(plan: PlatePlan, spread: Spread) -> BaseGeometry:
    """A plane's shape; of one whose eave would cross itself beside an inside corner, what runs down from its walls."""
    from shapely import LineString, Polygon, make_valid, union_all  # noqa: PLC0415 - few roofs ask for it: slow to load

    shape = Polygon([place[:2] for place in spread.ring])
    if shape.is_valid:
        return shape
    walls = [LineString((plan.walls[wall].a, plan.walls[wall].b)) for wall in spread.walls]
    pieces = [each for each in make_valid(shape).geoms if each.geom_type == "Polygon"]
    return union_all([each for each in pieces if any((each & wall).length for wall in walls)])


def _box(wall: Wall, stretch: Stretch, verge: float) -> list[tuple[float, float]]:
    """What lies before a stretch of a wall, as far as a verge stands out; past its end as far as an eave does."""
    first, last = max(stretch[0], -2 * verge), min(stretch[1], wall.length + 2 * verge)
    (ax, ay), (bx, by), (nx, ny) = wall.at(first), wall.at(last), wall.inward
    out = 2 * verge
    return [(ax, ay), (bx, by), (bx - nx * out, by - ny * out), (ax - nx * out, ay - ny * out)]


def _spread(plan: PlatePlan, spread: Spread, corners: Sequence[tuple[float, ...]]) -> Spread:
    wall = plan.walls[spread.walls[0]]
    (ax, ay), (nx, ny) = wall.a, wall.inward
    places = [(round(x * _GRID) / _GRID, round(y * _GRID) / _GRID) for x, y in corners]
    if sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise([*places, places[0]])) < 0:
        places.reverse()
    return Spread(spread.walls, [(x + 0.0, y + 0.0, (x - ax) * nx + (y - ay) * ny + 0.0) for x, y in clean(places)])


def vertical_faces(plan: PlatePlan) -> Iterator[list[Place]]:
    """Yield what stands between two parts of a roof, as corners with their distance to the outside.

    Each is one polygon, anticlockwise to one who looks at it over the lower roof; level with its lower edge first.
    """
    for one, other in combinations(roof_parts(plan), 2):
        for wall, back in ((w, b) for w in _ends(one) for b in _ends(other) if w.along == _back(b) and not _off(w, b)):
            start, stop = max(0.0, wall.run(back.b)), min(wall.length, wall.run(back.a))
            if start < stop:
                lines = [gable_line(part, wall, start, stop) for part in (one, other)]
                yield from _between(wall, lines[0], lines[1])


def _ends(part: PlatePlan) -> list[Wall]:
    return [wall for wall in part.walls if wall.gable or wall.step]


def _back(wall: Wall) -> tuple[int, int]:
    return (-wall.along[0], -wall.along[1])


def gable_line(part: PlatePlan, wall: Wall, start: float, stop: float) -> Profile:
    """The roof of a part along the line of one of its gables, ``start`` to ``stop`` along it: (run, distance) pairs."""
    along: Axis = "x" if wall.inward[1] else "y"
    low = 0 if along == "x" else 1
    ends = sorted((wall.at(start)[low], wall.at(stop)[low]))
    line = profile(roof_rects(part, grid(part)), along, wall.a[1 - low], *ends)
    return tuple(sorted((abs(t - wall.a[low]), d) for t, d in line))


def over_gable(plan: PlatePlan, wall: Wall) -> Profile:
    """Return the roof over a gable wall: (distance along the wall from its first corner, to the outside) pairs, mm."""
    part, whole = gable_of(plan, wall)
    first = whole.run(wall.a)
    return tuple((run - first, d) for run, d in gable_line(part, whole, first, first + wall.length))


def _between(wall: Wall, one: Profile, other: Profile) -> Iterator[list[Place]]:
    """Every stretch on which one line stands above the other; the wall's inside is the one's."""
    marks = sorted({run for run, _d in (*one, *other)})
    marks = sorted({*marks, *_meetings(one, other, marks)})
    spots = [(run, _at(one, run), _at(other, run)) for run in marks]
    for higher, pieces in groupby(pairwise(spots), _higher):
        if higher:
            first, *rest = pieces
            yield _ring(wall, [*first, *(last for _before, last in rest)], outside=higher > 0)


_Spot = tuple[float, float, float]
"""Along a line between two parts: (run, how high the one is there, how high the other)."""


def _higher(piece: tuple[_Spot, _Spot]) -> int:
    """Which of two roofs is the higher over a piece of the line between them: the one (1), the other (-1), neither."""
    (_r0, a0, b0), (_r1, a1, b1) = piece
    return (a0 + a1 > b0 + b1) - (a0 + a1 < b0 + b1)


def _meetings(one: Profile, other: Profile, marks: list[float]) -> Iterator[float]:
    for a, b in pairwise(marks):
        first, last = (_at(one, t) - _at(other, t) for t in (a, b))
        if first * last < 0:
            yield a + (b - a) * first / (first - last)


def _at(line: Profile, run: float) -> float:
    for (a, low), (b, high) in pairwise(line):
        if a <= run <= b:
            return low if a == b else low + (high - low) * (run - a) / (b - a)
    return line[-1][1]


def _ring(wall: Wall, stretch: Sequence[_Spot], *, outside: bool) -> list[Place]:
    """A vertical face; a wall goes by from left to right to one who looks at it from ``outside``."""

    def place(run: float, d: float) -> Place:
        x, y = wall.at(run)
        return (x + 0.0, y + 0.0, d)

    low = [place(run, min(a, b)) for run, a, b in stretch]
    high = [place(run, max(a, b)) for run, a, b in reversed(stretch)]
    ring = [spot for spot, before in zip([*low, *high], [high[-1], *low, *high], strict=False) if spot != before]
    return ring if outside else ring[::-1]
