"""The trusses of one wing's body: its row of parallel trusses, its gable trusses and its hip ends."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from trainer.layout.draft import Draft, DraftCrossing
from trainer.layout.ground import Ground, NoBearing
from trainer.layout.hip_end import HipEnd
from trainer.layout.model import Leg, Plane
from trainer.layout.rects import Axis, RoofRect, profile
from trainer.layout.stations import EndType, NoRoom, RowStations, gable_inset, girder_setback, row_stations
from trainer.layout.wings import Body
from trainer.plan import Point
from trainer.plan.points import half
from trainer.terms import TrussKind


@dataclass
class RowBuilder:
    """Drafts one body. ``u`` runs along its ridge, ``v`` across it; ``s`` is the distance from its first end."""

    ground: Ground
    rects: tuple[RoofRect, ...]
    body: Body
    wing: str
    row: str
    group: float
    moves: Mapping[float, float]
    """For a place along the ridge, the station that the truss there is to have."""

    def __post_init__(self) -> None:
        low, across = (0, 1) if self.body.axis == "x" else (1, 0)
        rect, whole, gables = self.body.rect, self.body.wing.rect, self.body.wing.gables
        self.u = (rect[low], rect[low + 2])
        self.v = (rect[across], rect[across + 2])
        kinds: list[EndType] = []
        for side in (low, low + 2):
            at_own_end = rect[side] == whole[side]
            kinds.append(("gable" if gables[side] else "hip") if at_own_end else "cut")
        self.kinds = tuple(kinds)
        # Stations count from the lower end; a wing that frames in counts from its own outer end.
        self.flip = kinds[0] == "cut" != kinds[1]
        self.length = self.u[1] - self.u[0]
        self.crossings: list[DraftCrossing] = []

    @property
    def span(self) -> float:
        """Outside to outside of the plates, mm."""
        return self.v[1] - self.v[0]

    def at(self, s: float) -> float:
        """Coordinate along the ridge, mm, of the station ``s``."""
        return self.u[1] - s if self.flip else self.u[0] + s

    def station(self, u: float) -> float:
        """Distance to the outside of the nearest hip end, mm, else to the first end."""
        hips = [abs(u - end) for end, kind in zip(self.u, self.kinds, strict=True) if kind == "hip"]
        return min(hips) if hips else abs(u - self.at(0.0))

    def _moved(self, u: float) -> float:
        """Where the truss that belongs at ``u`` is to stand."""
        to = self.moves.get(half(u))
        if to is None:
            return u
        hips = [end for end, kind in zip(self.u, self.kinds, strict=True) if kind == "hip"] or [self.at(0.0)]
        end = min(hips, key=lambda end: abs(u - end))
        return end + to if u > end else end - to

    def draft(self) -> list[Draft]:
        """All trusses of this body.

        :raises NoBearing: where a truss would end in mid-air, or a hip end and a gable leave no room.
        """
        near, far = reversed(self.kinds) if self.flip else self.kinds
        spec, plate = self.ground.house.trusses, self.ground.house.plan.plate_width
        try:
            spots = row_stations(self.length, self.span, near, far, spec, plate)
        except NoRoom:
            middle = (self.u[0] + self.u[1]) / 2, (self.v[0] + self.v[1]) / 2
            raise NoBearing(middle if self.body.axis == "x" else (middle[1], middle[0])) from None
        girders = sorted({s for s in (spots.near_girder, spots.far_girder) if s is not None})
        plies = spec.girder_plies
        row = [self._cross_truss("truncated_girder", self.at(s), plies) for s in girders]
        row += [self._cross_truss("truncated", self._moved(self.at(s))) for s in spots.truncated]
        row += [self._cross_truss("standard", self._moved(self.at(s))) for s in spots.standards]
        inset = gable_inset(spec, plate) + spec.thickness / 2
        row += [
            self._cross_truss("gable", self.at(s))
            for s, kind in ((inset, near), (self.length - inset, far))
            if kind == "gable"
        ]
        found = list(row)
        for end in (0, 1):
            if self.kinds[end] == "hip":
                found += self._hip_end(end, row, spots)
        return found

    def _cross_truss(self, kind: TrussKind, u: float, plies: int = 1) -> Draft:
        """A truss across the wing at ``u``, from wall to wall or hung where an opening is."""
        ground, span = self.ground, self.span
        planes: tuple[Plane, Plane] = ((self.body.axis, self.v[0], 1), (self.body.axis, self.v[1], -1))
        first, last = (ground.land(plane, u) for plane in planes)
        flat = self.body.wing.reach(self.body.axis, u)
        peak = min(flat, span / 2)
        ridge = [(peak, peak)] if peak == span / 2 else [(peak, peak), (span - peak, peak)]
        drop = self._gable_drop() if kind == "gable" else 0.0
        if kind == "gable":
            # It closes the whole roof, also where another wing's valleys run out over it.
            across: Axis = "y" if self.body.axis == "x" else "x"
            ridge = [(v - self.v[0], d) for v, d in profile(self.rects, across, u, *self.v)[1:-1]]
        line = [(first.outer, first.outer), *ridge, (span - last.outer, last.outer)]
        start, stop = first.offset, span - last.offset
        turned = bool(first.girder) and not last.girder
        runs = [(stop - v, d) for v, d in reversed(line)] if turned else [(v - start, d) for v, d in line]
        ends = [landing.end(self._point(u, self.v[0] + v)) for landing, v in ((first, start), (last, stop))]
        legs = (
            Leg(planes[0], u, 0, first.outer, peak, stop if turned else -start, -1.0 if turned else 1.0),
            Leg(planes[1], u, 0, last.outer, peak, stop - span if turned else span - start, 1.0 if turned else -1.0),
        )
        if turned:
            ends.reverse()
        return Draft(
            kind,
            self.wing,
            self.row,
            (self.group, -1.0, abs(u - self.at(0.0))),
            self.station(u),
            (ends[0], ends[1]),
            tuple((run, ground.height(d) - drop) for run, d in runs),
            legs,
            plies=plies,
        )

    def _gable_drop(self) -> float:
        """How far a gable truss stands below the roof line, so that outriggers pass over it."""
        house = self.ground.house
        if not house.roof.overhang:
            return 0.0
        return house.trusses.outrigger_depth / math.cos(math.radians(house.roof.pitch))

    def _point(self, u: float, v: float) -> Point:
        return (u, v) if self.body.axis == "x" else (v, u)

    def _hip_end(self, end: int, row: list[Draft], spots: RowStations) -> list[Draft]:
        step = 1 if end == 0 else -1
        along = 0 if self.body.axis == "x" else 1
        from_end = [(abs(d.ends[0].at[along] - self.u[end]), d) for d in row]
        carrier, centre, setback = self._carrier(end, spots, from_end)
        full = [(s, d) for s, d in from_end if d.kind == "standard" and s >= self.span / 2]
        other = self.kinds[1 - end]
        spec = self.ground.house.trusses
        inset = gable_inset(spec, self.ground.house.plan.plate_width) if other == "gable" else 0.0
        wall = self._end_wall(end)
        builder = HipEnd(
            self.ground,
            self.wing,
            f"{self.row} hip end {wall}",
            self.body.axis,
            self.u[end],
            step,
            self.v[0],
            self.span,
            carrier,
            centre,
            setback,
            self.length - inset if other == "gable" else math.inf,
            inset + self.ground.house.roof.overhang if other == "gable" else 0.0,
            self.group + 0.1 + 0.1 * (end if not self.flip else 1 - end),
            sorted(
                ((s, d) for s, d in from_end if d.kind == "truncated" and s < self.span / 2), key=lambda pair: pair[0]
            ),
            min(full, key=lambda pair: pair[0])[1] if full else None,
        )
        found = builder.draft()
        self.crossings += builder.crossings
        return found

    def _carrier(self, end: int, spots: RowStations, from_end: list[tuple[float, Draft]]) -> tuple[Draft, float, float]:
        """What carries a hip end: (truss, distance to its centre line, where jacks begin)."""
        girders = [(s, d) for s, d in from_end if d.kind == "truncated_girder"]
        if girders:
            centre, carrier = min(girders, key=lambda pair: pair[0])
            return carrier, centre, min(centre, girder_setback(self.ground.house.trusses, self.span))
        cut_at = self.u[1 - end]
        crossing = "y" if self.body.axis == "x" else "x"
        for opening, girder in self.ground.girders:
            if opening.along == crossing and opening.at == cut_at and opening.covers(crossing, cut_at, sum(self.v) / 2):
                return girder, self.length + self.ground.girder_width / 2, self.length
        raise NoBearing(self._point(cut_at, sum(self.v) / 2))

    def _end_wall(self, end: int) -> str:
        plane: Plane = ("y" if self.body.axis == "x" else "x", self.u[end], 1 if end == 0 else -1)
        low = 1 if self.body.axis == "x" else 0
        names = [
            wall.name
            for wall in self.ground.walls_on(plane)
            if min(wall.a[low], wall.b[low]) < self.v[1] and max(wall.a[low], wall.b[low]) > self.v[0]
        ]
        return names[0] if names else ""
