"""The trusses of a house as pieces of card: their silhouettes, with tabs to glue and slots that go into each other.

Places on a piece are (run, z), mm of the house, as in :attr:`Member.top`; what the card itself asks for is given in mm
of paper and enlarged by the scale. A truss is drawn up to the line of the roof: the card stands for its timber and for
what lies between it and the roof, so that what crosses it goes into slots and the tops come out flush.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon as Shape
from shapely.geometry import box
from shapely.ops import unary_union

from trainer.layout import Layout, Member
from trainer.layout.model import Crossing
from trainer.layout.slopes import height_on
from trainer.picture.frame import Framer
from trainer.picture.trusses import along
from trainer.plan import Point

CARD, CLEAR = 0.5, 0.1
"""Thickness of the card and what a slot is wider, mm of paper."""
FOOT_WIDE, FOOT_DEEP = 7.0, 5.0
"""A tab at a plate: along the truss, and how far it is folded out, mm of paper."""
HUNG_DEEP = 4.0
"""How far a tab at a hung end is folded back, mm of paper."""
STRIP = 6.0
"""Depth of an extension, so that there is card left over a slot, mm of paper."""
TAIL = 2.5
"""Least depth of a tail, mm of paper."""
TONGUE = 8.0
"""Width of what of a saddle goes down into a slot, mm of paper."""
LEAST = 2.0
"""A tab smaller than this is left out, mm of paper."""
RunZ = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Slot:
    """A slot in a piece at a crossing: its middle ``run``, how ``wide`` it is, and from where to where it goes.

    ``mouth`` is the height at which it opens, ``end`` where it ends, mm. ``other`` is the piece that goes into it.
    """

    other: str
    run: float
    wide: float
    mouth: float
    end: float


@dataclass(frozen=True, slots=True)
class Tab:
    """A tab, folded along ``fold``; ``end`` is which end of the truss it is at."""

    end: int
    fold: tuple[RunZ, RunZ]
    outline: tuple[RunZ, ...]
    foot: bool


@dataclass(frozen=True)
class Piece:
    """One truss to cut out: its outline with tabs and slots, where it is folded, and the timbers printed on it."""

    member: Member
    outline: tuple[RunZ, ...]
    tabs: tuple[Tab, ...]
    slots: tuple[Slot, ...]
    timbers: tuple[tuple[RunZ, ...], ...]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """(least run, least z, greatest run, greatest z), mm."""
        runs, zs = zip(*self.outline, strict=True)
        return min(runs), min(zs), max(runs), max(zs)


def pieces(layout: Layout, scale: int) -> tuple[Piece, ...]:
    """Return a piece for each truss of a layout, for a model at 1 to ``scale``."""
    framer = Framer(layout)
    slots = _slots(layout, scale)
    return tuple(_piece(layout, member, slots.get(member.tag, []), framer, scale) for member in layout.members)


def _piece(layout: Layout, member: Member, slots: Sequence[Slot], framer: Framer, scale: int) -> Piece:
    tabs = tuple(_tabs(layout, member, scale))
    shape = unary_union([_silhouette(layout, member, slots, scale), *(Shape(tab.outline) for tab in tabs)])
    for slot in slots:
        low, high = min(slot.mouth, slot.end), max(slot.mouth, slot.end)
        past = STRIP * scale
        low, high = (low - past, high) if slot.mouth < slot.end else (low, high + past)
        shape = shape.difference(box(slot.run - slot.wide / 2, low, slot.run + slot.wide / 2, high))
    whole = max(getattr(shape, "geoms", [shape]), key=lambda part: part.area)
    outline = tuple((float(x), float(z)) for x, z in whole.exterior.coords[:-1])
    timbers = tuple(timber.outline for timber in framer.of(member).timbers if timber.part != "extension")
    return Piece(member, outline, tabs, tuple(slots), timbers)


def _silhouette(layout: Layout, member: Member, slots: Sequence[Slot], scale: int) -> Shape:
    """The truss without its tabs: what is over its bottom edge, tails, extension, and a saddle's tongues."""
    low, top = bottom(member), member.top
    span = member.span
    body = Shape([*top, (top[-1][0], low - 1e5), (top[0][0], low - 1e5)]).intersection(box(0, low, span, 1e6))
    parts = [body]
    for first, last, depth in (
        (top[0][0], 0.0, tail_depth(layout, scale)),
        (span, top[-1][0], beyond(layout, member, scale)),
    ):
        if last - first > 1:
            strip = Shape([*top, *reversed([(run, z - depth) for run, z in top])])
            parts.append(strip.buffer(0).intersection(box(first - 1, -1e6, last, 1e6)))
    if member.kind == "saddle":
        half = TONGUE * scale / 2
        parts += [box(max(s.run - half, 0), low - STRIP * scale, min(s.run + half, span), low + 1) for s in slots]
    return unary_union(parts)


