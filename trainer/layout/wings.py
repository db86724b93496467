"""A plan taken apart into wings: which runs through, what is left of the others, and the openings between.

The rules are common practice, no source. Where they can't be followed the plan is refused with a
:class:`~trainer.layout.model.Refusal`, never laid out wrongly.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from trainer.layout.model import Rect, Refusal
from trainer.layout.rects import Axis, Grid, Profile, RoofRect, grid, profile, roof_rects, runs
from trainer.plan import Plan
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
    """An edge that two bodies share. It lies on the line ``at`` that runs along ``along``, from ``start`` to ``stop``.

    ``inward`` is +1 or -1: the way from the line into ``through``, where the girder stands. ``wing`` is
    the one whose roof runs across the line; ``profile`` that roof on it. ``tails`` says whether the
    (start, stop) end lies on an outside wall that runs past, so that the girder has a tail there.
    """

    through: Body
    other: Body
    wing: RoofRect
    along: Axis
    at: float
    start: float
    stop: float
    inward: int
    profile: Profile
    walls: tuple[str, str]
    tails: tuple[bool, bool]

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
        for first, second in combinations(bodies, 2):
            found = _opening(plan, rects, first, second)
            if isinstance(found, Opening):
                openings.append(found)
            elif found:
                refusals.append(found)
    refusals += [_shared_corner(a, b) for a, b in combinations(openings, 2) if _corners(a) & _corners(b)]
    return Wings(tuple(rects), tuple(bodies), tuple(openings), tuple(refusals))


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
            if (rect[3] - rect[1] if wing.axis == "x" else rect[2] - rect[0]) != wing.span:
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


def _opening(plan: Plan, rects: list[RoofRect], through: Body, other: Body) -> Opening | Refusal | None:
    """The opening between two bodies, if they share an edge; ``through`` comes first in order."""
    edge = _shared_edge(through.rect, other.rect)
    if edge is None:
        return None
    along, at, start, stop, inward = edge
    first, last = (_end_wall(plan, along, at, start, stop, t) for t in (start, stop))
    if first is None or last is None:
        return Refusal(
            _("where three parts of the house meet"),
            _place(along, at, start if first is None else stop),
            _("No wall bears this opening's girder at one end. Change the plan so that a wall stands here."),
        )
    low, across = (0, 1) if along == "x" else (1, 0)
    crossing = [
        r for r in rects
        if r.rect[low] == start and r.rect[low + 2] == stop and r.rect[across] < at < r.rect[across + 2]
    ]  # fmt: skip
    line = profile(rects, along, at, start, stop)
    if not crossing or line[0][1] or line[-1][1]:
        return Refusal(
            _("the opening between two wings"),
            _place(along, at, (start + stop) / 2),
            _("No wing runs through this opening from side to side. Move or widen a wing."),
        )
    bearings, tails = (first[0], last[0]), (first[1], last[1])
    return Opening(through, other, crossing[0], along, at, start, stop, inward, line, bearings, tails)


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


def _end_wall(plan: Plan, along: Axis, at: float, start: float, stop: float, t: float) -> tuple[str, bool] | None:
    """The wall that bears an opening's girder at its end ``t``, and whether it runs past so that there is an eave."""
    low, across = (0, 1) if along == "x" else (1, 0)
    outward = -1 if t == start else 1
    best: tuple[str, bool] | None = None
    for wall in plan.walls:
        if wall.a[low] != t or wall.b[low] != t or wall.inward[low] != -outward:
            continue
        first, last = sorted((wall.a[across], wall.b[across]))
        if first < at < last:
            return wall.name, True
        if at in (first, last):
            best = (wall.name, False)
    return best


def _corners(opening: Opening) -> set[tuple[float, float]]:
    return {_place(opening.along, opening.at, t) for t in (opening.start, opening.stop)}


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


def _shared_corner(a: Opening, b: Opening) -> Refusal:
    return Refusal(
        _("two openings that share a corner"),
        min(_corners(a) & _corners(b)),
        _("Two girders would need the same bearing at this corner. Move one wing along its wall."),
    )
