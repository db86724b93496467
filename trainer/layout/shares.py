"""How much roof each truss holds up, and what reaches each bearing: tributary areas, in plan.

A point of the roof belongs to the nearest truss on its level line, within its plane; eaves and verges
included. Between its own supports a truss hands each piece of its area to the nearest one, and what it
carries at a point to the supports on either side by the law of the lever. Areas are exact: between two
breakpoints every edge is a straight line, so each share is a sum of trapeziums. Common practice, no source.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from graphlib import TopologicalSorter
from itertools import pairwise
from types import MappingProxyType

from trainer.layout.model import Crossing, Layout, Leg, Member, Plane

MM2_IN_M2 = 1e6
NO_HEIGHT = 1e-9
"""Slabs lower than this are rounding, mm."""
NOWHERE: Mapping[str, float] = MappingProxyType({})
Line = tuple[float, float]
"""A position along a plane's walls that changes with ``h``: (at h = 0, per mm of h)."""


@dataclass(frozen=True, slots=True)
class Share:
    """What one truss bears: ``direct_m2`` of roof in plan by itself, and what comes down at its two ends.

    ``crossings_m2`` is what comes down where it passes over others, by the tag of the one under it.
    """

    direct_m2: float
    ends_m2: tuple[float, float]
    crossings_m2: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class _Slab:
    """Part of a share between two distances ``h`` up the plane, with its width at both."""

    h0: float
    h1: float
    w0: float
    w1: float

    def area(self, low: float, high: float) -> float:
        """Area between two distances, mm²."""
        low, high = max(low, self.h0), min(high, self.h1)
        if low >= high:
            return 0.0
        rate = (self.w1 - self.w0) / (self.h1 - self.h0)
        return (high - low) * (self.w0 + rate * ((low + high) / 2 - self.h0))


@lru_cache(maxsize=8)  # one house is judged by many jobs
def loads(layout: Layout) -> Mapping[str, Share]:
    """Return the load of every truss, by tag.

    Over all ends on plates and ledgers ``ends_m2`` adds up to the roof's plan area.
    """
    shares = _share_out(layout)
    by_tag: dict[str, list[tuple[Leg, list[_Slab]]]] = defaultdict(list)
    for (tag, leg), slabs in shares.items():
        by_tag[tag].append((leg, slabs))
    direct = {
        tag: sum(s.area(s.h0, s.h1) for _, slabs in mine for s in slabs) / MM2_IN_M2 for tag, mine in by_tag.items()
    }
    ends, over = _pass_down(layout, by_tag)
    return {
        m.tag: Share(direct.get(m.tag, 0.0), (ends[m.tag, 1], ends[m.tag, 2]), over.get(m.tag, NOWHERE))
        for m in layout.members
    }


def _share_out(layout: Layout) -> dict[tuple[str, Leg], list[_Slab]]:
    legs: dict[Plane, list[tuple[str, Leg]]] = defaultdict(list)
    for member in layout.members:
        for leg in member.legs:
            legs[leg.plane].append((member.tag, leg))
    walls = layout.house.roof_plan.by_name
    slabs: dict[tuple[str, Leg], list[_Slab]] = defaultdict(list)
    for face in layout.roof.faces:
        wall = walls[face.wall]
        along = 0 if wall.inward[1] else 1
        plane: Plane = ("x" if along == 0 else "y", float(wall.a[1 - along]), wall.inward[1 - along])
        outline = [(p[along], (p[1 - along] - plane[1]) * plane[2]) for p in face.polygon]
        _share_face(outline, legs[plane], slabs)
    return slabs


def _share_face(
    outline: list[tuple[float, float]],
    legs: list[tuple[str, Leg]],
    slabs: dict[tuple[str, Leg], list[_Slab]],
) -> None:
    """Cut one face into level slabs in which nothing begins or ends, and share each among its legs."""
    low, high = min(h for _, h in outline), max(h for _, h in outline)
    marks = {h for _, h in outline} | {h for _, leg in legs for h in (leg.low, leg.high) if low < h < high}
    marks |= {h for h in _meeting([leg for _, leg in legs]) if low < h < high}
    for h0, h1 in pairwise(sorted(marks)):
        if h1 - h0 < NO_HEIGHT:
            continue
        middle = (h0 + h1) / 2
        alive = [(tag, leg) for tag, leg in legs if leg.low <= middle <= leg.high]
        if not alive:
            # Eaves beyond a wall whose trusses have no tail: the trusses behind it take them.
            reach = min(min(abs(leg.low - middle), abs(leg.high - middle)) for _, leg in legs)
            alive = [(t, g) for t, g in legs if min(abs(g.low - middle), abs(g.high - middle)) <= reach]
        alive.sort(key=lambda pair: pair[1].spot + pair[1].lean * middle)
        for left, right in _intervals(outline, middle):
            _share_interval(left, right, alive, h0, h1, slabs)


