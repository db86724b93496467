"""A plan taken apart into wings: which runs through, what is left of the others, and the openings between.

The rules are common practice, no source. Where they can't be followed the plan is refused with a
:class:`~trainer.layout.model.Refusal`, never laid out wrongly.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from trainer.layout.bodies import Body, bodies_of
from trainer.layout.model import Refusal
from trainer.plan import PlatePlan, RoundCorner, roof_parts, round_corners
from trainer.roof.rects import Axis, Profile, Rect, RoofRect, grid, profile, roof_rects
from trainer.words import _


@dataclass(frozen=True, slots=True)
class Opening:
    """An edge of ``other`` where it meets bodies before it. It lies on the line ``at`` along ``along``.

    It runs from ``start`` to ``stop``. ``throughs`` are the bodies beyond it, in order along it, and ``inward`` is
    +1 or -1: the way from the line into them, where the girder stands. ``wing`` is the one whose roof runs across
    the line; ``profile`` the whole roof on it. ``tails`` says whether the (start, stop) end lies on an outside wall
    that runs past, so that the girder has a tail there; ``hung`` whether it hangs on another opening's girder;
    ``at_wall`` whether it ends at the face of a higher wall, where half a wing frames in. ``round_corner`` says that it
    goes from the corner of a higher wall to the wall before it: both roofs end there, and are as high.
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
    round_corner: bool = False

    @property
    def bitten(self) -> bool:
        """Whether a body beside it is what a bite left of its wing."""
        return any(body.bitten or body.left_of != body.wing for body in (*self.throughs, self.other))

    @property
    def under(self) -> tuple[Body, ...]:
        """The bodies beyond it that the wing's roof runs out over: not those that are left of the same wing."""
        if self.round_corner:
            return ()
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
        found, refused = bodies_of(own, cells, setback)
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
    for corner in round_corners(plan) if not refusals else ():
        opening = _round_corner(rects, bodies, corner)
        if isinstance(opening, Opening):
            openings.append(opening)
        else:
            refusals.append(opening)
    return Wings(tuple(sorted(rects, key=_widest)), tuple(bodies), tuple(_carriers_first(openings)), tuple(refusals))


def _round_corner(rects: list[RoofRect], bodies: list[Body], corner: RoundCorner) -> Opening | Refusal:
    """The opening from the corner of a higher wall to the wall before it: its girder stands at the other one's face."""
    low, across = (0, 1) if corner.along == "x" else (1, 0)
    sides: list[list[Body]] = [[], []]
    for body in bodies:
        if body.rect[low] <= corner.start and corner.stop <= body.rect[low + 2]:
            for beyond, at in enumerate((body.rect[across + 2], body.rect[across])):
                if at == corner.at:
                    sides[beyond].append(body)
    inner, outer = sides if corner.inward > 0 else reversed(sides)
    line = profile(rects, corner.along, corner.at, corner.start, corner.stop)
    ends = (corner.at_stop, not corner.at_stop)
    if len(inner) != 1 or len(outer) != 1 or len(line) != 2 or outer[0].axis == corner.along:
        return Refusal(
            _("the corner of a higher wall"),
            _place(corner.along, corner.at, corner.stop if corner.at_stop else corner.start),
            _("The roof can't go round it here. Draw each part of it as a house of its own, against its own wall."),
        )
    return Opening(
        (outer[0],), inner[0], outer[0].wing, corner.along, corner.at, corner.start, corner.stop, corner.inward, line,
        ends, (False, False), (ends[1], ends[0]), round_corner=True,
    )  # fmt: skip


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
