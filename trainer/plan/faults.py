"""What can be wrong with a plate plan, each with the place and what to do."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.plan.against import against_faults
from trainer.plan.corners import xy
from trainer.plan.model import wall_name
from trainer.plan.roof_parts import step_faults
from trainer.words import _, ngettext

Corner = Sequence[int]
NO_CORNER = _("lies on a straight wall and is no corner; leave it out")
_FEWEST_CORNERS = 4
_NEAR = 1e-6
"""Millimetres within which a wall that runs at an angle meets another; far under the whole mm that plans are in."""
_SHORTEST_PIECE = 1e-9
"""Part of an internal wall under which two cuts are one, but for rounding."""


@dataclass(frozen=True, slots=True)
class PlanFault:
    """One thing wrong: ``path`` is the way to it in a level, like ``("plates", "outline", 3)``."""

    path: tuple[str | int, ...]
    what: str


def plan_faults(
    outline: Sequence[Corner],
    gables: Sequence[str],
    internal_walls: Sequence[Sequence[Corner]],
    against: Sequence[str] = (),
) -> list[PlanFault]:
    """Return all that keeps these from being a house's plan; corners are (x, y) in whole mm.

    Time grows with the square of the corners; callers hold them to 500.
    """
    corners = [(corner[0], corner[1]) for corner in outline]
    faults = [PlanFault(("plates", "outline", *path), what) for path, what in _outline_faults(corners)]
    faults += [PlanFault(("gables", i), what) for i, what in wall_name_faults(gables, len(corners))]
    faults += [PlanFault(("against", i), what) for i, what in wall_name_faults(against, len(corners))]
    if not faults:
        faults += [PlanFault(("against", i), what) for i, what in against_faults(against, gables, corners)]
        faults += [PlanFault(("gables", i), what) for i, what in _gable_place_faults(gables, corners)]
        faults += [PlanFault(("gables", i), what) for i, what in step_faults(gables, against, corners)]
        for i, wall in enumerate(internal_walls):
            faults += [PlanFault(("internal_walls", i, *path), what) for path, what in _internal_faults(wall, corners)]
    return faults


_Xy = tuple[int, int]
_At = tuple[tuple[int, ...], str]


def _outline_faults(corners: list[_Xy]) -> Iterator[_At]:
    kept = list(range(len(corners)))
    if len(kept) > 1 and corners[0] == corners[-1]:
        yield (kept.pop(),), _("is the first corner again; leave it out, the outline closes itself")
    repeated = {i for i in kept[1:] if corners[i] == corners[i - 1]}
    for i in sorted(repeated):
        yield (i,), _("is the same as the corner before it; leave it out")
    kept = [i for i in kept if i not in repeated]
    if len(kept) < _FEWEST_CORNERS:
        yield (
            (),
            ngettext(
                "has {n} corner; a house has at least {least}",
                "has {n} corners; a house has at least {least}",
                len(kept),
            ).format(n=len(kept), least=_FEWEST_CORNERS),
        )
        return
    walls = [_Edge(i, corners[i], corners[j]) for i, j in zip(kept, [*kept[1:], kept[0]], strict=True)]
    bent = list(_bends(walls))
    yield from bent
    if any(wall.step is None for wall in walls):
        return
    crossings = list(_crossings(walls))
    yield from crossings
    if not bent and not crossings and _twice_area(corners, kept) < 0:
        yield (), _("runs clockwise; list the corners the other way round, anticlockwise")


@dataclass(frozen=True, slots=True)
class _Edge:
    index: int
    a: _Xy
    b: _Xy

    @property
    def name(self) -> str:
        return wall_name(self.index)

    @property
    def step(self) -> _Xy | None:
        """Unit step along the wall; none where it runs at an angle."""
        dx, dy = self.b[0] - self.a[0], self.b[1] - self.a[1]
        return None if dx and dy else ((dx > 0) - (dx < 0), (dy > 0) - (dy < 0))

    @property
    def box(self) -> tuple[int, int, int, int]:
        (ax, ay), (bx, by) = self.a, self.b
        return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def _bends(walls: list[_Edge]) -> Iterator[_At]:
    for before, wall in zip([walls[-1], *walls[:-1]], walls, strict=True):
        step, last = wall.step, before.step
        if step is None:
            what = _("wall {name} runs at an angle to {at}; walls run along x or along y").format(
                name=wall.name, at=xy(wall.b)
            )
            yield (wall.index,), what
        elif last == step:
            yield (wall.index,), NO_CORNER
        elif last == (-step[0], -step[1]):
            yield (
                (wall.index,),
                _("wall {name} turns straight back along wall {other}; correct this corner").format(
                    name=wall.name, other=before.name
                ),
            )


def _crossings(walls: list[_Edge]) -> Iterator[_At]:
    """Where the outline meets itself: one fault a wall, with the first earlier wall that it meets."""
    boxes = [wall.box for wall in walls]
    last = len(walls) - 1
    for i, (x0, y0, x1, y1) in enumerate(boxes):
        for j in range(i - 1):  # its neighbours share a corner with it, as they should
            if i == last and j == 0:
                continue
            u0, v0, u1, v1 = boxes[j]
            if x0 <= u1 and u0 <= x1 and y0 <= v1 and v0 <= y1:
                at = xy((max(x0, u0), max(y0, v0)))
                what = _("wall {name} meets wall {other} at {at}; walls meet only at corners").format(
                    name=walls[i].name, other=walls[j].name, at=at
                )
                yield (walls[i].index,), what
                break


def _twice_area(corners: list[_Xy], kept: list[int]) -> int:
    return sum(
        corners[i][0] * corners[j][1] - corners[j][0] * corners[i][1]
        for i, j in zip(kept, [*kept[1:], kept[0]], strict=True)
    )


def wall_name_faults(named: Sequence[str], count: int) -> Iterator[tuple[int, str]]:
    """What is wrong with a list of names as names of walls, by place in the list."""
    names = [wall_name(i) for i in range(max(count, 1))]
    for i, wall in enumerate(named):
        if wall in named[:i]:
            yield i, _("is named twice; leave it out")
        elif wall not in names and wall.upper() in names:
            yield i, _("did you mean '{name}'? Walls have capital letters").format(name=wall.upper())
        elif wall not in names:
            yield i, _("is no wall of this house; its walls are A to {last}").format(last=names[-1])


def _gable_place_faults(gables: Sequence[str], corners: list[_Xy]) -> Iterator[tuple[int, str]]:
    names = [wall_name(i) for i in range(len(corners))]
    for i, gable in enumerate(gables):
        first = names.index(gable)
        second = (first + 1) % len(corners)
        if names[second] in gables:
            yield (
                i,
                _(
                    "wall {gable} and the next, wall {next}, are both gables. A gable's slopes come down along the "
                    "walls beside it. Between two gables the roof would end high over their corner, on walls built up "
                    "to it, which no truss here bears on. Let one of them be an eave; or, where a higher house stands "
                    "behind one, let that one be against it"
                ).format(gable=gable, next=names[second]),
            )


def _internal_faults(wall: Sequence[Corner], corners: list[_Xy]) -> Iterator[_At]:
    points = [(point[0], point[1]) for point in wall]
    if len(points) < 2:
        yield (), _("has fewer than two points; a wall runs from one point to another")
    outside = [j for j, point in enumerate(points) if not inside(corners, *point)]
    for j in outside:
        yield (j,), _("{at} is outside the house; internal walls stay inside the outline").format(at=xy(points[j]))
    for j, (a, b) in enumerate(itertools.pairwise(points)):
        if a == b:
            yield (j + 1,), _("is the same as the point before it; leave it out")
        elif j not in outside and j + 1 not in outside and not _stays_inside(corners, a, b):
            yield (
                (j + 1,),
                _("the wall leaves the house between {at} and {there}; keep it inside the outline").format(
                    at=xy(a), there=xy(b)
                ),
            )


def _stays_inside(corners: list[_Xy], a: _Xy, b: _Xy) -> bool:
    """Cut the way from ``a`` to ``b`` wherever it meets an outside wall and look at the middle of each piece."""
    way = (b[0] - a[0], b[1] - a[1])
    cuts = {0.0, 1.0}
    for p, q in zip(corners, [*corners[1:], corners[0]], strict=True):
        across, along = (0, 1) if p[0] == q[0] else (1, 0)
        if way[across]:
            cut = (p[across] - a[across]) / way[across]
            met = a[along] + way[along] * cut
            if min(p[along], q[along]) - _NEAR <= met <= max(p[along], q[along]) + _NEAR:
                cuts.add(cut)
    pieces = itertools.pairwise(sorted(cut for cut in cuts if 0 <= cut <= 1))
    middles = [(s + t) / 2 for s, t in pieces if t - s > _SHORTEST_PIECE]
    return all(inside(corners, a[0] + way[0] * middle, a[1] + way[1] * middle) for middle in middles)


def inside(corners: Sequence[_Xy], x: float, y: float) -> bool:
    """Whether (x, y) is inside the outline or on it."""
    odd = False
    for (px, py), (qx, qy) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if min(px, qx) <= x <= max(px, qx) and min(py, qy) <= y <= max(py, qy):
            return True
        if px == qx and x < px and min(py, qy) <= y < max(py, qy):
            odd = not odd
    return odd
