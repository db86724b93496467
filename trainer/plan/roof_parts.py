"""The parts that a roof falls into where a gable ends at an inside corner.

Such a gable goes on straight past the corner, over the house, to the wall that it meets there: its truss spans from
outside wall to outside wall. So it parts the roof in two, each a roof by itself: the gable's own, and what lies beyond,
which runs in under it and ends at its face. Where one stands above the other on that line, a vertical face is left, a
*step*. Where walls at both ends of the line are gables, each roof closes its own end.

A lower roof that goes round the corner of a higher wall is parted too: across its shallower leg, at a girder from that
corner to the wall before it. There both parts are as high, so that no step is left. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from trainer.plan.corners import Xy, xy
from trainer.plan.model import PlatePlan, Wall, wall_name
from trainer.words import _

_EAVE, _GABLE, _AGAINST, _STEP = "eave", "gable", "against", "step"
_OPEN = (_GABLE, _STEP)
"""What no plane rises from, and where two side by side leave no eave."""


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a part, from ``a`` to the next one's: what closes it, and the (name, kind) of each wall on it."""

    a: Xy
    kind: str
    walls: tuple[tuple[str, str], ...] = ()

    def joined(self, other: _Side) -> _Side:
        """Return one side made of it and the next one, in line with it."""
        kinds = (self.kind, other.kind)
        kind = next((kind for kind in (_GABLE, _AGAINST) if kind in kinds), _STEP)
        return replace(self, kind=kind, walls=self.walls + other.walls)


_Ring = list[_Side]


@lru_cache(maxsize=64)
def roof_parts(plan: PlatePlan) -> tuple[PlatePlan, ...]:
    """Return a sound plan's parts; of most plans there is one, the plan itself.

    Walls keep their names, and a wall that a line comes to from inside has it in both parts. Where a part ends under
    another one's gable, or at the corner of a higher wall, it has a wall of a name of its own, one of its ``steps``.
    """
    if not any(_stops_inside(plan.outline, wall.index) for wall in plan.walls if not wall.eave):
        return (plan,)
    ring = _ring(plan.outline, [wall.name for wall in plan.walls], plan.gables, plan.against)
    return tuple(_part(plan, found) for found in _cut_up(ring))


def gable_of(plan: PlatePlan, wall: Wall) -> tuple[PlatePlan, Wall]:
    """Return the part of a roof that a gable wall closes, and the whole of its gable there."""
    found = ((part, each) for part in roof_parts(plan) for each in part.walls if each.gable and each.holds(wall))
    return next(found)


@dataclass(frozen=True, slots=True)
class RoundCorner:
    """Where a lower roof goes round a higher wall's corner: the line ``at`` along ``along``, ``start`` to ``stop``.

    The corner is its one end or the other: ``at_stop``. ``inward`` is +1 or -1, the way from the line into the part
    that ends there, whose own higher wall the line runs up to.
    """

    along: Literal["x", "y"]
    at: float
    start: float
    stop: float
    at_stop: bool
    inward: int


def round_corners(plan: PlatePlan) -> tuple[RoundCorner, ...]:
    """Return where a sound plan's roof goes round the corners of higher walls.

    A gable's line may come to a higher wall too, but not from the inside corner between two.
    """
    walls = plan.walls
    corners = {w.a for w in walls if w.against and walls[w.index - 1].against and not plan.convex(w.index)}
    found = []
    for part in roof_parts(plan) if corners else ():
        for step in (wall for wall in part.walls if wall.step):
            corner = next((end for end in (step.a, step.b) if end in corners), None)
            if corner is None:
                continue
            low = 0 if step.inward[1] else 1
            start, stop = sorted((step.a[low], step.b[low]))
            axis: Literal["x", "y"] = "x" if low == 0 else "y"
            inward = step.inward[1 - low]
            found.append(RoundCorner(axis, step.a[1 - low], start, stop, corner[low] == stop, inward))
    return tuple(found)


def step_faults(gables: Sequence[str], against: Sequence[str], corners: Sequence[Xy]) -> Iterator[tuple[int, str]]:
    """Yield (place in ``gables``, what is wrong and what to do) for those that end at inside corners."""
    names = [wall_name(i) for i in range(len(corners))]
    stepped = [name for name in gables if _stops_inside(corners, names.index(name))]
    found = _cut_up(_ring(corners, names, gables, against)) if stepped else ()
    seen: set[str] = set()
    for before, side, after in (three for ring in found for three in _threes(ring)):
        gable = next((name for each in (side, before, after) for name, _k in each.walls if name in stepped), stepped[0])
        what = _in_line(gable, side) or _at_corner(gable, side, after, names)
        what = what or _between_walls(gable, before, side, after)
        if what and what not in seen:
            seen.add(what)
            yield gables.index(gable), what


def _threes(ring: _Ring) -> Iterator[tuple[_Side, _Side, _Side]]:
    """Each side with those before and after it."""
    return zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True)


