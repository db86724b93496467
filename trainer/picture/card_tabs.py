"""The tabs of a card model: a foot at each bearing on a plate, and one to glue at each end that hangs.

Each folds to the side where it lies free: a foot on the plan within the walls, a hung end's where nothing else comes
to the same face.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product

from shapely.geometry import LineString
from shapely.geometry import Polygon as Shape
from shapely.strtree import STRtree

from trainer.layout import Layout, Member
from trainer.layout.slopes import height_on
from trainer.picture.card import CARD, LEAST, Hung, Leaf, RunZ, Side, Tab
from trainer.plan import Point

FOOT_WIDE, FOOT_DEEP = 7.0, 5.0
"""A tab at a plate: along the truss, and how far it is folded out, mm of paper."""
HUNG_DEEP = 4.0
"""How far a tab at a hung end is folded, mm of paper."""
APART = 0.4
"""What is kept free round a foot on the plan, mm of paper."""
FURTHER_IN = (0.0, 1.0, 2.0, 3.5, 5.0, 7.0)
"""How far in from the plate's outside a foot may begin, mm of paper, the first that does."""
SIDES: tuple[Side, Side] = ("left", "right")
SIZES = (1.0, 0.75, 0.5)
"""Of a foot, where there is no room for a whole one."""


def tabs_of(layout: Layout, leaves: Mapping[str, Leaf], scale: int) -> dict[str, tuple[Tab, ...]]:
    """Return the tabs of each truss's piece."""
    feet, hung = _feet(layout, leaves, scale), _hung(layout, leaves, scale)
    return {tag: tuple(sorted((*feet.get(tag, ()), *hung.get(tag, ())), key=lambda tab: tab.end)) for tag in leaves}


def on_plan(leaf: Leaf, tab: Tab) -> tuple[Point, ...]:
    """Return the four corners of a foot, folded out on the plan; the first two are its fold."""
    way = 1 if tab.side == "left" else -1
    dx, dy = leaf.direction
    corners = []
    for run, z in (*tab.fold, *reversed(tab.outline[1:-1])):
        (x, y), out = leaf.place(run), way * (tab.fold[0][1] - z)
        corners.append((x - dy * out, y + dx * out))
    return tuple(corners)


def _feet(layout: Layout, leaves: Mapping[str, Leaf], scale: int) -> dict[str, list[Tab]]:
    walls = Shape(layout.house.plan.outline).buffer(scale / 50)
    tags = list(leaves)
    lines = [LineString([leaf.place(run) for run in leaf.body]) for leaf in leaves.values()]
    tree = STRtree(lines)
    found: dict[str, list[Tab]] = {}
    taken: list[Shape] = []
    deep = min(FOOT_DEEP * scale, layout.house.trusses.spacing * 0.8)
    for leaf in sorted(leaves.values(), key=lambda leaf: leaf.member.kind == "hip"):
        for number, end in enumerate(leaf.member.ends, 1):
            if not end.on_plate or leaf.member.kind == "saddle":
                continue
            best: tuple[float, Tab, Shape] | None = None
            for part, further, side in product(SIZES, FURTHER_IN, SIDES):
                tab = _foot(leaf, number, further * scale, deep * part, side, FOOT_WIDE * part * scale)
                if tab is None:
                    continue
                mark = Shape(on_plan(leaf, tab))
                near = mark.buffer(APART * scale)
                cost = mark.difference(walls).area * 100
                cost += sum(mark.intersection(other).area for other in taken if other.intersects(near))
                cost += sum(
                    lines[int(i)].intersection(near).length * scale
                    for i in tree.query(near)
                    if tags[int(i)] != leaf.tag
                )
                if best is None or cost < best[0]:
                    best = cost, tab, mark
                if not cost:
                    break
            if best:
                found.setdefault(leaf.tag, []).append(best[1])
                taken.append(best[2])
    return found


def _foot(leaf: Leaf, number: int, further: float, deep: float, side: Side, most: float) -> Tab | None:
    """Return a foot that begins so far in from its plate's outside; None where the truss is too short for that."""
    span, low = leaf.member.span, leaf.low
    wide = min(most, span * 0.42)
    if further + wide > span * (0.45 if all(end.on_plate for end in leaf.member.ends) else 0.9):
        return None
    a, b = (further, further + wide) if number == 1 else (span - further - wide, span - further)
    slope = min(deep, wide * 0.3) * 0.4
    corners = ((a, low), (a + slope, low - deep), (b - slope, low - deep), (b, low))
    return Tab(number, ((a, low), (b, low)), corners, True, side)


