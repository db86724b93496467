"""A plan taken apart into wings: which runs through, what is left of the others, and the openings between.

The rules are common practice, no source. Where they can't be followed the plan is refused with a
:class:`~trainer.layout.model.Refusal`, never laid out wrongly.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from trainer.layout.model import Refusal
from trainer.plan import PlatePlan, roof_parts
from trainer.roof.rects import Axis, Grid, Profile, Rect, RoofRect, grid, profile, roof_rects, runs
from trainer.words import _


@dataclass(frozen=True, slots=True)
class Body:
    """What is left of a wing's rectangle beside the wings before it: the part its trusses stand on.

    ``sides`` are the lines across its ridge that its roof rises from. They are the rectangle's own, but where a wing
    before it takes a bite out of one side: there its trusses end at a girder, short of that line. ``left_of`` is the
    wing that it is left of, ``wing`` the one whose ridge its trusses stand across.
    """

    wing: RoofRect
    rect: Rect
    sides: tuple[float, float]
    left_of: RoofRect

    @property
    def axis(self) -> Axis:
        """Which way the wing's ridge runs."""
        return self.wing.axis

    @property
    def across(self) -> tuple[float, float]:
        """From where to where across the ridge its trusses run."""
        low = 1 if self.axis == "x" else 0
        return self.rect[low], self.rect[low + 2]

    @property
    def bitten(self) -> bool:
        """Whether a wing before it took a bite out of one side."""
        return self.sides != self.across


@dataclass(frozen=True, slots=True)
class Opening:
    """An edge of ``other`` where it meets bodies before it. It lies on the line ``at`` along ``along``.

    It runs from ``start`` to ``stop``. ``throughs`` are the bodies beyond it, in order along it, and ``inward`` is
    +1 or -1: the way from the line into them, where the girder stands. ``wing`` is the one whose roof runs across
    the line; ``profile`` the whole roof on it. ``tails`` says whether the (start, stop) end lies on an outside wall
    that runs past, so that the girder has a tail there; ``hung`` whether it hangs on another opening's girder;
    ``at_wall`` whether it ends at the face of a higher wall, where half a wing frames in.
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
    at_wall: tuple[bool, bool]

    @property
    def bitten(self) -> bool:
        """Whether a body beside it is what a bite left of its wing."""
        return any(body.bitten or body.left_of != body.wing for body in (*self.throughs, self.other))

    @property
    def under(self) -> tuple[Body, ...]:
        """The bodies beyond it that the wing's roof runs out over: not those that are left of the same wing."""
        return tuple(body for body in self.throughs if body.left_of != self.other.left_of)

    @property
    def across(self) -> Axis:
        """The axis that crosses the line."""
        return "y" if self.along == "x" else "x"

    def covers(self, along: Axis, at: float, t: float) -> bool:
        """Whether the place ``t`` on the line ``at`` lies strictly inside this opening."""
        return along == self.along and at == self.at and self.start < t < self.stop

    def bites(self, along: Axis, side: float, inward: int, t: float) -> bool:
        """Whether its girder holds at ``t`` the trusses of a bitten body whose roof rises inward from ``side``."""
        if along != self.along or inward != -self.inward or not self.start < t < self.stop:
            return False
        body = self.other
        return body.axis == along and body.bitten and body.sides[0 if inward > 0 else 1] == side


@dataclass(frozen=True)
class Wings:
    """A plan taken apart. ``rects`` are all largest rectangles, widest first."""

    rects: tuple[RoofRect, ...]
    bodies: tuple[Body, ...]
    openings: tuple[Opening, ...]
    refusals: tuple[Refusal, ...]

    @cached_property
    def used(self) -> tuple[RoofRect, ...]:
        """Those whose roof is seen by itself: over a body or across an opening."""
        found = {body.wing for body in self.bodies} | {body.left_of for body in self.bodies}
        found |= {opening.wing for opening in self.openings}
        if any(opening.bitten for opening in self.openings):
            found |= {wing for wing in self.rects if self.ridge_seen(wing)}
        return tuple(wing for wing in self.rects if wing in found)

    def ridge_seen(self, wing: RoofRect) -> bool:
        """Whether a wing's ridge lies above all the others' roofs anywhere."""
        low = 0 if wing.axis == "x" else 1
        half = wing.span / 2
        first = wing.rect[low] + (0 if wing.no_eave(low) else half)
        last = wing.rect[low + 2] - (0 if wing.no_eave(low + 2) else half)
        if last <= first:
            return False
        line = profile([r for r in self.rects if r != wing], wing.axis, wing.ridge, first, last)
        return min(height for _, height in line) < half