def _meeting(legs: list[Leg]) -> Iterator[float]:
    """How far up a plane the line of a hip crosses those of others that hold the plane up there."""
    for hip in (leg for leg in legs if leg.lean):
        for leg in legs:
            if leg.lean != hip.lean:
                h = (leg.spot - hip.spot) / (hip.lean - leg.lean)
                if max(hip.low, leg.low) < h < min(hip.high, leg.high):
                    yield h


def _intervals(outline: list[tuple[float, float]], h: float) -> Iterator[tuple[Line, Line]]:
    """The stretches of a face that the level line at ``h`` crosses, as pairs of edge lines."""
    crossed = []
    for (s0, a), (s1, b) in pairwise([*outline, outline[0]]):
        if (a < h) != (b < h):
            rate = (s1 - s0) / (b - a)
            crossed.append((s0 + rate * (h - a), (s0 - rate * a, rate)))
    crossed.sort()
    lines = [line for _, line in crossed]
    return zip(lines[::2], lines[1::2], strict=True)


def _share_interval(
    left: Line,
    right: Line,
    alive: list[tuple[str, Leg]],
    h0: float,
    h1: float,
    slabs: dict[tuple[str, Leg], list[_Slab]],
) -> None:
    """Give each leg the strip between the middles to its neighbours, clipped to the face."""
    middle = (h0 + h1) / 2
    spots = [leg.spot + leg.lean * middle for _, leg in alive]
    # Only legs that the edges sweep over can have a part in it, and two beyond on either side, where both may lean.
    first = max(bisect_left(spots, min(_at(left, h0), _at(left, h1))) - 2, 0)
    last = min(bisect_left(spots, max(_at(right, h0), _at(right, h1))) + 2, len(spots))
    for i in range(first, last):
        lower = _between(alive[i - 1][1], alive[i][1]) if i else None
        upper = _between(alive[i][1], alive[i + 1][1]) if i + 1 < len(alive) else None
        for piece in _clip(left, right, lower, upper, h0, h1):
            slabs[alive[i]].append(piece)


def _clip(left: Line, right: Line, lower: Line | None, upper: Line | None, h0: float, h1: float) -> Iterator[_Slab]:
    """The strip between the greater of two lines and the lesser of two others, cut where they cross."""
    uncrossed = _uncrossed(left, right, lower, upper, h0, h1)
    if uncrossed is not None:
        yield from uncrossed
        return
    lows = [line for line in (left, lower) if line]
    highs = [line for line in (right, upper) if line]
    cuts = {h0, h1}
    for a in lows + highs:
        for b in lows + highs:
            if a[1] != b[1]:
                h = (b[0] - a[0]) / (a[1] - b[1])
                if h0 < h < h1:
                    cuts.add(h)
    for a_h, b_h in pairwise(sorted(cuts)):
        widths = [min(_at(line, h) for line in highs) - max(_at(line, h) for line in lows) for h in (a_h, b_h)]
        if sum(widths) > 0:
            yield _Slab(a_h, b_h, max(widths[0], 0.0), max(widths[1], 0.0))


def _uncrossed(
    left: Line, right: Line, lower: Line | None, upper: Line | None, h0: float, h1: float
) -> tuple[_Slab, ...] | None:
    """The strip where nothing that bounds it crosses, as nearly always; None where something may."""
    a0, a1, b0, b1 = _at(left, h0), _at(left, h1), _at(right, h0), _at(right, h1)
    if lower:
        low0, low1 = _at(lower, h0), _at(lower, h1)
        if (low0 - a0) * (low1 - a1) < 0:
            return None
        a0, a1 = max(a0, low0), max(a1, low1)
    if upper:
        high0, high1 = _at(upper, h0), _at(upper, h1)
        if (high0 - b0) * (high1 - b1) < 0:
            return None
        b0, b1 = min(b0, high0), min(b1, high1)
    w0, w1 = b0 - a0, b1 - a1
    if w0 * w1 < 0:
        return None
    return (_Slab(h0, h1, w0, w1),) if w0 + w1 > 0 else ()


