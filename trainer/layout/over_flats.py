"""Loose rafters where a plane runs out over level tops of trusses, and no extension comes so far.

Where one wing takes a bite out of another's side, part of the other's hip end lies over trusses that stand along it.
Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from trainer.layout.draft import Draft, LooseRafter
from trainer.layout.ground import DraftGround, NoBearing
from trainer.layout.model import Leg, Plane
from trainer.layout.slopes import height_on
from trainer.plan import Point

SAME = 1.0
"""Heights and places that differ by no more are the same, mm."""
_LOOK = (0.25, 0.5, 0.7, 0.9)
"""How far up a face, as parts of its height, it is looked at first."""
_Line = Sequence[tuple[float, float]]


def over_flats(
    ground: DraftGround, drafts: Iterable[Draft], rafters: Iterable[LooseRafter], thorough: bool
) -> list[LooseRafter]:
    """Return the rafters that are wanting; the trusses under each are given what roof it holds up.

    A face is looked at closely where a few level lines on it, or ``thorough``, say so.

    :raises NoBearing: where a plane has no truss under it for a spacing and more.
    """
    house, drafts = ground.house, tuple(drafts)
    widest = house.trusses.spacing + ground.girder_width / 2 + SAME / 2
    walls = house.roof_plan.by_name
    legs: dict[Plane, list[Leg]] = {}
    for draft in drafts:
        for leg in draft.legs:
            legs.setdefault(leg.plane, []).append(leg)
    found = []
    for face in house.solved.faces:
        wall = walls[face.wall]
        along = 0 if wall.inward[1] else 1
        plane: Plane = ("x" if along == 0 else "y", float(wall.a[1 - along]), wall.inward[1 - along])
        outline = [(p[along], (p[1 - along] - plane[1]) * plane[2]) for p in face.polygon]
        supports = [*legs.get(plane, []), *_loose(plane, rafters)]
        top = max(h for _, h in outline)
        if not thorough and not any(any(_wide(outline, supports, top * part, widest)) for part in _LOOK):
            continue
        plates = [(p[along], (p[1 - along] - plane[1]) * plane[2]) for p in house.plan.outline]
        for spot, low, high in _wanting(outline, plates, supports, widest, float(house.trusses.spacing)):
            found.append(_rafter(ground, drafts, plane, spot, low, high))
    return found


def _wide(outline: _Line, legs: list[Leg], h: float, widest: float) -> Iterator[bool]:
    """Whether each stretch of a level line in a face has two supports too far apart."""
    spots = sorted(leg.spot + leg.lean * h for leg in legs if leg.low <= h <= leg.high)
    for first, last in _stretches(outline, h):
        before = first
        for spot in spots:
            if first < spot < last:
                if spot - before > widest:
                    break
                before = spot
        else:
            yield last - before > widest
            continue
        yield True


def _wanting(
    outline: _Line, plates: _Line, legs: list[Leg], widest: float, spacing: float
) -> Iterator[tuple[float, float, float]]:
    """(spot along the wall, from, to up the slope) of each rafter that a face wants between its supports.

    Only inside the plates: a verge past them is carried by outriggers. They count from the middle of the face.
    """
    middle = (min(s for s, _ in outline) + max(s for s, _ in outline)) / 2
    pieces: dict[int, list[tuple[float, float]]] = {}
    for low, high in pairwise(_levels(outline, plates, legs)):
        wanted: set[int] = set()
        for h in (low + (high - low) * part for part in (0.02, 0.98)):
            supports = [leg.spot + leg.lean * h for leg in legs if leg.low <= h <= leg.high]
            for first, last in _both(_stretches(outline, h), tuple(_stretches(plates, h))):
                stops = [first, *sorted(s for s in supports if first < s < last), last]
                for a, b in pairwise(stops):
                    wanted.update(_between(a - middle, b - middle, spacing, widest))
        for k in sorted(wanted):
            own = pieces.setdefault(k, [])
            own[-1:] = [(own[-1][0], high)] if own and own[-1][1] == low else [*own[-1:], (low, high)]
    for k, own in pieces.items():
        for low, high in own:
            clipped = _clipped(outline, middle + k * spacing, low, high)
            if clipped:
                yield middle + k * spacing, *clipped


def _levels(outline: _Line, plates: _Line, legs: list[Leg]) -> list[float]:
    """Where up a face something begins, ends or meets, inside the walls, in order."""
    top = max(h for _, h in outline)
    found = {h for _, h in outline} | {h for leg in legs for h in (leg.low, leg.high)}
    found |= {*_meets(legs)} | {*_leaves(outline, plates)}
    levels = [0.0]
    for h in [*sorted(h for h in found if 0 < h < top), top]:
        if h - levels[-1] >= SAME / 10:
            levels.append(h)
    return levels


def _between(a: float, b: float, spacing: float, widest: float) -> range:
    """Which multiples of the spacing want a rafter between two supports."""
    if b - a <= widest:
        return range(0)
    first, last = math.floor(a / spacing) + 1, math.ceil(b / spacing) - 1
    if first < last and b - (last - 1) * spacing <= spacing:
        last -= 1
    return range(first, last + 1)


def _loose(plane: Plane, rafters: Iterable[LooseRafter]) -> Iterator[Leg]:
    """Rafters that are there already, as supports of a plane."""
    along = 0 if plane[0] == "x" else 1
    for rafter in rafters:
        low, high = sorted((end[1 - along] - plane[1]) * plane[2] for end in (rafter.start, rafter.finish))
        if rafter.start[along] == rafter.finish[along] and low >= 0:
            yield Leg(plane, rafter.start[along], 0, low, high, 0.0, 0.0)


def _leaves(outline: _Line, plates: _Line) -> Iterator[float]:
    """How far up the slope a face's edges may leave the plates."""
    yield from (h for _, h in plates)
    for (s0, a), (s1, b) in pairwise([*outline, outline[0]]):
        if s0 != s1:
            yield from (a + (b - a) * (s - s0) / (s1 - s0) for s, _ in plates if min(s0, s1) < s < max(s0, s1))