def take_apart(plan: PlatePlan, setback: float) -> Wings:
    """Find the wings, bodies and openings of a plan, and everything that can't be laid out.

    A strip no wider than ``setback`` (mm) that is left of a hip end has jacks, and no truncated girder.
    """
    rects: list[RoofRect] = []
    bodies: list[Body] = []
    openings: list[Opening] = []
    refusals: list[Refusal] = []
    for part in roof_parts(plan):
        cells = grid(part)
        own = sorted(roof_rects(part, cells), key=_widest)
        found, refused = _bodies(own, cells, setback)
        rects += own
        bodies += found
        refusals += refused
        if not refused:
            edges = _edges(found)
            for edge in edges:
                opening = _opening(plan, own, edge, edges)
                if isinstance(opening, Opening):
                    openings.append(opening)
                else:
                    refusals.append(opening)
    return Wings(tuple(sorted(rects, key=_widest)), tuple(bodies), tuple(_carriers_first(openings)), tuple(refusals))


def _widest(rect: RoofRect) -> tuple[float, float, float, float]:
    """What puts wings in order: wider first, then longer, then lower y, then lower x."""
    return (-rect.span, -rect.length, rect.rect[1], rect.rect[0])


@dataclass(frozen=True, slots=True)
class _Meeting:
    """Where one body meets bodies before it along one line."""

    throughs: tuple[Body, ...]
    other: Body
    along: Axis
    at: float
    start: float
    stop: float
    inward: int

    def goes_on_in(self, edge: _Meeting) -> bool:
        """Whether another edge of the same body lies end to end with it, the same way in."""
        mine = (self.other, self.along, self.at, self.inward, self.stop)
        return mine == (edge.other, edge.along, edge.at, edge.inward, edge.start)

    def crosses(self, other: _Meeting, corner: float) -> bool:
        """Whether it runs through under the end of another one at ``corner`` of its line, and so carries that."""
        return self.along != other.along and self.at == corner and self.start < other.at < self.stop


def _edges(bodies: list[Body]) -> list[_Meeting]:
    """The edges of each body with those before it; where these lie side by side they are one edge."""
    found: list[_Meeting] = []
    for i, other in enumerate(bodies):
        shared = ((through, _shared_edge(through.rect, other.rect)) for through in bodies[:i])
        own = [_Meeting((through,), other, *edge) for through, edge in shared if edge]
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


def _bodies(rects: list[RoofRect], cells: Grid, setback: float) -> tuple[list[Body], list[Refusal]]:
    taken = [0] * len(cells.rows)
    bodies: list[Body] = []
    refusals: list[Refusal] = []
    for wing in rects:
        for piece in _pieces(_free(wing, cells, taken)):
            found = _cut_up(piece, wing, cells)
            if found is None:
                refusals.append(_odd_leftover(wing))
                continue
            for body in found:
                placed = _strip(body, rects, cells, taken, setback) if body.bitten else body
                if placed is None or (placed.bitten and placed.wing.half is not None):
                    refusals.append(_odd_leftover(wing))
                    continue
                bodies.append(placed)
                for j, bits in cells.cells(placed.rect):
                    taken[j] |= bits
    return bodies, refusals


def _free(wing: RoofRect, cells: Grid, taken: list[int]) -> dict[int, int]:
    """The cells of a wing that no body has, as bits by row."""
    return {j: bits & ~taken[j] for j, bits in cells.cells(wing.rect) if bits & ~taken[j]}


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


def _cut_up(piece: dict[int, int], wing: RoofRect, cells: Grid) -> list[Body] | None:
    """What is left of a wing cut across its ridge into bodies, those with a bite out of one side first.

    None where a bite takes both sides, or leaves nothing of one in the middle.
    """
    low, across = (0, 1) if wing.axis == "x" else (1, 0)
    sides = (wing.rect[across], wing.rect[across + 2])
    slices: list[list[float]] = []
    for start, stop, taken in _slices(piece, wing, cells):
        if len(taken) != 1 or not {*taken[0]} & {*sides}:
            return None
        if slices and slices[-1][1:] == [start, *taken[0]]:
            slices[-1][1] = stop
        else:
            slices.append([start, stop, *taken[0]])
    bodies = []
    for start, stop, first, last in slices:
        rect = (start, first, stop, last) if low == 0 else (first, start, last, stop)
        bodies.append(Body(wing, rect, sides, wing))
    return sorted(bodies, key=lambda body: body.across[1] - body.across[0])