def _between(a: Leg, b: Leg) -> Line:
    return ((a.spot + b.spot) / 2, (a.lean + b.lean) / 2)


def _at(line: Line, h: float) -> float:
    return line[0] + line[1] * h


@dataclass(frozen=True, slots=True)
class _Support:
    """A place along a truss (``run``) that holds it up: its end 1 or 2, or the truss ``under`` it."""

    run: float
    end: int = 0
    under: str = ""
    under_run: float = 0.0


def _pass_down(
    layout: Layout, legs: dict[str, list[tuple[Leg, list[_Slab]]]]
) -> tuple[dict[tuple[str, int], float], dict[str, dict[str, float]]]:
    """Areas in m² that come down at each end, and where each truss passes over others; carried trusses first."""
    crossings: dict[str, list[Crossing]] = defaultdict(list)
    for crossing in layout.crossings:
        if crossing.bears:
            crossings[crossing.over].append(crossing)
    supports = {m.tag: _supports(layout, m, crossings[m.tag]) for m in layout.members}
    held_by = {tag: {support.under for support in found if support.under} for tag, found in supports.items()}
    reaching: dict[tuple[str, int], float] = defaultdict(float)
    over: dict[str, dict[str, float]] = defaultdict(dict)
    points: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for tag in reversed([*TopologicalSorter(held_by).static_order()]):
        places = supports[tag]
        taken = [0.0] * len(places)
        for leg, slabs in legs.get(tag, []):
            for i, area in _by_nearest(leg, slabs, places):
                taken[i] += area
        for run, area in points[tag]:
            for i, part in _by_lever(run, places):
                taken[i] += area * part
        for support, area in zip(places, taken, strict=True):
            if support.end:
                reaching[tag, support.end] += area
            if support.under:
                points[support.under].append((support.under_run, area))
                if not support.end:
                    over[tag][support.under] = area
    return reaching, over


def _supports(layout: Layout, member: Member, crossings: Iterable[Crossing]) -> list[_Support]:
    found = [] if member.kind == "saddle" else [_end_support(layout, member, 1), _end_support(layout, member, 2)]
    for crossing in crossings:
        under = layout.by_tag[crossing.under]
        found.append(_Support(member.run(crossing.at), 0, crossing.under, under.run(crossing.at)))
    if not found:
        # A saddle wholly on trimmers: the trusses that these span between share it.
        found = [_Support(0.0, 0, tag, layout.by_tag[tag].run(member.middle)) for tag in member.carried_by]
    return sorted(found, key=lambda support: support.run)


def _end_support(layout: Layout, member: Member, end: int) -> _Support:
    here = member.ends[end - 1]
    run = 0.0 if end == 1 else member.span
    if here.wall:
        return _Support(run, end)
    return _Support(run, end, here.bears_on, layout.by_tag[here.bears_on].run(here.at))


def _by_nearest(leg: Leg, slabs: list[_Slab], places: list[_Support]) -> Iterator[tuple[int, float]]:
    """Hand each piece of a leg's area (m²) to the nearest support along the truss."""
    bounds = [-float("inf"), *((a.run + b.run) / 2 for a, b in pairwise(places)), float("inf")]
    if not leg.per_h:  # a rafter across the truss: all of it comes down at one place
        nearest = min(range(len(places)), key=lambda i: abs(places[i].run - leg.run))
        yield nearest, sum(slab.area(slab.h0, slab.h1) for slab in slabs) / MM2_IN_M2
        return
    for i, (low, high) in enumerate(pairwise(bounds)):
        h_low, h_high = sorted(((low - leg.run) / leg.per_h, (high - leg.run) / leg.per_h))
        yield i, sum(slab.area(h_low, h_high) for slab in slabs) / MM2_IN_M2


def _by_lever(run: float, places: list[_Support]) -> Iterator[tuple[int, float]]:
    """Hand a point's area to the supports on either side: (support, part of it)."""
    after = bisect_left([place.run for place in places], run)
    if after == 0 or after == len(places):
        yield min(after, len(places) - 1), 1.0
        return
    a, b = places[after - 1], places[after]
    part = (run - a.run) / (b.run - a.run)
    yield after - 1, 1.0 - part
    yield after, part
