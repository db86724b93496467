"""The trusses of one wing's body: its row of parallel trusses, its gable trusses and its hip ends."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from trainer.layout.bodies import Body
from trainer.layout.draft import Draft, DraftCrossing
from trainer.layout.dutch import Ats, NoPlace, dutch_row
from trainer.layout.ground import DraftGround, Landing, NoBearing
from trainer.layout.halves import across_of, half_line
from trainer.layout.hip_end import Bite, HipEnd
from trainer.layout.model import Plane
from trainer.layout.slopes import height_on, legs_of
from trainer.layout.stations import EndType, NoRoom, RowStations, end_inset, girder_setback
from trainer.layout.wings import Wings
from trainer.plan import Point
from trainer.plan.points import half
from trainer.roof.rects import Axis, Profile, profile
from trainer.terms import TrussKind
from trainer.words import _

_Stand = tuple[TrussKind, float, int]
"""(kind, place along the ridge, plies) of a truss across a wing."""
SAME = 0.5
"""Places that differ by no more are the same, mm."""


@dataclass
class RowBuilder:
    """Drafts one body. ``u`` runs along its ridge, ``v`` across it; ``s`` is the distance from its first end."""

    ground: DraftGround
    wings: Wings
    body: Body
    wing: str
    row: str
    group: float
    moves: Mapping[float, float]
    """For a place along the ridge, the station that the truss there is to have."""

    def __post_init__(self) -> None:
        low = 0 if self.body.axis == "x" else 1
        rect, wing = self.body.rect, self.body.wing
        self.rects = self.wings.rects
        self.v = self.body.sides
        self.across = across_of(wing, self.v)
        kinds: list[EndType] = []
        for side in (low, low + 2):
            closed: EndType = "gable" if wing.gables[side] else "wall" if wing.no_eave(side) else "hip"
            own = rect[side] == wing.rect[side] and not self._taken(rect[side])
            kinds.append(closed if own else "cut")
        self.kinds = tuple(kinds)
        girders = [self.body.wing.dutch[side] for side in (low, low + 2)]
        found = [at if kind == "hip" and at < math.inf else None for kind, at in zip(kinds, girders, strict=True)]
        self.dutch: Ats = (found[0], found[1])
        self.u = (rect[low] + self._taken(rect[low]), rect[low + 2] - self._taken(rect[low + 2]))
        # Stations count from the lower end; a wing that frames in counts from its own outer end.
        self.flip = kinds[0] == "cut" != kinds[1]
        self.length = self.u[1] - self.u[0]
        beside = (
            r
            for r in self.rects
            if r.axis == self.body.axis and all(r.rect[i] < rect[i + 2] and rect[i] < r.rect[i + 2] for i in (0, 1))
        )
        # A rectangle whose roof lies under the others' has no part in the outline of a truss.
        self.same = tuple(r for r in beside if r == wing or r in self.wings.used or self.wings.ridge_seen(r))
        self.hip_ends: list[HipEnd] = []
        self.crossings: list[DraftCrossing] = []

    @cached_property
    def span(self) -> float:
        """Outside to outside of the plates of the whole wing that this is, or is half of, mm."""
        return self.across.span

    @property
    def ridge(self) -> float:
        """How far in from the sides the ridge lies, mm: half the span, or where two hip ends beside a wall meet."""
        both_hipped = self.across.face is not None and set(self.kinds) == {"hip"}
        return min(self.span, self.length if both_hipped else math.inf) / 2

    @cached_property
    def rise(self) -> float:
        """How far in from its sides the roof gets over this body: to the ridge, less where that lies beyond it."""
        first, last = self.body.across
        return min(self.ridge, last - self.v[0], self.v[1] - first)

    def _taken(self, at: float) -> float:
        """How much of this body's end on the line ``at`` the girder takes that spans its own wing there."""
        for opening in self.wings.openings:
            if opening.along == self._across and opening.at == at and self.body in opening.throughs:
                return 0.0 if self.body in opening.under else self.ground.girder_width
        return 0.0

    @property
    def _plate(self) -> float:
        """Width of a gable's plate, mm; 0 where the body is so short that its gable truss must stand on it."""
        plate = float(self.ground.house.plan.plate_width)
        return plate if self.length >= plate + self.ground.house.trusses.thickness else 0.0

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
        ats = (self.dutch[1], self.dutch[0]) if self.flip else self.dutch
        spec, plate = self.ground.house.trusses, self._plate
        try:
            if any(ats) and self.rise < self.span / 2:
                raise NoRoom
            spots = dutch_row(self.length, 2 * self.rise, (near, far), ats, spec, plate)
        except NoRoom:
            middle = (self.u[0] + self.u[1]) / 2, sum(self.body.across) / 2
            if any(ats):
                why = _("This part of the house is too small for it. Make it larger, or leave the dutch gable off.")
                raise NoPlace(middle if self.body.axis == "x" else (middle[1], middle[0]), why) from None
            raise NoBearing(middle if self.body.axis == "x" else (middle[1], middle[0])) from None
        row = [
            self._cross_truss(kind, self._moved(u) if plies == 1 else u, plies)
            for kind, u, plies in self._places(spots)
        ]
        # What a last truss at a wall may find in its place, where a row is very short: a girder, or a gable truss.
        ends = [(girder, spec.girder_plies) for girder in (spots.near_girder, spots.far_girder)]
        if "gable" in (near, far):
            inset = end_inset("gable", spec, plate) + spec.thickness / 2
            ends.append((inset if near == "gable" else self.length - inset, 1))
        for end, kind in ((0, near), (1, far)):
            inset = end_inset(kind, spec, plate) + spec.thickness / 2
            s = self.length - inset if end else inset
            if kind == "gable":
                row.append(self._cross_truss("gable", self._gable_place(s)))
            elif kind == "wall" and not any(self._touch(s, place, plies) for place, plies in ends):
                row.append(self._cross_truss("standard", self.at(s)))
        found = list(row)
        for end in (0, 1):
            if self.kinds[end] == "hip":
                found += self._hip_end(end, row, spots)
        return found

    def _touch(self, s: float, place: float | None, plies: int) -> bool:
        """Whether a truss at the station ``s`` would stand in one of so many plies at another station."""
        return place is not None and abs(place - s) < (plies + 1) * self.ground.house.trusses.thickness / 2

    def _places(self, spots: RowStations) -> list[_Stand]:
        """(kind, place along the ridge, plies) of the row's trusses, each clear of the ends of girders."""
        spec = self.ground.house.trusses
        found: list[_Stand] = []
        for s in sorted({s for s in (spots.near_girder, spots.far_girder) if s is not None}):
            found.append(("truncated_girder", self._clear(s, spec.girder_plies), spec.girder_plies))
        for s in spots.dutch:
            if self._clear(s, spec.girder_plies) != self.at(s):
                why = _("It would stand in the end of another girder. Let it stand a little further in or out.")
                raise NoPlace(self._point(self.at(s), self.v[0]), why)
            found.append(("girder", self.at(s), spec.girder_plies))
        found += [("truncated", self._clear(s, 1), 1) for s in spots.truncated]
        found += [("standard", self._clear(s, 1), 1) for s in spots.standards]
        found += [("standard", u, 1) for u in self._beside_girders([u for _kind, u, _plies in found])]
        nominal = {self.at(s) for s in (*spots.truncated, *spots.standards)}
        fixed = {u for _kind, u, plies in found if plies > 1 or u not in nominal}
        return self._closer(sorted(found, key=lambda place: place[1]), fixed)

    def _beside_girders(self, row: list[float]) -> Iterator[float]:
        """Where one more has to stand, since a girder of this wing takes part of the bay beside it."""
        ends = (self.body.rect[0], self.body.rect[2]) if self.body.axis == "x" else self.body.rect[1::2]
        for line, at in zip(ends, self.u, strict=True):
            if line != at and row:
                nearest = min(row, key=lambda u: abs(u - line))
                if abs(nearest - line) > self.ground.house.trusses.spacing:
                    yield (nearest + at) / 2

    def _closer(self, row: list[_Stand], fixed: set[float]) -> list[_Stand]:
        """The row where no gap is over the spacing by more than half a thickness, after trusses have stood clear."""
        spec = self.ground.house.trusses
        widest = spec.spacing + spec.thickness / 2
        found = row[:1]
        for kind, place, plies in row[1:]:
            before_kind, before, before_plies = found[-1]
            over = place - before - widest - (max(plies, before_plies) - 1) * spec.thickness / 2
            slight = SAME < over <= spec.thickness / 2
            if slight and place not in fixed:
                found.append((kind, place - over, plies))
                continue
            if slight and before not in fixed:
                found[-1] = (before_kind, before + over, before_plies)
            elif over > SAME:
                middle = (place + before) / 2
                full = self.body.wing.reach(self.body.axis, middle) >= self.rise
                found.append(("standard" if full else "truncated", middle, 1))
            found.append((kind, place, plies))
        return found

    def _clear(self, s: float, plies: int) -> float:
        return self.ground.clear(self.planes, self.at(s), plies * self.ground.house.trusses.thickness)

    def _gable_place(self, s: float) -> float:
        """Where a gable truss stands: clear of a girder's end beside it, as far as the end wall's outside lets it."""
        place = self.ground.clear(self.planes, self.at(s), self.ground.house.trusses.thickness)
        inside = self.ground.house.trusses.thickness / 2
        return max(self.u[0] + inside, min(self.u[1] - inside, place))

    @cached_property
    def planes(self) -> tuple[Plane, Plane]:
        """The planes that rise from the wing's two sides."""
        return ((self.body.axis, self.v[0], 1), (self.body.axis, self.v[1], -1))

    def _cross_truss(self, kind: TrussKind, u: float, plies: int = 1) -> Draft:
        """A truss across the wing at ``u``, from wall to wall or hung where an opening is."""
        ground, (low, high) = self.ground, self.v
        first, last = (ground.land(plane, u) for plane in self.planes)
        drop = self._gable_drop() if kind == "gable" else 0.0
        own = line = self._ended(u, self._roof_line(u), first, last)
        # A gable truss closes the whole roof, also where another wing's valleys run out over it.
        if kind == "gable":
            line = self._ended(u, profile(self.rects, self._across, u, low, high), first, last)
        start, stop = low + first.offset, high - last.offset
        turned = first.rank > last.rank
        begin, way = (stop, -1) if turned else (start, 1)
        ends = [landing.end(self._point(u, v)) for landing, v in ((first, start), (last, stop))]
        return Draft(
            kind,
            self.wing,
            self.row,
            (self.group, -1.0, abs(u - self.at(0.0))),
            self.station(u),
            (ends[1], ends[0]) if turned else (ends[0], ends[1]),
            tuple((way * (v - begin), ground.height(d) - drop) for v, d in line[::way]),
            tuple(legs_of(own, self.body.axis, u, begin, way)),
            plies=plies,
        )

    @cached_property
    def _across(self) -> Axis:
        return "y" if self.body.axis == "x" else "x"

    def _roof_line(self, u: float) -> Profile:
        """The roof of this wing and of those whose ridges run the same way, across the body at ``u``."""
        low, high = self.v
        if len(self.same) > 1:
            return profile(self.same, self._across, u, low, high)
        peak = min(self.body.wing.reach(self.body.axis, u), self.span / 2)
        if self.across.face is not None:
            return half_line(self.v, peak, at_low=self.across.face == low)
        top = [(low + peak, peak)] if peak == self.span / 2 else [(low + peak, peak), (high - peak, peak)]
        return ((low, 0.0), *top, (high, 0.0))

    def _height(self, line: Profile, u: float, v: float) -> float:
        """Distance to the outside, in the same roof, at one place of that line or past its end."""
        if self.across.face is not None:  # level, or at its highest, up to the higher wall and the girder in its line
            v = max(line[0][0], min(line[-1][0], v))
        here = height_on(line, v)
        return (height_on(profile(self.same, self._across, u, v - 1.0, v + 1.0), v) or 0.0) if here is None else here

    def _ended(self, u: float, line: Profile, first: Landing, last: Landing) -> Profile:
        """A roof line from wall to wall, out to its tails or back to where it is hung."""
        low, high = self.v
        start = (low + first.outer, first.outer)
        finish = (high - last.outer, last.outer)
        # Another wing's roof runs on past this side, high over the girder there, or this one's own does.
        if line[0][1] or (first.girder and first.offset > self.ground.girder_width):
            start = (low + first.offset, self._height(line, u, low + first.offset))
        if line[-1][1] or (last.girder and last.offset > self.ground.girder_width):
            finish = (high - last.offset, self._height(line, u, high - last.offset))
        return (start, *(bend for bend in line[1:-1] if start[0] < bend[0] < finish[0]), finish)

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
        full = [(s, d) for s, d in from_end if d.kind == "standard" and s >= self.ridge == self.rise]
        dutch = self.dutch[end]
        spec = self.ground.house.trusses
        inset = end_inset("gable" if self._gabled(1 - end) else "hip", spec, self._plate)
        wall = self._end_wall(end)
        builder = HipEnd(
            self.ground,
            self.wing,
            f"{self.row} hip end {wall}",
            self.body.axis,
            self.u[end],
            step,
            self.across,
            self.ridge,
            carrier,
            centre,
            setback,
            dutch if dutch is not None else min(self._as_far_as(end, inset), self.rise),
            inset + self.ground.house.roof.overhang if self._gabled(1 - end) and dutch is None else 0.0,
            self.group + 0.1 + 0.1 * (end if not self.flip else 1 - end),
            sorted(((s, d) for s, d in from_end if d.kind == "truncated" and s < self.ridge), key=lambda pair: pair[0]),
            min(full, key=lambda pair: pair[0])[1] if full else None,
            self._lower_ridges(end),
            tuple(self._bite(side) for side in (0, 1)),
            self.body.left_of if self.body.left_of != self.body.wing else None,
            next((d for s, d in from_end if d.kind == "girder" and s == dutch), None),
        )
        self.hip_ends.append(builder)
        found = builder.draft()
        self.crossings += builder.crossings
        return found

    def _gabled(self, end: int) -> bool:
        """Whether this wing is a gable at one of its ends, also where this body stops short of that."""
        return self.body.wing.gables[(0 if self.body.axis == "x" else 1) + 2 * end]

    def _as_far_as(self, end: int, inset: float) -> float:
        """How far in from a hip end its wing goes, where its other end is open: extensions run no further."""
        other = (0 if self.body.axis == "x" else 1) + 2 * (1 - end)
        if not self.body.wing.no_eave(other):
            return math.inf
        return abs(self.body.wing.rect[other] - self.u[end]) - inset

    def _bite(self, side: int) -> Bite | None:
        """What this body's roof ends at short of one side: None where it ends at that side's walls."""
        first, last = self.body.across
        edge, depth = (first, first - self.v[0]) if side == 0 else (last, self.v[1] - last)
        if not depth:
            return None
        for opening, girder in self.ground.girders:
            if (
                opening.along == self.body.axis
                and opening.at == edge
                and self.body in (opening.other, *opening.throughs)
            ):
                taken = 0.0 if self.body == opening.other else self.ground.girder_width
                return Bite(depth, depth + taken, girder)
        raise NoBearing(self._point(sum(self.u) / 2, edge))

    def _lower_ridges(self, end: int) -> tuple[tuple[float, float], ...]:
        """Where the roofs of wings that run out past this hip end, ridges the same way, lie across the body."""
        low, across = (0, 1) if self.body.axis == "x" else (1, 0)
        at, found = self.u[end], []
        for r in self.same:
            outer = r.rect[low + 2 * end]
            past = r.no_eave(low + 2 * end) or (at - outer if end == 0 else outer - at) > 0
            if r != self.body.wing and past and r.rect[low] <= at <= r.rect[low + 2]:
                found.append((r.rect[across] - self.across.low, r.rect[across + 2] - self.across.low))
        return tuple(found)

    def _carrier(self, end: int, spots: RowStations, from_end: list[tuple[float, Draft]]) -> tuple[Draft, float, float]:
        """What carries a hip end: (truss, distance to its centre line, where jacks begin)."""
        girders = [(s, d) for s, d in from_end if d.kind in ("truncated_girder", "girder")]
        if girders:
            centre, carrier = min(girders, key=lambda pair: pair[0])
            return carrier, centre, min(centre, girder_setback(self.ground.house.trusses, 2 * self.ridge))
        cut_at = self.body.rect[(0 if self.body.axis == "x" else 1) + 2 * (1 - end)]
        middle = sum(self.body.across) / 2
        for opening, girder in self.ground.girders:
            if opening.covers(self._across, cut_at, middle):
                return girder, self.length + self.ground.girder_width / 2, self.length
        raise NoBearing(self._point(cut_at, middle))

    def _end_wall(self, end: int) -> str:
        plane: Plane = ("y" if self.body.axis == "x" else "x", self.u[end], 1 if end == 0 else -1)
        low = 1 if self.body.axis == "x" else 0
        first, last = self.body.across
        names = [
            wall.name
            for wall in self.ground.walls_on(plane)
            if min(wall.a[low], wall.b[low]) < last and max(wall.a[low], wall.b[low]) > first
        ]
        return names[0] if names else ""