def _in_line(gable: str, side: _Side) -> str | None:
    other = next((name for name, kind in side.walls if kind not in _OPEN), None)
    if other is None or side.kind not in _OPEN:
        return None
    return _(
        "gable {gable} goes on over the house in line with wall {wall}, and one line closes both; let wall {wall} be a "
        "gable too, or let neither be one"
    ).format(gable=gable, wall=other)


def _at_corner(gable: str, side: _Side, after: _Side, names: list[str]) -> str | None:
    if side.kind not in _OPEN or after.kind not in _OPEN:
        return None
    if len(side.walls) == len(after.walls) == 1:
        first, second = (names.index(each.walls[0][0]) for each in (side, after))
        if second == (first + 1) % len(names):
            return None  # neighbours on the plan are said to be such by themselves
    return _(
        "gable {gable} goes on over the house and comes to another gable at {at}; at that corner neither has an eave "
        "for its slope to come down to, so let one of them be an eave"
    ).format(gable=gable, at=xy(after.a))


def _between_walls(gable: str, before: _Side, side: _Side, after: _Side) -> str | None:
    if side.kind not in _OPEN or before.kind != _AGAINST or after.kind != _AGAINST:
        return None
    return _(
        "gable {gable} goes on over the house, and the roof there has a higher wall on both sides and no eave; leave "
        "it out of gables, or take one of these walls out of against"
    ).format(gable=gable)


def _ring(corners: Sequence[Xy], names: Sequence[str], gables: Collection[str], against: Collection[str]) -> _Ring:
    kinds = [_GABLE if name in gables else _AGAINST if name in against else _EAVE for name in names]
    return [_Side(a, kind, ((name, kind),)) for a, kind, name in zip(corners, kinds, names, strict=True)]


def _stops_inside(corners: Sequence[Xy], wall: int) -> bool:
    """Whether a wall has an end at an inside corner."""
    return any(_turn(corners, corner % len(corners)) < 0 for corner in (wall, wall + 1))


def _turn(corners: Sequence[Xy], i: int) -> int:
    """Which way an outline turns at a corner: to the left (more than 0) at an outside one."""
    (px, py), (x, y), (nx, ny) = corners[i - 1], corners[i], corners[(i + 1) % len(corners)]
    return (x - px) * (ny - y) - (y - py) * (nx - x)


def _cut_up(ring: _Ring) -> list[_Ring]:
    """Cut along every gable's line, and at every corner of a higher wall, until none ends at an inside corner."""
    corners = [side.a for side in ring]
    for i, side in enumerate(ring):
        if side.kind != _GABLE:
            continue
        for end in (i, (i + 1) % len(ring)):
            if _turn(corners, end) < 0:
                return [part for half in _cut(ring, i, end) for part in _cut_up(half)]
    for i, side in enumerate(ring):
        if _turn(corners, i) < 0 and side.kind == ring[i - 1].kind == _AGAINST:
            across = min((i - 1) % len(ring), i, key=lambda wall: _across(ring, wall, i))
            return [part for half in _cut(ring, across, i) for part in _cut_up(half)]
    return [ring]


def goes_round(corners: Sequence[Xy], gables: Collection[str], against: Collection[str], corner: int) -> bool:
    """Whether a lower roof can go round the inside corner between two higher walls: each leg as long as it is deep.

    The line across the shallower leg then ends on one straight wall, the square on either side of it is clear, and so
    is the one beyond it before the other leg's wall: no hip of a leg's end comes to the line, and both parts are as
    high. A leg that ends in a gable has no hip, and may be shorter.
    """
    names = [wall_name(i) for i in range(len(corners))]
    ring = _ring(corners, names, gables, against)
    if ring[corner].kind != _AGAINST or ring[corner - 1].kind != _AGAINST:
        return False
    wall = min((corner - 1) % len(ring), corner, key=lambda wall: _across(ring, wall, corner))
    deep, _longer, _wall = _across(ring, wall, corner)
    (dx, dy), (x, y) = _way(ring, wall, corner), ring[corner].a
    nx, ny = (-dy, dx) if corner != wall else (dy, -dx)  # the way from the wall into its own leg
    at, hit = _ahead(ring, (x, y), (dx, dy))
    runs = [_clear_run(ring, hit, at, (way * nx, way * ny), deep) for way in (-1, 1)]
    beside = _clear_run(ring, wall, (x, y), (-dx, -dy), deep)
    if ring[hit].kind != _EAVE or beside is None or None in runs:
        return False
    ends = [
        (at[0] + way * nx * (run or 0), at[1] + way * ny * (run or 0)) for way, run in zip((-1, 1), runs, strict=True)
    ]
    squares = [(end, (x, y)) for end in ends]
    squares.append(((x + nx * deep, y + ny * deep), (x - dx * beside, y - dy * beside)))
    walls = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    return not any(_runs_through(a, b, p, q) for p, q in squares for a, b in walls)


