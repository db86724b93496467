"""A plan taken apart into wings: which runs through, what is left of the others, and the openings between.

The rules are common practice, no source. Where they can't be followed the plan is refused with a
:class:`~trainer.layout.model.Refusal`, never laid out wrongly.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from trainer.layout.model import Refusal
from trainer.plan import Plan
from trainer.roof.rects import Axis, Grid, Profile, Rect, RoofRect, grid, profile, roof_rects, runs
from trainer.words import _


@dataclass(frozen=True, slots=True)
class Body:
    """What is left of a wing's rectangle beside the wings before it: the part its trusses stand on."""

    wing: RoofRect
    rect: Rect

    @property
    def axis(self) -> Axis:
        """Which way the wing's ridge runs."""
        return self.wing.axis


@dataclass(frozen=True, slots=True)
class Opening:
    """An edge of ``other`` where it meets bodies before it. It lies on the line ``at`` along ``along``.

    It runs from ``start`` to ``stop``. ``throughs`` are the bodies beyond it, in order along it, and ``inward`` is
    +1 or -1: the way from the line into them, where the girder stands. ``wing`` is the one whose roof runs across
    the line; ``profile`` the whole roof on it. ``tails`` says whether the (start, stop) end lies on an outside wall
    that runs past, so that the girder has a tail there; ``hung`` whether it hangs on another opening's girder.
    """

    throughs: tuple[Body, ...]
    other: Body
    wing: RoofRect
    along: Axis
    at: float
    start: float
    stop: float
    inward: int
    profile: Profile
    tails: tuple[bool, bool]
    hung: tuple[bool, bool]

    @property
    def across(self) -> Axis:
        """The axis that crosses the line."""
        return "y" if self.along == "x" else "x"

    def covers(self, along: Axis, at: float, t: float) -> bool:
        """Whether the place ``t`` on the line ``at`` lies strictly inside this opening."""
        return along == self.along and at == self.at and self.start < t < self.stop


@dataclass(frozen=True)
class Wings:
    """A plan taken apart. ``rects`` are all largest rectangles, widest first."""

    rects: tuple[RoofRect, ...]
    bodies: tuple[Body, ...]
    openings: tuple[Opening, ...]
    refusals: tuple[Refusal, ...]


def take_apart(plan: Plan) -> Wings:
    """Find the wings, bodies and openings of a plan, and everything that can't be laid out."""
    cells = grid(plan)
    rects = sorted(roof_rects(plan, cells), key=lambda r: (-r.span, -r.length, r.rect[1], r.rect[0]))
    bodies, refusals = _bodies(rects, cells)
    openings: list[Opening] = []
    if not refusals:
        edges = _edges(bodies)
        for edge in edges:
            found = _opening(plan, rects, edge, edges)
            if isinstance(found, Opening):
                openings.append(found)
            else:
                refusals.append(found)
    return Wings(tuple(rects), tuple(bodies), tuple(_carriers_first(openings)), tuple(refusals))


@dataclass(frozen=True, slots=True)
class _Edge:
    """Where one body meets bodies before it along one line."""

    throughs: tuple[Body, ...]
    other: Body
    along: Axis
    at: float
    start: float
    stop: float
    inward: int

    def goes_on_in(self, edge: _Edge) -> bool:
        """Whether another edge of the same body lies end to end with it, the same way in."""
        mine = (self.other, self.along, self.at, self.inward, self.stop)
        return mine == (edge.other, edge.along, edge.at, edge.inward, edge.start)

    def crosses(self, other: _Edge, corner: float) -> bool:
        """Whether it runs through under the end of another one at ``corner`` of its line, and so carries that."""
        return self.along != other.along and self.at == corner and self.start < other.at < self.stop


def _edges(bodies: list[Body]) -> list[_Edge]:
    """The edges of each body with those before it; where these lie side by side they are one edge."""
    found: list[_Edge] = []
    for i, other in enumerate(bodies):
        shared = ((through, _shared_edge(through.rect, other.rect)) for through in bodies[:i])
        own = [_Edge((through,), other, *edge) for through, edge in shared if edge]
        for edge in sorted(own, key=lambda e: (e.along, e.at, e.inward, e.start)):
            if found and found[-1].goes_on_in(edge):
                last = found.pop()
                edge = replace(last, throughs=(*last.throughs, *edge.throughs), stop=edge.stop)  # noqa: PLW2901
            found.append(edge)
    return found


def _carriers_first(openings: list[Opening]) -> list[Opening]:
    """The openings in an order in which no girder comes before the one that it hangs on."""
    waiting, done = list(openings), []
    while waiting:
        ready = [o for o in waiting if not any(_hangs_on(o, other) for other in waiting if other is not o)]
        chosen = ready[0] if ready else waiting[0]
        waiting.remove(chosen)
        done.append(chosen)
    return done


def _hangs_on(opening: Opening, other: Opening) -> bool:
    corners = [t for t, hung in zip((opening.start, opening.stop), opening.hung, strict=True) if hung]
    return other.along != opening.along and other.at in corners and other.start < opening.at < other.stop


def _bodies(rects: list[RoofRect], cells: Grid) -> tuple[list[Body], list[Refusal]]:
    taken = [0] * len(cells.rows)
    bodies: list[Body] = []
    refusals: list[Refusal] = []
    for wing in rects:
        free = {j: bits & ~taken[j] for j, bits in cells.cells(wing.rect) if bits & ~taken[j]}
        for piece in _pieces(free):
            rect = _as_rect(piece, cells)
            if rect is None:
                refusals.append(_odd_leftover(wing))
                continue
            bodies.append(Body(wing, rect))
            if (rect[3] - rect[1] if wing.axis == "x" else rect[2] - rect[0]) != wing.width:
                refusals.append(_narrow_body(rect))
        for j, bits in free.items():
            taken[j] |= bits
    return bodies, refusals


