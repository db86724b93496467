"""The trusses of one hip end: hips, jacks and creepers, and the crossings of their extensions."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from trainer.layout.draft import Draft, DraftCrossing, DraftEnd, LooseRafter
from trainer.layout.ground import DraftGround, Landing, NoBearing
from trainer.layout.halves import Across
from trainer.layout.model import Leg, Plane
from trainer.layout.stations import CLEAR, end_wall_stations
from trainer.plan import Point
from trainer.roof.rects import Axis, RoofRect

ROOT2 = math.sqrt(2.0)
SAME = 0.5
"""Places that differ by no more are the same, mm."""
SHORTEST_CREEPER = 300.0
"""Where a wall stands back under a straight fascia, a creeper shorter than this is a loose rafter, mm."""


@dataclass(frozen=True, slots=True)
class Emerging:
    """The line of an extension where the end's roof comes out of a lower wing's only past what carries the truss.

    It stands at ``spot + lean * h`` along the end's wall, and comes out at ``start``; ``stop`` is where it ends.
    """

    spot: float
    lean: Literal[-1, 0, 1]
    start: float
    stop: float


@dataclass(frozen=True, slots=True)
class Bite:
    """Where a hip end's body stops ``depth`` mm short of its roof's side, at a girder that is ``face`` mm from it."""

    depth: float
    face: float
    girder: Draft


@dataclass
class HipEnd:
    """One hip end while it is drafted, in its own terms: ``s`` inward from its end wall, ``v`` along it.

    ``carrier`` (a truncated girder, or the opening's girder in a stub wing) has its centre line at
    ``centre``; ``ridge`` is how far in the ridge begins; ``setback`` is where creepers give way to jacks;
    ``limit`` is as far as extensions can run (a gable's end; in a stub wing they run on over its saddles),
    and ``verge`` how far past a gable the roof goes on.
    """

    ground: DraftGround
    wing: str
    row: str
    axis: Axis
    end: float
    step: int
    across: Across
    ridge: float
    carrier: Draft
    centre: float
    setback: float
    limit: float
    verge: float
    group: float
    truncated: list[tuple[float, Draft]] = field(default_factory=list)
    full_height: Draft | None = None
    lower: tuple[tuple[float, float], ...] = ()
    """From where to where (mm of ``v``) wings with lower ridges run the same way out past this end."""
    bites: tuple[Bite | None, ...] = (None, None)
    """What the body ends at short of its (low, high) side."""
    whole: RoofRect | None = None
    """For a strip that is left of another wing than its trusses stand across: that wing."""
    waling: Draft | None = None
    """The girder of a dutch gable, on whose waling plate the extensions land: they run no further in."""
    hips: list[Draft] = field(default_factory=list)
    jacks: list[Draft] = field(default_factory=list)
    loose: list[LooseRafter] = field(default_factory=list)
    emerging: list[Emerging] = field(default_factory=list)
    crossings: list[DraftCrossing] = field(default_factory=list)

    @property
    def low(self) -> float:
        """Where the low side of the whole wing lies, mm."""
        return self.across.low

    @property
    def span(self) -> float:
        """Span of the whole wing, mm."""
        return self.across.span

    def point(self, s: float, v: float) -> Point:
        """Plan point at ``s`` from the end wall and ``v`` from the wing's low side."""
        u, across = self.end + self.step * s, self.low + v
        return (u, across) if self.axis == "x" else (across, u)

    @cached_property
    def end_plane(self) -> Plane:
        """The plane that rises from the end wall."""
        return ("y" if self.axis == "x" else "x", self.end, self.step)

    @property
    def lean(self) -> Literal[-1, 1]:
        """Which way a hip leans along the side walls."""
        return 1 if self.step > 0 else -1

    def side_plane(self, high: bool) -> Plane:
        """The plane that rises from the low or the high side wall."""
        return (self.axis, self.low + self.span if high else self.low, -1 if high else 1)

    @cached_property
    def reach(self) -> float:
        """How far in (mm of ``s``) a hip or jack may run."""
        half = self.whole.span / 2 if self.whole else self.ridge
        return min(half, max(self.limit, self.centre))

    @cached_property
    def carries(self) -> float:
        """How far in (mm of ``s``) the roof goes that they hold up: past a gable by its verge."""
        return min(self.whole.span / 2 if self.whole else self.ridge, self.reach + self.verge)

    @property
    def meets(self) -> bool:
        """Whether the extensions come together at an apex with no full-height truss to be fixed to."""
        return not self.full_height and self.reach == self.ridge > self.centre

    @property
    def apex(self) -> Point:
        """Where they come together."""
        return self.point(self.reach, self.span / 2)

    def draft(self) -> list[Draft]:
        """All trusses of this hip end."""
        if self.centre > self.span / 2 + SAME:  # its girder stands clear of another one's end, past where hips meet
            raise NoBearing(self.point(self.centre, self.span / 2))
        hips = (self._hip(False), self._hip(True))
        self.hips = [hip for hip in hips if hip]
        if self.meets and hips[0] and hips[1] and not any(line.lean for line in self.emerging):
            self.crossings.append(DraftCrossing(hips[0], hips[1], self.apex, "extension", bears=False))
        found = list(self.hips)
        for station, place in self._clear(self.end_plane, self._end_stations(), 1):
            v = self.across.beside_wall(place, self._thickness)
            hip = hips[v > self.span / 2]
            if not hip or min(station, self.span - station) >= min(self.setback, self._face - self._thickness / 2):
                found.append(self._jack(v, hip))
            else:
                found += self._end_creeper(v, hip)
        for high, hip in zip((False, True), hips, strict=True):
            if not hip:
                continue
            stations = [s for _station, s in self._clear(self.side_plane(high), self._side_stations(), self.step)]
            widest = self.ground.house.trusses.spacing + self.ground.girder_width / 2 + SAME
            if stations and self.centre - stations[-1] > widest:
                stations.append((stations[-1] + self._face) / 2)
            for s in stations:
                found += self._side_creeper(s, high, hip)
        return found

    def _end_stations(self) -> list[float]:
        """Stations along the end's wall; where a girder stands along them, those that stand clear of it."""
        spec, low, high = self.ground.house.trusses, *self.bites
        first = low.face + CLEAR * spec.thickness if low else 0.0
        last = self.span - (high.face + CLEAR * spec.thickness) if high else self.span
        found = [v for v in end_wall_stations(self.span, spec) if first <= v <= last and self.across.is_there(v)]
        if self._beside_girder(found):
            found.pop(0 if self.across.kept[0] else -1)
        before, after = (found[0], found[-1]) if found else (self.span, 0.0)
        if low and before - low.depth > spec.spacing and first < before:
            found.insert(0, first)
        if high and self.span - high.depth - after > spec.spacing and last > after:
            found.append(last)
        return found

    def _beside_girder(self, stations: list[float]) -> bool:
        """Whether the last, at a higher wall's line, would stand beside the girder from its corner for nothing."""
        face = self.across.face
        if face is None or len(stations) < 2 or not self.ground.from_corner(self.axis, face, self.end):
            return False
        last, before = (stations[0], stations[1]) if self.across.kept[0] else (stations[-1], stations[-2])
        spec, inside = self.ground.house.trusses, face - self.low
        return abs(inside - last) < CLEAR * spec.thickness and abs(inside - before) <= spec.spacing

    def _clear(self, plane: Plane, stations: Iterable[float], step: int) -> Iterator[tuple[float, float]]:
        """(station, where it stands clear of girders' ends and returns), with one more where that leaves a wide gap."""
        zero = self.low if plane == self.end_plane else self.end
        spec, last = self.ground.house.trusses, None
        for station in stations:
            place = (self.ground.clear((plane,), zero + step * station, self._thickness) - zero) * step
            if last and place - last[1] > spec.spacing + spec.thickness + SAME:
                yield (station + last[0]) / 2, (place + last[1]) / 2
            yield station, place
            last = station, place

    def _side_stations(self) -> list[float]:
        spec = self.ground.house.trusses
        stations = [k * float(spec.spacing) for k in range(1, math.ceil(self.setback / spec.spacing))]
        face = min(self.setback, self._face)
        if stations and stations[-1] > face - spec.thickness / 2:
            # It would stand inside the girder: left out, or moved back where the gap would be too wide.
            before = stations[-2] if len(stations) > 1 else 0.0
            stations.pop()
            if self.setback - before > spec.spacing:
                stations.append(face - CLEAR * spec.thickness)
        return stations

    def _comes_out_at_hip(self, high: bool) -> float:
        """How far in the crease of this hip begins: at a lower ridge that runs along this side, a broken hip's foot."""
        edge = self.span if high else 0.0
        return max(((b - a) / 2 for a, b in self.lower if edge in (a, b)), default=0.0)

    def _landing(self, high: bool) -> Landing | None:
        """What a hip lands on at its corner, or where its line comes out past a bite; None where no hip stands."""
        bite = self.bites[high]
        if bite is None:
            return self.ground.land_corner(self.end_plane, self.side_plane(high))
        if bite.depth + self.ground.girder_width < self._face:
            return Landing(bite.depth - self.ground.girder_width / 2, 0.0, girder=bite.girder)
        if bite.depth < self.carries:
            edge = self.low + (self.span if high else 0.0)
            self.emerging.append(Emerging(edge, -1 if high else 1, bite.depth, self.carries))
        return None

    def _hip(self, high: bool) -> Draft | None:
        landing = self._landing(high) if high in self.across.kept else None
        if landing is None:
            return None
        edge, inward = (self.span, -1) if high else (0.0, 1)

        def on_hip(h: float) -> Point:
            return self.point(h, edge + inward * h)

        start, outer = landing.offset, landing.outer
        seen = self._comes_out_at_hip(high)
        reach, carries = (self.reach, self.carries) if seen <= self.centre else (self.centre, self.centre)
        if seen > self.centre and seen < self.carries:
            self.emerging.append(Emerging(self.low + edge, -1 if high else 1, seen, self.carries))
        stop = self.point(self.centre, edge + inward * min(self.centre, self.span / 2))
        ends = (landing.end(on_hip(start)), DraftEnd(stop, carrier=self.carrier))
        ends[0].tail = landing.tail * ROOT2
        top = tuple(((h - start) * ROOT2, self.ground.height(h)) for h in (outer, reach))
        legs = (
            Leg(self.end_plane, self.low + edge, -1 if high else 1, outer, carries, -start * ROOT2, ROOT2),
            Leg(self.side_plane(high), self.end, self.lean, outer, carries, -start * ROOT2, ROOT2),
        )
        hip = Draft("hip", self.wing, self.row, (self.group, 0.0, edge), 0.0, ends, top, legs)
        self._cross(hip, [(s, on_hip(s)) for s, _ in self.truncated], reach)
        if self.full_height and reach == self.ridge > self.centre:
            self.crossings.append(DraftCrossing(hip, self.full_height, on_hip(self.reach), "extension"))
        other = self.bites[not high]
        if other and reach < self.span / 2 and reach + other.depth == self.span:
            self.crossings.append(DraftCrossing(hip, other.girder, on_hip(reach), "extension"))
        self._land(hip, reach, on_hip(reach))
        return hip

    @cached_property
    def _face(self) -> float:
        """Outer face of the carrier."""
        return self.centre - self.ground.girder_width / 2

    @cached_property
    def _thickness(self) -> float:
        return float(self.ground.house.trusses.thickness)

    def _end_creeper(self, v: float, hip: Draft) -> list[Draft]:
        return self._creeper(self.end_plane, self.low + v, min(v, self.span - v), v, hip, lambda h: self.point(h, v))

    def _jack(self, v: float, hip: Draft | None) -> Draft:
        landing = self.ground.land(self.end_plane, self.low + v)
        corner = self._corner(v)
        start, stop, carries = landing.offset, max(self.centre, min(corner, self.reach)), min(corner, self.carries)
        seen = max((min(v - a, b - v) for a, b in self.lower if a < v < b), default=0.0)
        if seen > self.centre:
            if seen < carries:
                self.emerging.append(Emerging(self.low + v, 0, seen, carries))
            stop, carries = self.centre, self.centre
        ends = (
            landing.end(self.point(start, v)),
            DraftEnd(self.point(self.centre, v), carrier=self.carrier),
        )
        bends = [landing.outer, stop] if stop <= corner else [landing.outer, corner, stop]
        top = tuple((h - start, self.ground.height(min(h, corner))) for h in bends)
        legs = (Leg(self.end_plane, self.low + v, 0, landing.outer, carries, -start, 1.0),)
        jack = Draft("jack", self.wing, self.row, (self.group, 1.0, v), corner, ends, top, legs)
        self.jacks.append(jack)
        self._cross(jack, [(s, self.point(s, v)) for s, _ in self.truncated], stop)
        if self.waling and stop == self.reach:
            self._land(jack, stop, self.point(stop, v))
        elif stop > self.centre:
            self._join(jack, corner, stop, v, hip)
        return jack

    def _land(self, over: Draft, stop: float, at: Point) -> None:
        """Fix the top of a hip or jack to the waling plate; where it hangs on that girder, its bracket carries it."""
        if self.waling and stop == self.reach:
            bears = self.waling is not self.carrier
            self.crossings.append(DraftCrossing(over, self.waling, at, "extension", bears=bears))

    def _cross(self, over: Draft, spots: list[tuple[float, Point]], stop: float) -> None:
        for (s, at), (_, under) in zip(spots, self.truncated, strict=True):
            if self.centre < s <= stop:
                self.crossings.append(DraftCrossing(over, under, at, "extension"))

    def _corner(self, v: float) -> float:
        """How far in the end's plane goes at ``v``: to a hip, or of a strip up to what its own wing has there."""
        own = min(v, self.span - v)
        return min(own, self.whole.reach(self.whole.axis, self.low + v), self.whole.span / 2) if self.whole else own

    def _join(self, jack: Draft, corner: float, stop: float, v: float, hip: Draft | None) -> None:
        """Fix the end of a jack's extension to the hip, or at the apex to a full-height truss if there is one."""
        at = self.point(stop, v)
        if any(s == stop for s, _ in self.truncated):
            return  # it ends over a truncated truss, and is fixed there
        if corner == self.ridge == stop:
            meets = self.full_height or max(self.hips, key=lambda hip: hip.legs[0].high)
            self.crossings.append(DraftCrossing(jack, meets, at, "extension", bears=not self.meets))
        elif self.full_height and corner > stop == self.ridge:
            self.crossings.append(DraftCrossing(jack, self.full_height, at, "extension"))
        elif hip and stop == corner == min(v, self.span - v) <= hip.legs[0].high:
            self.crossings.append(DraftCrossing(jack, hip, at, "extension"))

    def _side_creeper(self, s: float, high: bool, hip: Draft) -> list[Draft]:
        plane = self.side_plane(high)
        spot = self.end + self.step * s
        edge, inward = (self.span, -1) if high else (0.0, 1)
        return self._creeper(plane, spot, s, edge + inward * s, hip, lambda h: self.point(s, edge + inward * h))

    def _creeper(
        self, plane: Plane, spot: float, length: float, across: float, hip: Draft, place: Callable[[float], Point]
    ) -> list[Draft]:
        """A creeper to the hip; a loose rafter where a wall stands back so far that it would be very short."""
        if self.ground.off_plates(plane, spot):
            return []
        landing = self.ground.land(plane, spot)
        start = landing.offset
        if start > self.ground.girder_width and length - start < SHORTEST_CREEPER:
            if length > start:
                self.loose.append(LooseRafter(hip, place(start), place(length)))
            return []
        ends = (landing.end(place(start)), DraftEnd(place(length), carrier=hip))
        top = tuple((h - start, self.ground.height(h)) for h in (landing.outer, length))
        legs = (Leg(plane, spot, 0, landing.outer, length, -start, 1.0),)
        along = 2.0 if plane == self.end_plane else 3.0
        sort = (self.group, along, across, length)
        return [Draft("creeper", self.wing, self.row, sort, length, ends, top, legs)]
