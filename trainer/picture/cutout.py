"""The trusses of a house as pieces of card: their silhouettes, with tabs to glue and slots that go into each other.

Places on a piece are (run, z), mm of the house, as in :attr:`Member.top`; what the card itself asks for is given in mm
of paper and enlarged by the scale. A truss is drawn up to the line of the roof: the card stands for its timber and for
what lies between it and the roof, so that what crosses it goes into slots and the tops come out flush.

A trimmer under a saddle's end is a strip just to the left of the saddle's line: a slot over the truss at its outer end,
a tab on the face of the truss that the saddle crosses, and the saddle is glued to its side.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon as Shape
from shapely.geometry import box
from shapely.ops import unary_union

from trainer.layout import Layout, Member
from trainer.layout.model import Crossing, Part
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
PAST = 3.0
"""How far a trimmer runs on past its slot, mm of paper."""
MOST_WIDE = 2.0
"""A truss that a trimmer would need a wider slot for, mm of paper, is one that it is glued to."""
NEAR_ROOF = 0.8
"""A truss whose top is no farther from a trimmer's than this, mm of paper, takes it in a slot."""
LABEL = 1.9
"""Middle of a piece's tag over its lower edge, or under a trimmer's upper one, mm of paper."""
TRIMMER = "TR"
"""What trimmers are called on a model, before their number."""
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
    """One truss or trimmer to cut out: its outline with tabs and slots, where it is folded, the timbers printed on it.

    ``start`` and ``finish`` are the plan places of its bearings, between which runs are counted. ``label`` is where
    its ``tag`` is printed.
    """

    tag: str
    start: Point
    finish: Point
    label: RunZ
    outline: tuple[RunZ, ...]
    tabs: tuple[Tab, ...]
    slots: tuple[Slot, ...]
    timbers: tuple[tuple[RunZ, ...], ...]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """(least run, least z, greatest run, greatest z), mm."""
        runs, zs = zip(*self.outline, strict=True)
        return min(runs), min(zs), max(runs), max(zs)

    @property
    def span(self) -> float:
        """Length between its bearings, mm."""
        return math.dist(self.start, self.finish)


def below(layout: Layout, scale: int) -> float:
    """Return how far the tails hang down under the plates, mm of paper; 0 where none does."""
    lowest = min(min(member.top[0][1], member.top[-1][1]) for member in layout.members)
    return max(0.0, (tail_depth(layout, scale) - lowest) / scale) if lowest < 0 else 0.0


def pieces(layout: Layout, scale: int) -> tuple[Piece, ...]:
    """Return a piece for each truss of a layout and then each trimmer under a saddle, for a model at 1 to ``scale``."""
    framer = Framer(layout)
    slots = _slots(layout, scale)
    made = [_piece(layout, member, slots.get(member.tag, []), framer, scale) for member in layout.members]
    return (*made, *(_trimmer_piece(each, scale) for each in _trimmers(layout, scale)))


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
    run = member.span * (0.66 if member.kind in ("hip", "jack", "creeper") else 0.5)
    label = (run, bottom(member) + LABEL * scale)
    timbers = tuple(_printed(member, framer, outline))
    return Piece(member.tag, member.start, member.finish, label, outline, tabs, tuple(slots), timbers)


def _printed(member: Member, framer: Framer, outline: Sequence[RunZ]) -> Iterator[tuple[RunZ, ...]]:
    """Yield the timbers of a truss as far as its card goes: a gable truss lowered under its plates has no tails."""
    runs = [run for run, _z in outline]
    card = box(min(runs), -1e6, max(runs), 1e6)
    for timber in framer.of(member).timbers:
        seen = Shape(timber.outline).intersection(card)
        if timber.part != "extension" and seen.area > 1:
            yield tuple((float(x), float(z)) for x, z in seen.exterior.coords[:-1])


@dataclass(frozen=True, slots=True)
class Trimmer:
    """A trimmer of the model: from the truss at its outer end to the one that the saddle crosses.

    ``top`` is its upper edge, mm. Where the truss at its outer end takes a slot, ``slots`` are the trimmer's own and
    the truss's; else it is glued there too.
    """

    tag: str
    saddle: str
    start: Point
    finish: Point
    top: float
    slots: tuple[Slot, Slot] | None


def trimmer_tag(part: Part) -> str:
    """Return what a trimmer's piece is called: ``TR2``."""
    return TRIMMER + part.name.rpartition(" ")[2]


def _trimmers(layout: Layout, scale: int) -> Iterator[Trimmer]:
    for part in layout.parts:
        saddle = layout.by_tag.get(part.on)
        if part.part != "trimmer" or saddle is None or saddle.kind != "saddle":
            continue
        middle = along(saddle, saddle.span / 2)
        inner, outer = sorted((part.start, part.finish), key=lambda end: math.dist(end, middle))
        ux, uy = saddle.direction
        aside = CARD * scale
        start, finish = ((x - uy * aside, y + ux * aside) for x, y in (outer, inner))
        yield Trimmer(
            trimmer_tag(part), part.on, start, finish, bottom(saddle), _outer_slots(layout, part, start, finish, scale)
        )