def bottom(member: Member) -> float:
    """Height of the lower edge of a truss's piece, mm: a saddle's is where it sits on the roof below."""
    return min(member.top[0][1], member.top[-1][1]) if member.kind == "saddle" else 0.0


def tail_depth(layout: Layout, scale: int) -> float:
    """Depth of a tail, plumb, mm."""
    return max(90.0 / math.cos(math.radians(layout.house.roof.pitch)), TAIL * scale)


def beyond(layout: Layout, member: Member, scale: int) -> float:
    """Plumb depth of what runs on past the last bearing, mm: an extension's strip is deep enough to be slotted."""
    return STRIP * scale if member.kind in ("hip", "jack") else tail_depth(layout, scale)


def _slots(layout: Layout, scale: int) -> dict[str, list[Slot]]:
    """Return the slots of every piece: at each crossing one from below in what passes over, one from above below it."""
    found: dict[str, list[Slot]] = {}
    for crossing in layout.crossings:
        pair = _pair(layout, crossing, scale)
        if pair is not None:
            over, under = pair
            found.setdefault(crossing.over, []).append(over)
            found.setdefault(crossing.under, []).append(under)
    return found


def _pair(layout: Layout, crossing: Crossing, scale: int) -> tuple[Slot, Slot] | None:
    """The two slots of a crossing; None where one only ends at the other and is glued to it."""
    over, under = layout.by_tag[crossing.over], layout.by_tag[crossing.under]
    run, beneath = over.run(crossing.at), under.run(crossing.at)
    edge = CARD * scale * 2
    last = over.top[-1][0]
    if not edge <= run <= last - edge or not edge <= beneath <= max(under.span, under.top[-1][0]) - edge:
        return None
    line, top = height_on(over.top, run), height_on(under.top, beneath)
    if line is None or top is None:
        return None
    low = (bottom(over) if over.kind == "saddle" else line) - STRIP * scale
    if over.kind != "saddle" and run <= over.span + edge:
        return None
    if top - low < LEAST * scale / 2:
        return None
    middle = (low + top) / 2
    (ax, ay), (bx, by) = over.direction, under.direction
    sine = max(abs(ax * by - ay * bx), 0.3)
    cosine = abs(ax * bx + ay * by)
    wide = (CARD + CLEAR) * scale / sine + CARD * scale * cosine / sine
    return Slot(under.tag, run, wide, low, middle), Slot(over.tag, beneath, wide, top, middle)


def _tabs(layout: Layout, member: Member, scale: int) -> Iterator[Tab]:
    """Yield a foot at each bearing on a plate, and a tab to glue at each end that hangs."""
    if member.kind == "saddle":
        return
    span, low = member.span, bottom(member)
    wide = min(FOOT_WIDE * scale, span * 0.42)
    deep = min(FOOT_DEEP * scale, layout.house.trusses.spacing * 0.8)
    for number, end in enumerate(member.ends, 1):
        if end.on_plate:
            a, b = (0.0, wide) if number == 1 else (span - wide, span)
            slope = min(deep, wide * 0.3) * 0.4
            corners = ((a, low), (a + slope, low - deep), (b - slope, low - deep), (b, low))
            yield Tab(number, ((a, low), (b, low)), corners, True)
        else:
            at, out = (0.0, -1) if number == 1 else (span, 1)
            roof = height_on(member.top, at) or 0.0
            high = roof - (beyond(layout, member, scale) + scale if number == 2 and member.top[-1][0] > span + 1 else 0)
            if high - low < LEAST * scale:
                continue
            far, lean = at + out * HUNG_DEEP * scale, min((high - low) * 0.2, scale * 1.5)
            corners = ((at, low), (far, low + lean), (far, high - lean), (at, high))
            yield Tab(number, ((at, low), (at, high)), corners, False)


def stations(layout: Layout, member: Member, scale: int) -> Iterator[tuple[Point, ...]]:
    """Yield where a truss's feet are glued on the plate plan: the four corners of each, on the left of the truss."""
    (dx, dy) = member.direction
    for tab in _tabs(layout, member, scale):
        if tab.foot:
            deep = tab.fold[0][1] - min(z for _run, z in tab.outline)
            a, b = (along(member, run) for run, _z in tab.fold)
            yield a, b, (b[0] - dy * deep, b[1] + dx * deep), (a[0] - dy * deep, a[1] + dx * deep)
