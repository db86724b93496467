"""What lies before what, from wherever one looks: a roof divided by the planes of its own trusses.

Each plane of a truss has all that lies in front of it on one side and all that lies behind it on the other; what
crosses it is cut there. So nothing is ever both before and behind something else, and for any look the far side of
each plane is painted first, then the truss itself, then the near side (a binary space partition). It is made once
for a roof as it stands; each look only walks through it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise

from trainer.picture.frame import Part
from trainer.picture.framing import FittedTimber
from trainer.picture.solids import Solid
from trainer.picture.struts import Strut
from trainer.plan import Point
from trainer.roof.model import Point3

TRIED = 6
"""So many trusses of those still together are tried for the next plane."""
SPLIT = 20
"""One thing cut in two counts as much against a plane as so many that lie on one side more than on the other."""
TOUCH = 10.0
"""What reaches no further than this past the face of a truss only touches it, mm."""
REACH = 300.0
"""What passes the plane of a truss no further from its end than this, mm, is taken to lie on it."""
UNDER = 60.0
"""What lies further than this under the upper edge of a truss, mm, does not lie on it but passes between its chords."""
BOWED = 2.0
"""The chords of a truss that is out by more than this, mm, are drawn in two pieces."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A timber of a truss, or what is left of it: its outline in (run, z), and which edges are its own.

    ``own`` says of the edge from each corner to the next; others are cuts that are not to be seen.
    """

    part: Part
    outline: tuple[Point, ...]
    own: tuple[bool, ...]
    upper: tuple[Point, Point]


@dataclass(frozen=True)
class Sheet:
    """A truss, or a part of one that is cut off by the plane of another: flat, so that it has a plane itself."""

    solid: Solid
    pieces: tuple[Piece, ...]

    @cached_property
    def corners(self) -> tuple[Point3, ...]:
        """Places in space that it lies between."""
        runs, heights = zip(*(corner for piece in self.pieces for corner in piece.outline), strict=True)
        ends, levels = (min(runs), max(runs)), (min(heights), max(heights))
        middle = (min(runs) + max(runs)) / 2
        stops = (*ends, middle) if self.solid.shape.bow else ends
        return tuple(self.solid.at(run, z) for run in stops for z in levels)

    @cached_property
    def middle(self) -> Point3:
        """The middle of its corners."""
        return _middle(self.corners)


@dataclass(frozen=True, slots=True)
class Rod:
    """A strut or a timber, or a length of one: from part ``first`` to part ``last`` of it, ``a`` to ``b`` in space."""

    of: Strut | FittedTimber
    a: Point3
    b: Point3
    first: float = 0.0
    last: float = 1.0

    @property
    def corners(self) -> tuple[Point3, ...]:
        """Its two ends."""
        return self.a, self.b

    @property
    def middle(self) -> Point3:
        """Half way along it."""
        return _middle(self.corners)

    def between(self, t: float, u: float) -> Rod:
        """Return a length of it."""
        a, b = (tuple((1 - s) * p + s * q for p, q in zip(self.a, self.b, strict=True)) for s in (t, u))
        whole = self.last - self.first
        return Rod(self.of, a, b, self.first + t * whole, self.first + u * whole)  # type: ignore[arg-type]


Thing = Sheet | Rod


def _middle(places: Sequence[Point3]) -> Point3:
    xs, ys, zs = zip(*places, strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys), sum(zs) / len(zs)


@dataclass(frozen=True, slots=True)
class TrussPlane:
    """The plane of a truss as it stands. A place is so many mm before it (or, if less than nothing, behind it)."""

    n: Point3
    d: float
    half: float

    def off(self, place: Point3) -> float:
        """Return how far before the plane a place lies, mm."""
        n = self.n
        return n[0] * place[0] + n[1] * place[1] + n[2] * place[2] - self.d

    def reach(self, thing: Thing) -> tuple[float, float]:
        """Return between how much and how much before the plane a thing lies, mm."""
        (a, b, c), d = self.n, self.d
        offs = [a * x + b * y + c * z - d for x, y, z in thing.corners]
        return min(offs), max(offs)


def plane_of(solid: Solid) -> TrussPlane:
    """Return the plane of a truss as it stands, through its two ends and its top."""
    span, high, low = solid.member.span, solid.framed.high, solid.framed.base
    p, q, r = solid.at(0.0, low), solid.at(span, low), solid.at(span / 2, high)
    a, b = [tuple(v - w for v, w in zip(end, p, strict=True)) for end in (q, r)]
    n = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    long = math.hypot(*n) or 1.0
    unit = (n[0] / long, n[1] / long, n[2] / long)
    return TrussPlane(unit, sum(v * w for v, w in zip(unit, p, strict=True)), solid.member.width / 2)


@dataclass
class PaintNode:
    """A plane, the trusses in it, what crosses those, and the rest on its two sides; without a plane, a few rods."""

    plane: TrussPlane | None = None
    sheets: list[Sheet] = field(default_factory=list)
    crossing: list[Thing] = field(default_factory=list)
    front: PaintNode | None = None
    back: PaintNode | None = None


def divided(solids: Iterable[Solid], rods: Iterable[Strut | FittedTimber]) -> PaintNode:
    """Return a roof divided by the planes of its trusses."""
    sheets = [Sheet(solid, tuple(_pieces(solid))) for solid in solids]
    return _divided([*sheets, *(Rod(rod, rod.a, rod.b) for rod in rods)])


def _pieces(solid: Solid) -> Iterator[Piece]:
    for timber in solid.framed.timbers:
        piece = Piece(timber.part, timber.outline, (True,) * len(timber.outline), timber.upper)
        runs = [run for run, _z in timber.outline]
        if abs(solid.shape.bow) > BOWED and timber.part != "web":
            middle = (min(runs) + max(runs)) / 2
            yield from filter(None, (cut(piece, 1.0, 0.0, -middle), cut(piece, -1.0, 0.0, middle)))
        else:
            yield piece


def _divided(things: list[Thing]) -> PaintNode:
    sheets = [thing for thing in things if isinstance(thing, Sheet)]
    if not sheets:
        return PaintNode(crossing=[*things])
    step = max(1, len(sheets) // TRIED)
    tried = [(sheet.solid, plane_of(sheet.solid)) for sheet in sheets[step // 2 :: step]]
    host, plane = min(tried, key=lambda one: _cost(one[1], sheets)) if len(tried) > 1 else tried[0]
    node = PaintNode(plane)
    front: list[Thing] = []
    back: list[Thing] = []
    slack = plane.half + TOUCH
    crossing: list[Thing] = [thing for thing in things if isinstance(thing, Rod)]
    for sheet in sheets:
        low, high = plane.reach(sheet)
        if sheet.solid is host or (low >= -slack and high <= slack):
            node.sheets.append(sheet)
        elif low >= -slack:
            front.append(sheet)
        elif high <= slack:
            back.append(sheet)
        else:
            crossing.append(sheet)
    for thing in crossing:
        if isinstance(thing, Sheet):
            _share_sheet(thing, plane, node, front, back)
        else:
            _share_rod(thing, plane, node, front, back)
    node.front = _divided(front) if front else None
    node.back = _divided(back) if back else None
    return node


def _cost(plane: TrussPlane, sheets: Iterable[Sheet]) -> float:
    """Return how ill a plane divides trusses: how many it cuts, and how uneven its sides are."""
    slack = plane.half + TOUCH
    cuts = front = back = 0
    for sheet in sheets:
        low, high = plane.reach(sheet)
        if low >= -slack and high <= slack:
            continue
        if low >= -slack:
            front += 1
        elif high <= slack:
            back += 1
        else:
            cuts += 1
    return SPLIT * cuts + abs(front - back)


def _share_sheet(sheet: Sheet, plane: TrussPlane, node: PaintNode, front: list[Thing], back: list[Thing]) -> None:
    """Put the timbers of a truss on the sides of a plane that they are on, cut where they cross it.

    What lies over the thickness of the truss in the plane belongs to that.
    """
    solid = sheet.solid
    span, high = solid.member.span or 1.0, solid.framed.high or 1.0
    start = plane.off(solid.at(0.0, 0.0))
    along = (plane.off(solid.at(span, 0.0)) - start) / span
    up = (plane.off(solid.at(0.0, high)) - start) / high
    across = solid.at(-start / along if along else 0.0, 0.0)
    top = min((_top(across, one.solid) for one in node.sheets), default=math.inf)
    sides: tuple[list[Piece | None], list[Piece | None], list[Piece | None]] = ([], [], [])
    for piece in sheet.pieces:
        offs = [along * run + up * z + start for run, z in piece.outline]
        # An extension begins over the middle of what it runs on over: half its thickness lies on it.
        half = plane.half if _over(piece, -start / along if along else 0.0) > top - UNDER else 0.0
        reach = half - TOUCH if half else -plane.half - TOUCH
        if min(offs) >= reach or max(offs) <= -reach:
            sides[0 if sum(offs) > 0 else 1].append(piece)
            continue
        sides[0].append(cut(piece, along, up, start - half))
        sides[1].append(cut(piece, -along, -up, -start - half))
        over = cut(piece, along, up, start + half) if half else None
        sides[2].append(cut(over, -along, -up, half - start) if over else None)
    for pieces, things in zip(sides, (front, back, node.crossing), strict=True):
        kept = tuple(piece for piece in pieces if piece is not None)
        if kept:
            things.append(replace(sheet, pieces=kept))


def _over(piece: Piece, run: float) -> float:
    """Return how high the upper edge of a piece is at a run along it, or at its nearer end, mm."""
    (a, az), (b, bz) = piece.upper
    t = min(1.0, max(0.0, (run - a) / (b - a))) if b != a else 0.0
    return az + (bz - az) * t


def _top(place: Point3, solid: Solid) -> float:
    """Return how high the top of a truss is at a place in its plane, mm; without end where it is elsewhere."""
    run = _run(place, solid)
    first, last = solid.framed.frame.top[0][0], solid.framed.frame.top[-1][0]
    return solid.framed.roof(min(max(run, first), last)) if first - REACH <= run <= last + REACH else math.inf


def _run(place: Point3, solid: Solid) -> float:
    (x, y), (ux, uy) = solid.start, solid.unit
    return (place[0] - x) * ux + (place[1] - y) * uy


def cut(piece: Piece, along: float, up: float, start: float) -> Piece | None:
    """Return what of a piece lies where ``along·run + up·z + start`` is not less than nothing."""
    offs = [along * run + up * z + start for run, z in piece.outline]
    if min(offs) >= 0:
        return piece
    if max(offs) <= 0:
        return None
    outline: list[Point] = []
    own: list[bool] = []
    count = len(offs)
    for i, (here, off, real) in enumerate(zip(piece.outline, offs, piece.own, strict=True)):
        there, beyond = piece.outline[(i + 1) % count], offs[(i + 1) % count]
        if off >= 0:
            outline.append(here)
            own.append(real)
        if (off >= 0) != (beyond >= 0):
            outline.append(_part(here, there, off / (off - beyond)))
            own.append(real if off < 0 else False)
    upper = _upper(piece.upper, along, up, start)
    return Piece(piece.part, tuple(outline), tuple(own), upper)


def _upper(edge: tuple[Point, Point], along: float, up: float, start: float) -> tuple[Point, Point]:
    a, b = edge
    one, other = (along * run + up * z + start for run, z in edge)
    if one >= 0 and other >= 0:
        return edge
    if one < 0 and other < 0:
        return a, a
    at = _part(a, b, one / (one - other))
    return (a, at) if one >= 0 else (at, b)


def _part(a: Point, b: Point, t: float) -> Point:
    return a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t


def _share_rod(rod: Rod, plane: TrussPlane, node: PaintNode, front: list[Thing], back: list[Thing]) -> None:
    """Put a rod on the sides of a plane that it is on; what lies over the thickness of the truss belongs to that."""
    one, other = plane.off(rod.a), plane.off(rod.b)
    # Where the truss itself is elsewhere, the rod is only divided by its plane.
    t = min(1.0, max(0.0, one / (one - other))) if one != other else 0.5
    across = rod.between(t, t).a
    near = any(math.isfinite(_top(across, sheet.solid)) for sheet in node.sheets)
    half = plane.half if near else 0.0
    stops = {0.0, 1.0}
    if one != other:
        stops |= {t for edge in {half, -half} if 0 < (t := (one - edge) / (one - other)) < 1}
    ordered = sorted(stops)
    for t, u in pairwise(ordered):
        middle = one + (other - one) * (t + u) / 2
        part = rod if (t, u) == (0.0, 1.0) else rod.between(t, u)
        if half and abs(middle) <= half:
            node.crossing.append(part)
        else:
            (front if middle > 0 else back).append(part)


def from_far_to_near(node: PaintNode | None, away: Point3) -> Iterator[PaintNode]:
    """Yield the nodes in the order in which they are painted; ``away`` points away from whoever looks."""
    if node is None:
        return
    sides = (node.front, node.back)
    if node.plane is not None and sum(v * w for v, w in zip(node.plane.n, away, strict=True)) < 0:
        sides = (node.back, node.front)
    yield from from_far_to_near(sides[0], away)
    yield node
    yield from from_far_to_near(sides[1], away)