def _outer_slots(layout: Layout, part: Part, at: Point, to: Point, scale: int) -> tuple[Slot, Slot] | None:
    """Return the slots of a trimmer and of the truss at its outer end; None where no truss there takes one."""
    edge, top = CARD * scale * 2, bottom(layout.by_tag[part.on])
    long = math.dist(at, to)
    direction = ((to[0] - at[0]) / long, (to[1] - at[1]) / long)
    found = []
    for under in layout.members:
        run = under.run(at)
        wide = _slot_width(direction, under.direction, scale)
        if under.kind == "saddle" or math.dist(along(under, run), at) > 1 or wide > MOST_WIDE * scale:
            continue
        height = height_on(under.top, run) if edge <= run <= max(under.span, under.top[-1][0]) - edge else None
        if height is not None and abs(height - top) <= NEAR_ROOF * scale:
            found.append((wide, under.tag, run))
    if not found:
        return None
    wide, tag, run = min(found)
    low = top - STRIP * scale
    own = Slot(tag, 0.0, wide, low, (low + top) / 2)
    return own, Slot(trimmer_tag(part), run, wide, top, (low + top) / 2)


def _trimmer_piece(trimmer: Trimmer, scale: int) -> Piece:
    long, top = math.dist(trimmer.start, trimmer.finish), trimmer.top
    low, face = top - STRIP * scale, CARD * scale / 2
    past = PAST * scale if trimmer.slots else -face
    shape = box(-past, low, long - face, top)
    if trimmer.slots:
        slot = trimmer.slots[0]
        shape = shape.difference(box(slot.run - slot.wide / 2, low - 1, slot.run + slot.wide / 2, slot.end))
    tabs = [_end_tab(2, long - face, 1, low, top, scale)]
    if not trimmer.slots:
        tabs.append(_end_tab(1, face, -1, low, top, scale))
    whole = unary_union([shape, *(Shape(tab.outline) for tab in tabs)])
    outline = tuple((float(x), float(z)) for x, z in whole.exterior.coords[:-1])
    label = ((long - face) / 2, top - LABEL * scale)
    slots = trimmer.slots[:1] if trimmer.slots else ()
    return Piece(trimmer.tag, trimmer.start, trimmer.finish, label, outline, tuple(tabs), slots, ())


def _end_tab(end: int, at: float, out: int, low: float, high: float, scale: int) -> Tab:
    """Return a tab to glue on the face of what an end comes against: folded at the run ``at``, ``out`` to one side."""
    far, lean = at + out * HUNG_DEEP * scale, min((high - low) * 0.2, scale * 1.5)
    return Tab(end, ((at, low), (at, high)), ((at, low), (far, low + lean), (far, high - lean), (at, high)), False)


def _silhouette(layout: Layout, member: Member, slots: Sequence[Slot], scale: int) -> Shape:
    """The truss without its tabs: what is over its bottom edge, tails, extension, and a saddle's tongues."""
    low, top = bottom(member), member.top
    span = member.span
    body = Shape([*top, (top[-1][0], low - 1e5), (top[0][0], low - 1e5)]).intersection(box(0, low, span, 1e6))
    parts = [body]
    for first, last, joined, depth in (
        (top[0][0], 0.0, 0.0, tail_depth(layout, scale)),
        (span, top[-1][0], span, beyond(layout, member, scale)),
    ):
        if last - first > 1 and (height_on(top, joined) or low) - low >= CARD * scale:
            strip = Shape([*top, *reversed([(run, z - depth) for run, z in top])])
            parts.append(strip.buffer(0).intersection(box(first - 1, -1e6, last, 1e6)))
    if member.kind == "saddle":
        half = TONGUE * scale / 2
        parts += [box(max(s.run - half, 0), low - STRIP * scale, min(s.run + half, span), low + 1) for s in slots]
        for number, end in enumerate(member.ends):
            if end.bears_on.startswith("trimmer"):
                on = sorted(abs(s.run - number * span) for s in slots)
                deep = min(2 * half, on[0] if on else span / 2)
                at = span - deep if number else 0.0
                parts.append(box(at, low - STRIP * scale, at + deep, low + 1))
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
    for trimmer in _trimmers(layout, scale):
        if trimmer.slots:
            own, under = trimmer.slots
            found.setdefault(own.other, []).append(under)
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
    wide = _slot_width(over.direction, under.direction, scale)
    return Slot(under.tag, run, wide, low, middle), Slot(over.tag, beneath, wide, top, middle)


def _slot_width(one: Point, other: Point, scale: int) -> float:
    """How wide a slot is, mm, for card that runs in one direction through card that runs in another."""
    (ax, ay), (bx, by) = one, other
    sine = max(abs(ax * by - ay * bx), 0.3)
    cosine = abs(ax * bx + ay * by)
    return (CARD + CLEAR) * scale / sine + CARD * scale * cosine / sine


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
            yield _end_tab(number, at, out, low, high, scale)


def stations(layout: Layout, member: Member, scale: int) -> Iterator[tuple[Point, ...]]:
    """Yield where a truss's feet are glued on the plate plan: the four corners of each, on the left of the truss."""
    (dx, dy) = member.direction
    for tab in _tabs(layout, member, scale):
        if tab.foot:
            deep = tab.fold[0][1] - min(z for _run, z in tab.outline)
            a, b = (along(member, run) for run, _z in tab.fold)
            yield a, b, (b[0] - dy * deep, b[1] + dx * deep), (a[0] - dy * deep, a[1] + dx * deep)