def _pieces(free: dict[int, int]) -> list[dict[int, int]]:
    """Split cells into connected pieces; each maps a row to its bits."""
    pieces: list[dict[int, int]] = []
    for j in sorted(free):
        for i0, i1 in runs(free[j]):
            bits = (1 << i1) - (1 << i0)
            touching = [piece for piece in pieces if piece.get(j - 1, 0) & bits]
            joined: dict[int, int] = {j: bits}
            for piece in touching:
                for row, more in piece.items():
                    joined[row] = joined.get(row, 0) | more
                pieces.remove(piece)
            pieces.append(joined)
    return pieces


def _as_rect(piece: dict[int, int], cells: Grid) -> Rect | None:
    spans = {tuple(runs(bits)) for bits in piece.values()}
    if len(spans) != 1 or len(next(iter(spans))) != 1:
        return None
    ((i0, i1),) = next(iter(spans))
    return (float(cells.xs[i0]), float(cells.ys[min(piece)]), float(cells.xs[i1]), float(cells.ys[max(piece) + 1]))


def _opening(plan: Plan, rects: list[RoofRect], edge: _Edge, edges: list[_Edge]) -> Opening | Refusal:
    """The opening on an edge."""
    along, at, start, stop = edge.along, edge.at, edge.start, edge.stop
    hung = tuple(any(e.crosses(edge, t) for e in edges) for t in (start, stop))
    if edge.other.wing.half is not None:
        return Refusal(
            _("half a wing that frames into a wider one"),
            _place(along, at, (start + stop) / 2),
            _("A roof that runs along a higher wall can't frame into a wider wing here. Let one of them run past."),
        )
    walls = tuple(_end_wall(plan, along, at, start, stop, t) for t in (start, stop))
    for t, on_girder, wall in zip((start, stop), hung, walls, strict=True):
        if not on_girder and wall is None:
            return Refusal(
                _("where three parts of the house meet"),
                _place(along, at, t),
                _("No wall bears this opening's girder at one end. Change the plan so that a wall stands here."),
            )
    line = profile(rects, along, at, start, stop)
    wing = _crossing(rects, edge)
    if wing is None or any(d and not on_girder for (_t, d), on_girder in zip((line[0], line[-1]), hung, strict=True)):
        return Refusal(
            _("the opening between two wings"),
            _place(along, at, (start + stop) / 2),
            _("No wing runs through this opening from side to side. Move or widen a wing."),
        )
    tails = (bool(walls[0]), bool(walls[1]))
    return Opening(
        edge.throughs, edge.other, wing, along, at, start, stop, edge.inward, line, tails, (hung[0], hung[1])
    )


def _crossing(rects: list[RoofRect], edge: _Edge) -> RoofRect | None:
    """The wing whose roof runs across an edge: as wide as it is, or the body's own."""
    low, across = (0, 1) if edge.along == "x" else (1, 0)
    for r in [*rects, edge.other.wing]:
        if r.rect[low] == edge.start and r.rect[low + 2] == edge.stop and r.rect[across] < edge.at < r.rect[across + 2]:
            return r
    own = edge.other.wing
    return own if own.rect[across] < edge.at < own.rect[across + 2] else None


def _shared_edge(a: Rect, b: Rect) -> tuple[Axis, float, float, float, int] | None:
    """(along, at, start, stop, the way into ``a``) of the edge that two rectangles share."""
    axes: tuple[tuple[Axis, int, int], ...] = (("x", 0, 1), ("y", 1, 0))
    for along, low, across in axes:
        start, stop = max(a[low], b[low]), min(a[low + 2], b[low + 2])
        if start < stop and a[across] == b[across + 2]:
            return along, a[across], start, stop, 1
        if start < stop and a[across + 2] == b[across]:
            return along, b[across], start, stop, -1
    return None


def _end_wall(plan: Plan, along: Axis, at: float, start: float, stop: float, t: float) -> bool | None:
    """Whether the wall that bears an opening's girder at its end ``t`` runs past, so that there is an eave."""
    low, across = (0, 1) if along == "x" else (1, 0)
    outward = -1 if t == start else 1
    best: bool | None = None
    for wall in plan.walls:
        if wall.a[low] != t or wall.b[low] != t or wall.inward[low] != -outward:
            continue
        first, last = sorted((wall.a[across], wall.b[across]))
        if first < at < last:
            return True
        if at in (first, last):
            best = False
    return best


def _place(along: Axis, at: float, t: float) -> tuple[float, float]:
    return (t, at) if along == "x" else (at, t)


def _odd_leftover(wing: RoofRect) -> Refusal:
    x0, y0, x1, y1 = wing.rect
    return Refusal(
        _("wings that overlap at a corner"),
        ((x0 + x1) / 2, (y0 + y1) / 2),
        _("What is left of the narrower wing is no rectangle. Let one wing run right through."),
    )


def _narrow_body(rect: Rect) -> Refusal:
    return Refusal(
        _("a part narrower than its own roof"),
        ((rect[0] + rect[2]) / 2, (rect[1] + rect[3]) / 2),
        _("Only a strip is left beside the wing that runs through. Make it as wide as its roof, or leave it off."),
    )