def _hung(layout: Layout, leaves: Mapping[str, Leaf], scale: int) -> dict[str, list[Tab]]:
    """The tabs at hung ends, each on the side where the face of what carries it is free."""
    found: dict[str, list[Tab]] = {}
    on_face: dict[tuple[str, bool], list[float]] = {}
    for leaf in leaves.values():
        for place in _hangs_at(layout, leaf):
            on_face.setdefault(place[1:3], []).append(place[3])
    for tag, leaf in leaves.items():
        member = leaf.member
        for number, end in enumerate(member.ends, 1):
            if end.on_plate or member.kind == "saddle":
                continue
            side: Side = "left"
            for end_number, carrier, left, run in _hangs_at(layout, leaf):
                if end_number == number:
                    side = _free_side(leaf, layout.by_tag[carrier], run, on_face[carrier, left], scale)
            tab = _hung_tab(leaf, number, side, scale)
            if tab:
                found.setdefault(tag, []).append(tab)
    return found


def hung_on(layout: Layout, leaves: Mapping[str, Leaf], tabs: Mapping[str, tuple[Tab, ...]]) -> dict[str, list[Hung]]:
    """Return for each carrier where the tabs of others are glued on its faces, from its first end on."""
    found: dict[str, list[Hung]] = {}
    for tag, leaf in leaves.items():
        glued = {tab.end for tab in tabs[tag] if not tab.foot}
        for number, carrier, left, run in _hangs_at(layout, leaf):
            if number in glued:
                found.setdefault(carrier, []).append(Hung(tag, run, back=left))
    return {carrier: sorted(marks, key=lambda mark: mark.run) for carrier, marks in found.items()}


def _hangs_at(layout: Layout, leaf: Leaf) -> Iterator[tuple[int, str, bool, float]]:
    """Yield where a truss hangs: its end, what carries it, whether on that one's left face, and how far along it."""
    if leaf.member.kind == "saddle":
        return
    middle = leaf.place(leaf.member.span / 2)
    for number, end in enumerate(leaf.member.ends, 1):
        carrier = layout.by_tag.get(end.bears_on)
        if carrier is not None:
            (x, y), (ux, uy) = carrier.start, carrier.direction
            left = (middle[1] - y) * ux - (middle[0] - x) * uy > 0
            yield number, carrier.tag, left, carrier.run(leaf.place(leaf.member.span * (number - 1)))


def _free_side(leaf: Leaf, carrier: Member, run: float, others: list[float], scale: int) -> Side:
    """The side on which a tab on a carrier's face meets nothing else there; the left where both would do."""
    (ax, ay), (bx, by) = leaf.direction, carrier.direction
    reach = (HUNG_DEEP + CARD) * scale

    def crowded(way: float) -> int:
        return sum(0 < (other - run) * way < reach for other in others)

    left_goes = 1.0 if ax * by - ay * bx > 0 else -1.0
    return "left" if crowded(left_goes) <= crowded(-left_goes) else "right"


def _hung_tab(leaf: Leaf, number: int, side: Side, scale: int) -> Tab | None:
    at, out = (leaf.body[0], -1) if number == 1 else (leaf.body[1], 1)
    member, low = leaf.member, leaf.low
    high = height_on(member.top, at) or 0.0
    if number == 2 and member.top[-1][0] > member.span + 1:
        high -= leaf.beyond + scale
    return end_tab(number, at, out, low, high, scale, side) if high - low >= LEAST * scale else None


def end_tab(end: int, at: float, out: int, low: float, high: float, scale: int, side: Side = "left") -> Tab:
    """Return a tab to glue on the face of what an end comes against: folded at the run ``at``, ``out`` to one side."""
    far, lean = at + out * HUNG_DEEP * scale, min((high - low) * 0.2, scale * 1.5)
    corners: tuple[RunZ, ...] = ((at, low), (far, low + lean), (far, high - lean), (at, high))
    return Tab(end, ((at, low), (at, high)), corners, False, side)