def _meets(legs: list[Leg]) -> Iterator[float]:
    """Where hips' lines cross those of other supports."""
    leaning = [leg for leg in legs if leg.lean]
    for a in leaning:
        for b in legs:
            if a.lean != b.lean:
                yield (b.spot - a.spot) / (a.lean - b.lean)


def _stretches(outline: _Line, h: float) -> Iterator[tuple[float, float]]:
    """From where to where a level line at ``h`` lies in a face."""
    crossed = sorted(
        s0 + (s1 - s0) * (h - a) / (b - a)
        for (s0, a), (s1, b) in pairwise([*outline, outline[0]]) if (a < h) != (b < h)
    )  # fmt: skip
    return zip(crossed[::2], crossed[1::2], strict=True)


def _both(some: Iterable[tuple[float, float]], others: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """The stretches that lie in both."""
    for a, b in some:
        for c, d in others:
            if min(b, d) > max(a, c):
                yield max(a, c), min(b, d)


def _clipped(outline: _Line, spot: float, low: float, high: float) -> tuple[float, float] | None:
    """As much of a rafter's line as lies in the face."""
    turned = [(h, s) for s, h in outline]
    for first, last in _stretches(turned, spot):
        if min(last, high) - max(first, low) > SAME:
            return max(first, low), min(last, high)
    return None


def _rafter(
    ground: DraftGround, drafts: tuple[Draft, ...], plane: Plane, spot: float, low: float, high: float
) -> LooseRafter:
    along = 0 if plane[0] == "x" else 1

    def place(h: float) -> Point:
        across = plane[1] + plane[2] * h
        return (spot, across) if along == 0 else (across, spot)

    spacing = float(ground.house.trusses.spacing)
    near = [(h, draft) for h, draft in _crossed(drafts, plane, spot) if low - spacing <= h <= high + spacing]
    bearers = sorted((pair for pair in near if _level(ground, *pair, along, spot)), key=lambda pair: pair[0])
    if not bearers and near and high - low <= spacing:
        # A short one is packed up off the nearest truss under it.
        bearers = [min(near, key=lambda pair: abs(pair[0] - (low + high) / 2))]
    if not bearers:
        raise NoBearing(place((low + high) / 2))
    heights = [h for h, _ in bearers]
    bounds = [low, *(min(max((a + b) / 2, low), high) for a, b in pairwise(heights)), high]
    for (first, last), (_h, under) in zip(pairwise(bounds), bearers, strict=True):
        if first < last:
            run = abs(spot - under.ends[0].at[along])
            under.legs += (Leg(plane, spot, 0, first, last, run, 0.0),)
    return LooseRafter(bearers[0][1], place(low), place(high))


def _crossed(drafts: tuple[Draft, ...], plane: Plane, spot: float) -> Iterator[tuple[float, Draft]]:
    """(how far up the slope, truss) of each truss along the wall that lies under a rafter's line."""
    along = 0 if plane[0] == "x" else 1
    for draft in drafts:
        (first, line), (last, other) = ((end.at[along], end.at[1 - along]) for end in draft.ends)
        if line == other and min(first, last) < spot < max(first, last):
            yield (line - plane[1]) * plane[2], draft


def _level(ground: DraftGround, h: float, draft: Draft, along: int, spot: float) -> bool:
    """Whether a truss's top is as high as the plane where a rafter crosses it, but for the girder's thickness."""
    z = height_on(draft.top, abs(spot - draft.ends[0].at[along]))
    return z is not None and abs(z - ground.height(h)) <= ground.girder_width