def _slices(
    piece: dict[int, int], wing: RoofRect, cells: Grid
) -> Iterator[tuple[float, float, list[tuple[float, float]]]]:
    """(from, to along the ridge, the stretches across it) of each line of cells across a wing."""
    if wing.axis == "y":
        for j in sorted(piece):
            taken = [(float(cells.xs[a]), float(cells.xs[b])) for a, b in runs(piece[j])]
            yield float(cells.ys[j]), float(cells.ys[j + 1]), taken
        return
    for i in range(len(cells.xs) - 1):
        rows = sum(1 << j for j, bits in piece.items() if bits >> i & 1)
        if rows:
            taken = [(float(cells.ys[a]), float(cells.ys[b])) for a, b in runs(rows)]
            yield float(cells.xs[i]), float(cells.xs[i + 1]), taken


def _strip(body: Body, rects: list[RoofRect], cells: Grid, taken: list[int], setback: float) -> Body | None:
    """A bitten body; a strip too narrow for its hip end's truncated girder turned, so that jacks run across it.

    It then goes to the wing that crosses it, as far out as that goes. Where that ends with the strip, the roof has no
    hip on the side where it goes on over the rest of the strip's own wing. None where no wing crosses it.
    """
    low = 0 if body.axis == "x" else 1
    start, stop = body.rect[low], body.rect[low + 2]
    first, last = body.across
    whole = body.wing
    hips = [whole.rect[i] == body.rect[i] and not whole.no_eave(i) for i in (low, low + 2)]
    if True not in hips or last - first > setback or stop - start < last - first:
        return body
    outer = 1 - low + (2 if last == body.sides[1] else 0)
    for r in rects:
        gabled = r.no_eave(low) or r.no_eave(low + 2) or (r.no_eave(outer) and r.rect[outer] == body.rect[outer])
        if r == whole or r.axis == body.axis or (r.rect[low], r.rect[low + 2]) != (start, stop) or gabled:
            continue
        for piece in _pieces(_free(r, cells, taken)):
            found = _cut_up(piece, r, cells)
            if not found or len(found) > 1 or found[0].bitten or not _holds(found[0].rect, body.rect):
                continue
            rect = found[0].rect
            if rect[outer] != body.rect[outer]:
                return found[0]
            far = 2 * (stop - start)
            return Body(r, rect, (start if hips[0] else stop - far, stop if hips[1] else start + far), whole)
    return None


def _holds(a: Rect, b: Rect) -> bool:
    return a[0] <= b[0] and a[1] <= b[1] and b[2] <= a[2] and b[3] <= a[3]


def _opening(plan: PlatePlan, rects: list[RoofRect], edge: _Meeting, edges: list[_Meeting]) -> Opening | Refusal:
    """The opening on an edge."""
    along, at, start, stop = edge.along, edge.at, edge.start, edge.stop
    hung = tuple(any(e.crosses(edge, t) for e in edges) for t in (start, stop))
    at_wall = tuple(_at_higher_wall(plan, along, at, t) for t in (start, stop))
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
    held = zip((line[0], line[-1]), hung, at_wall, strict=True)
    if wing is None or any(d and not (on_girder or on_ledger) for (_t, d), on_girder, on_ledger in held):
        return Refusal(
            _("the opening between two wings"),
            _place(along, at, (start + stop) / 2),
            _("No wing runs through this opening from side to side. Move or widen a wing."),
        )
    tails = (bool(walls[0]) and not at_wall[0], bool(walls[1]) and not at_wall[1])
    return Opening(
        edge.throughs, edge.other, wing, along, at, start, stop, edge.inward, line, tails, (hung[0], hung[1]),
        (at_wall[0], at_wall[1]),
    )  # fmt: skip


def _crossing(rects: list[RoofRect], edge: _Meeting) -> RoofRect | None:
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


def _end_wall(plan: PlatePlan, along: Axis, at: float, start: float, stop: float, t: float) -> bool | None:
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


def _at_higher_wall(plan: PlatePlan, along: Axis, at: float, t: float) -> bool:
    """Whether an opening's girder ends at ``t`` on the face of a higher wall."""
    low, across = (0, 1) if along == "x" else (1, 0)
    return any(
        wall.a[low] == wall.b[low] == t
        and min(wall.a[across], wall.b[across]) <= at <= max(wall.a[across], wall.b[across])
        for wall in plan.walls
        if wall.against
    )


def _place(along: Axis, at: float, t: float) -> tuple[float, float]:
    return (t, at) if along == "x" else (at, t)


def _odd_leftover(wing: RoofRect) -> Refusal:
    x0, y0, x1, y1 = wing.rect
    return Refusal(
        _("wings that overlap at a corner"),
        ((x0 + x1) / 2, (y0 + y1) / 2),
        _("What is left of the narrower wing is no rectangle. Let one wing run right through."),
    )