def _clear_run(ring: _Ring, wall: int, start: Xy, step: Xy, wanted: int) -> int | None:
    """How far a wall has to run on from ``start``: as ``wanted``, or to a gable before that; None: it is too short."""
    after = (wall + 1) % len(ring)
    ends = ((ring[wall].a, wall - 1), (ring[after].a, after))
    run, beyond = max(((x - start[0]) * step[0] + (y - start[1]) * step[1], side) for (x, y), side in ends)
    if run >= wanted:
        return wanted
    return run if ring[beyond].kind == _GABLE and run > 0 else None


def _runs_through(a: Xy, b: Xy, p: Xy, q: Xy) -> bool:
    """Whether a wall from ``a`` to ``b`` runs through the inside of the rectangle with the corners ``p`` and ``q``."""
    return all(max(a[i], b[i]) > min(p[i], q[i]) and min(a[i], b[i]) < max(p[i], q[i]) for i in (0, 1))


def _way(ring: _Ring, wall: int, corner: int) -> Xy:
    """The unit step from one of a wall's corners straight on past its end."""
    (ax, ay), (bx, by) = ring[wall].a, ring[(wall + 1) % len(ring)].a
    way = -1 if corner == wall else 1
    return (way * _sign(bx - ax), way * _sign(by - ay))


def _across(ring: _Ring, wall: int, corner: int) -> tuple[int, int, int]:
    """How far it is from a corner straight past a wall that ends there; near first, of two the longer wall's."""
    start, at = ring[corner].a, _ahead(ring, ring[corner].a, _way(ring, wall, corner))[0]
    (ax, ay), (bx, by) = ring[wall].a, ring[(wall + 1) % len(ring)].a
    return abs(at[0] - start[0]) + abs(at[1] - start[1]), -(abs(bx - ax) + abs(by - ay)), wall


def _cut(ring: _Ring, wall: int, corner: int) -> tuple[_Ring, _Ring]:
    """Go on from a wall's ``corner`` to the first side ahead: (what is on the wall's side, what lies beyond)."""
    start, onward = ring[corner].a, corner != wall
    at, hit = _ahead(ring, start, _way(ring, wall, corner))
    turned = [*ring[corner:], *ring[:corner]]  # from the corner on
    k = (hit - corner) % len(ring)
    first, rest = turned[: k + 1], turned[k:]
    # One ring runs from the corner on to the place that is met, the other from there back to the corner.
    if at == turned[k].a:
        first = turned[:k]
    else:
        rest = [replace(turned[k], a=at), *turned[k + 1 :]]
    if at == turned[(k + 1) % len(turned)].a:
        first, rest = turned[: k + 1], turned[k + 1 :]
    own = ring[wall].kind
    one, other = (_STEP, own) if onward else (own, _STEP)
    ahead, behind = _straight([*first, _Side(at, one)]), _straight([*rest, _Side(start, other)])
    return (behind, ahead) if onward else (ahead, behind)


def _ahead(ring: _Ring, start: Xy, step: Xy) -> tuple[Xy, int]:
    """(where, which side) is met first from ``start`` on: of those across the way."""
    low = 0 if step[0] else 1
    found = []
    for i, side in enumerate(ring):
        b = ring[(i + 1) % len(ring)].a
        far = (side.a[low] - start[low]) * step[low]
        ends = sorted((side.a[1 - low], b[1 - low]))
        if side.a[low] == b[low] and far > 0 and ends[0] <= start[1 - low] <= ends[1]:
            found.append((far, i))
    far, hit = min(found)
    return (start[0] + step[0] * far, start[1] + step[1] * far), hit


def _straight(ring: _Ring) -> _Ring:
    """The ring without corners on a straight line: the sides on either side of one are one."""
    kept: _Ring = []
    for side in ring:
        if kept and _in_a_row(kept[-1], side, ring):
            kept[-1] = kept[-1].joined(side)
        else:
            kept.append(side)
    if len(kept) > 1 and _in_a_row(kept[-1], kept[0], ring):
        kept[0] = kept.pop().joined(kept[0])
    return kept


def _in_a_row(side: _Side, after: _Side, ring: _Ring) -> bool:
    corners = [each.a for each in ring]
    here = corners.index(after.a)
    (px, py), (x, y), (nx, ny) = corners[here - 1], after.a, corners[(here + 1) % len(corners)]
    return (x - px) * (ny - y) == (y - py) * (nx - x)


def _part(plan: PlatePlan, ring: _Ring) -> PlatePlan:
    """A part as a plan by itself."""
    names = [side.walls[0][0] if side.walls else f"{_STEP} {i}" for i, side in enumerate(ring)]

    def of(kind: str) -> frozenset[str]:
        return frozenset(name for name, side in zip(names, ring, strict=True) if side.kind == kind)

    return replace(
        plan,
        outline=tuple(side.a for side in ring),
        names=tuple(names),
        gables=of(_GABLE),
        against=of(_AGAINST),
        steps=of(_STEP),
        internal_walls=(),
        beams=(),
        dutch_gables=tuple(gable for gable in plan.dutch_gables if gable.wall in names),
    )


def _sign(value: int) -> int:
    return (value > 0) - (value < 0)
