"""The trusses of one hip end: hips, jacks and creepers, and the crossings of their extensions."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from trainer.layout.draft import Draft, DraftCrossing, DraftEnd
from trainer.layout.ground import Ground, Landing
from trainer.layout.model import Leg, Plane
from trainer.layout.stations import CLEAR, end_wall_stations
from trainer.plan import Point
from trainer.roof.rects import Axis

ROOT2 = math.sqrt(2.0)


@dataclass
class HipEnd:
    """One hip end while it is drafted, in its own terms: ``s`` inward from its end wall, ``v`` along it.

    ``carrier`` (a truncated girder, or the opening's girder in a stub wing) has its centre line at
    ``centre``; ``setback`` is where creepers give way to jacks; ``limit`` is as far as extensions can
    run (a gable's end; in a stub wing they run on over its saddles), and ``verge`` how far past a
    gable the roof goes on.
    """

    ground: Ground
    wing: str
    row: str
    axis: Axis
    end: float
    step: int
    low: float
    span: float
    carrier: Draft
    centre: float
    setback: float
    limit: float
    verge: float
    group: float
    truncated: list[tuple[float, Draft]] = field(default_factory=list)
    full_height: Draft | None = None
    crossings: list[DraftCrossing] = field(default_factory=list)

    def point(self, s: float, v: float) -> Point:
        """Plan point at ``s`` from the end wall and ``v`` from the wing's low side."""
        u, across = self.end + self.step * s, self.low + v
        return (u, across) if self.axis == "x" else (across, u)

    @property
    def end_plane(self) -> Plane:
        """The plane that rises from the end wall."""
        return ("y" if self.axis == "x" else "x", self.end, self.step)

    def side_plane(self, high: bool) -> Plane:
        """The plane that rises from the low or the high side wall."""
        return (self.axis, self.low + self.span if high else self.low, -1 if high else 1)

    @property
    def reach(self) -> float:
        """How far in (mm of ``s``) a hip or jack may run."""
        return min(self.span / 2, max(self.limit, self.centre))

    @property
    def carries(self) -> float:
        """How far in (mm of ``s``) the roof goes that they hold up: past a gable by its verge."""
        return min(self.span / 2, self.reach + self.verge)

    @property
    def meets(self) -> bool:
        """Whether the extensions come together at an apex with no full-height truss to be fixed to."""
        return not self.full_height and self.reach == self.span / 2 > self.centre

    @property
    def apex(self) -> Point:
        """Where they come together."""
        return self.point(self.reach, self.span / 2)

    def draft(self) -> list[Draft]:
        """All trusses of this hip end."""
        hips = [self._hip(False), self._hip(True)]
        if self.meets:
            self.crossings.append(DraftCrossing(hips[0], hips[1], self.apex, "extension", bears=False))
        found = list(hips)
        for v in end_wall_stations(self.span, self.ground.house.trusses):
            found.append(self._end_wall_truss(v, hips))
        for s in self._side_stations():
            found += [self._side_creeper(s, high, hips[high]) for high in (False, True)]
        return found

    def _side_stations(self) -> list[float]:
        spec = self.ground.house.trusses
        stations = [k * float(spec.spacing) for k in range(1, math.ceil(self.setback / spec.spacing))]
        face = min(self.setback, self.centre - self.ground.girder_width / 2)
        if stations and stations[-1] > face - spec.thickness / 2:
            # It would stand inside the girder: left out, or moved back where the gap would be too wide.
            before = stations[-2] if len(stations) > 1 else 0.0
            stations.pop()
            if self.setback - before > spec.spacing:
                stations.append(face - CLEAR * spec.thickness)
        return stations

    def _hip(self, high: bool) -> Draft:
        landing = self.ground.land_corner(self.end_plane, self.side_plane(high))
        edge, inward = (self.span, -1) if high else (0.0, 1)

        def on_hip(h: float) -> Point:
            return self.point(h, edge + inward * h)

        start, outer = landing.offset, landing.outer
        stop = self.point(self.centre, edge + inward * min(self.centre, self.span / 2))
        ends = (landing.end(on_hip(start)), DraftEnd(stop, carrier=self.carrier))
        ends[0].tail = landing.tail * ROOT2
        top = tuple(((h - start) * ROOT2, self.ground.height(h)) for h in (outer, self.reach))
        legs = (
            Leg(self.end_plane, self.low + edge, -1 if high else 1, outer, self.carries, -start * ROOT2, ROOT2),
            Leg(self.side_plane(high), self.end, _lean(self.step), outer, self.carries, -start * ROOT2, ROOT2),
        )
        hip = Draft("hip", self.wing, self.row, (self.group, 0.0, edge), 0.0, ends, top, legs)
        self._cross(hip, [(s, on_hip(s)) for s, _ in self.truncated], self.reach)
        if self.full_height and self.reach == self.span / 2 > self.centre:
            self.crossings.append(DraftCrossing(hip, self.full_height, on_hip(self.reach), "extension"))
        return hip

    def _end_wall_truss(self, v: float, hips: list[Draft]) -> Draft:
        landing = self.ground.land(self.end_plane, self.low + v)
        corner = min(v, self.span - v)
        hip = hips[v > self.span / 2]
        if corner < self.setback:
            return self._creeper(landing, self.end_plane, self.low + v, corner, v, hip, lambda h: self.point(h, v))
        start, stop = landing.offset, max(self.centre, min(corner, self.reach))
        ends = (
            landing.end(self.point(start, v)),
            DraftEnd(self.point(self.centre, v), carrier=self.carrier),
        )
        bends = [landing.outer, stop] if stop <= corner else [landing.outer, corner, stop]
        top = tuple((h - start, self.ground.height(min(h, corner))) for h in bends)
        legs = (Leg(self.end_plane, self.low + v, 0, landing.outer, min(corner, self.carries), -start, 1.0),)
        jack = Draft("jack", self.wing, self.row, (self.group, 1.0, v), corner, ends, top, legs)
        self._cross(jack, [(s, self.point(s, v)) for s, _ in self.truncated], stop)
        if stop > self.centre:
            self._join(jack, corner, stop, v, hip)
        return jack

    def _cross(self, over: Draft, spots: list[tuple[float, Point]], stop: float) -> None:
        for (s, at), (_, under) in zip(spots, self.truncated, strict=True):
            if self.centre < s <= stop:
                self.crossings.append(DraftCrossing(over, under, at, "extension"))

    def _join(self, jack: Draft, corner: float, stop: float, v: float, hip: Draft) -> None:
        """Fix the end of a jack's extension to the hip, or at the apex to a full-height truss if there is one."""
        at = self.point(stop, v)
        if any(s == stop for s, _ in self.truncated):
            return  # it ends over a truncated truss, and is fixed there
        if corner == self.span / 2 == stop:
            meets = self.full_height or hip
            self.crossings.append(DraftCrossing(jack, meets, at, "extension", bears=not self.meets))
        elif stop == corner:
            self.crossings.append(DraftCrossing(jack, hip, at, "extension"))

    def _side_creeper(self, s: float, high: bool, hip: Draft) -> Draft:
        plane = self.side_plane(high)
        spot = self.end + self.step * s
        landing = self.ground.land(plane, spot)
        edge, inward = (self.span, -1) if high else (0.0, 1)
        across = edge + inward * s
        return self._creeper(landing, plane, spot, s, across, hip, lambda h: self.point(s, edge + inward * h))

    def _creeper(
        self,
        landing: Landing,
        plane: Plane,
        spot: float,
        length: float,
        across: float,
        hip: Draft,
        place: Callable[[float], Point],
    ) -> Draft:
        start = landing.offset
        ends = (landing.end(place(start)), DraftEnd(place(length), carrier=hip))
        top = tuple((h - start, self.ground.height(h)) for h in (landing.outer, length))
        legs = (Leg(plane, spot, 0, landing.outer, length, -start, 1.0),)
        along = 2.0 if plane == self.end_plane else 3.0
        sort = (self.group, along, across, length)
        return Draft("creeper", self.wing, self.row, sort, length, ends, top, legs)


def _lean(step: int) -> Literal[-1, 1]:
    return 1 if step > 0 else -1
