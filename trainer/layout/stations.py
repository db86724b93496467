"""Where trusses stand along a row and along a hip end's wall: numbers only, no plan.

All distances in mm. The rules are common practice, no source: stations from a hip end start at the
setback and go on by the spacing; a row closes with one shorter bay, shared with its neighbours where it is
very short; no gap is ever more than the spacing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from trainer.layout.model import TrussSpec

EndType = Literal["hip", "gable", "wall", "cut", "dutch"]
"""How a row ends: with a hip end, a gable, against a higher wall, at the girder of an opening, or of a dutch gable."""
OPEN_ENDED = ("gable", "wall")
"""Ends with a truss of their own: a gable truss, or a standard truss whose face is against the wall."""
CLEAR = 1.5
"""Of a thickness, from the face of what closes a row to the middle of the truss before it: one of air, half its own."""
SHORTEST_STUB = 3.0
"""Of a girder's thickness, the shortest roof in front of a wall that has a hip end and its girder."""
LEAST_BAY = 250.0
"""A closing bay shorter than this, or than half the spacing, is shared with the bays before it, mm."""


@dataclass(frozen=True)
class RowStations:
    """The stations of one row, all from its first end.

    ``near_girder`` and ``far_girder`` are the truncated girders (the same number where one serves both
    hip ends, None where there is none).
    """

    near_girder: float | None = None
    far_girder: float | None = None
    truncated: tuple[float, ...] = ()
    standards: tuple[float, ...] = ()
    dutch: tuple[float, ...] = ()
    """Stations of the girders of dutch gables."""


class NoRoom(ValueError):  # noqa: N818 - an answer about a wing, not a fault of the program
    """Raised where a wing is too short for the ends it is given."""


def girder_setback(spec: TrussSpec, span: float) -> float:
    """Station of a hip end's truncated girder, to its centre line: the level's setback, at most half the span."""
    offset = spec.girder_plies * spec.thickness / 2 if spec.stations_to == "near face" else 0.0
    return min(spec.setback + offset, span / 2)


def end_inset(end: EndType, spec: TrussSpec, plate_width: float) -> float:
    """From the outside of a gable's end wall to the outer face of its gable truss, mm; 0 at the face of a wall."""
    return plate_width if end == "gable" and spec.gable_stands == "inside plate" else 0.0


def end_wall_stations(width: float, spec: TrussSpec) -> tuple[float, ...]:
    """Stations along a hip end's wall, from one corner: by the spacing from both corners, one in the middle if needed.

    Two that would stand inside each other at the middle are set side by side.
    """
    half = width / 2
    from_corner = [k * float(spec.spacing) for k in range(1, math.floor(half / spec.spacing) + 1)]
    gap = width - 2 * (from_corner[-1] if from_corner else 0.0)
    middle: list[float] = []
    if gap == 0:
        middle = [from_corner.pop()]
    elif gap > spec.spacing:
        middle = [half]
    elif from_corner and gap < spec.thickness:
        from_corner[-1] = half - spec.thickness / 2
    return (*from_corner, *middle, *(width - station for station in reversed(from_corner)))


@dataclass
class _Row:
    """A row being worked out; ``spots`` holds (station, whether truncated), in order."""

    length: float
    span: float
    near: EndType
    far: EndType
    spec: TrussSpec
    insets: tuple[float, float]
    spots: list[tuple[float, bool]] = field(default_factory=list)

    @property
    def setback(self) -> float:
        return girder_setback(self.spec, self.span)

    @property
    def girder_is_full(self) -> bool:
        """Whether a truncated girder at the setback is as high as the ridge, so that no full truss follows."""
        return self.setback >= self.span / 2

    @property
    def near_face(self) -> float:
        """Inner face of what closes the row at its first end."""
        return self._depth(self.near, self.insets[0])

    @property
    def far_face(self) -> float:
        return self.length - self._depth(self.far, self.insets[1])

    def _depth(self, end: EndType, inset: float) -> float:
        """How far in from the row's end the inner face of what closes it stands: a dutch gable's girder on its end."""
        half = self.spec.girder_plies * self.spec.thickness / 2
        return inset + self.spec.thickness if end in OPEN_ENDED else half if end == "dutch" else 0.0

    @property
    def far_centre(self) -> float:
        """Centre of what closes the row at its second end: its last truss, or the girder of an opening."""
        if self.far in OPEN_ENDED:
            return self.far_face + self.spec.thickness / 2
        if self.far == "dutch":
            return self.length
        return self.length + self.spec.girder_plies * self.spec.thickness / 2

    @property
    def full(self) -> tuple[float, float]:
        """Between which stations the roof is at full height."""
        low = self.span / 2 if self.near == "hip" else 0.0
        return low, self.length - (self.span / 2 if self.far == "hip" else 0.0)

    def hip_stations(self) -> tuple[list[float], float]:
        """Stations of the truncated trusses from a hip end, and of the first full-height one after them."""
        below, station = [], self.setback
        if self.girder_is_full:
            return [], station
        while (station := station + self.spec.spacing) < self.span / 2:
            below.append(station)
        return below, station


def row_stations(
    length: float, span: float, near: EndType, far: EndType, spec: TrussSpec, plate_width: float
) -> RowStations:
    """Work out the stations of a row ``length`` long under a roof of ``span``, from its first (``near``) end.

    :raises NoRoom: where a hip end and a gable stand too close for a truncated girder between them.
    """
    insets = end_inset(near, spec, plate_width), end_inset(far, spec, plate_width)
    row = _Row(length, span, near, far, spec, insets)
    near_girder, far_girder = _girders(row)
    truncated_near = _truncated(row, near_girder, row.far_face)
    truncated_far = [length - s for s in _truncated(row, far_girder and length - far_girder, length - row.near_face)]
    supports_near = [near_girder, *truncated_near] if near_girder is not None else [0.0]
    supports_far = [far_girder, *truncated_far] if far_girder is not None else [row.far_face]
    standards = _standards(row, supports_near[-1], supports_far[-1], near_girder is not None or near != "hip")
    standards = _shared(row, supports_near, standards, supports_far[-1] if far == "hip" else row.far_centre)
    row.spots = sorted(
        [(s, True) for s in truncated_near] + [(s, False) for s in standards] + [(s, True) for s in truncated_far]
    )
    _part(row)
    _clear_far(row, near_girder)
    _clear_near(row, far_girder)
    return RowStations(
        near_girder,
        far_girder,
        tuple(s for s, truncated in row.spots if truncated),
        tuple(s for s, truncated in row.spots if not truncated),
    )


def _girders(row: _Row) -> tuple[float | None, float | None]:
    """Stations of the truncated girders; one in the centre where two would stand inside each other."""
    width = row.spec.girder_plies * row.spec.thickness
    inner_face = row.setback + width / 2 + row.spec.thickness
    hips = (row.near == "hip", row.far == "hip")
    if all(hips):
        far = row.length - row.setback
        if far - row.setback < width:
            return row.length / 2, row.length / 2
        return row.setback, far
    if not any(hips):
        return None, None
    # At an opening the girder there does the work of a truncated girder that finds no room before it.
    if row.length < inner_face and "cut" in (row.near, row.far):
        if row.span / 2 >= row.length + width / 2:
            return None, None
        # So narrow that its hips meet before the girder: they need one of their own.
        setback = min(row.setback, row.length - width / 2)
        return (setback, None) if hips[0] else (None, row.length - setback)
    setback = row.setback
    if {row.near, row.far} & set(OPEN_ENDED):
        # Beside the last truss it stands no further in than leaves a thickness of air between the two.
        setback = min(setback, row.length - max(row.insets) - 2 * row.spec.thickness - width / 2)
        if setback < row.spec.spacing:
            if "wall" not in (row.near, row.far) or row.length < SHORTEST_STUB * width:
                raise NoRoom
            setback = row.length - width / 2  # it stands at the wall itself, in place of the last truss
    if "dutch" in (row.near, row.far) and row.length - width / 2 < inner_face:
        raise NoRoom
    return (setback, None) if hips[0] else (None, row.length - setback)


def _truncated(row: _Row, girder: float | None, limit: float) -> list[float]:
    if girder is None:
        return []
    return [s for s in row.hip_stations()[0] if s < limit]


def _standards(row: _Row, support_near: float, support_far: float, has_carrier: bool) -> list[float]:
    """Full-height trusses in full bays from the first end, closing with one shorter bay."""
    spacing = float(row.spec.spacing)
    first_full = row.hip_stations()[1]
    if row.near == "hip" and not has_carrier:
        return []
    start = first_full if row.near == "hip" else spacing
    if row.near == "hip" and row.girder_is_full:
        start += spacing
    limit = row.length - (row.span / 2 if row.far == "hip" else 0.0)
    stations = []
    while start < limit or (row.far == "hip" and start == limit):
        stations.append(start)
        start += spacing
    if row.far != "hip":
        return _left_out(row, stations, support_near)
    if row.girder_is_full and stations and stations[-1] >= support_far:
        stations.pop()
    if stations or row.near != "hip":
        last = stations[-1] if stations else support_near
        if support_far - last > spacing:
            closing = row.length - first_full
            stations.append(closing if closing < support_far else support_far - spacing)
    elif not row.girder_is_full or support_far - support_near > spacing:
        stations.append(row.length / 2)
    return stations


def _left_out(row: _Row, stations: list[float], support_near: float) -> list[float]:
    """Without a last one that would stand within a thickness of what closes the row, where no gap gets too wide."""
    if not stations or stations[-1] <= row.far_face - CLEAR * row.spec.thickness:
        return stations
    before = stations[-2] if len(stations) > 1 else support_near
    closing = row.length if row.far == "cut" else row.far_centre
    return stations[:-1] if closing - before <= row.spec.spacing else stations


def _shared(row: _Row, before: list[float], stations: list[float], end: float) -> list[float]:
    """Make the last two or three bays equal, in whole mm, where one of them is very short.

    Only full-height trusses move, and they stay full-height; where that can't be, the short bay stands.
    """
    places = [*before, *stations, end]
    bays = [b - a for a, b in pairwise(places)]
    least = max(row.spec.spacing / 2, LEAST_BAY)
    if not stations or min(bays[-2:]) >= least:
        return stations
    low, high = row.full
    # The last station may have to stay, at the edge of full height: then the bays before it are shared.
    for fixed in (0, 1):
        for count in range(2, min(3, len(stations) - fixed + 1) + 1):
            last = len(places) - 1 - fixed
            first, until = places[last - count], places[last]
            moved = [first + round((until - first) * i / count) for i in range(1, count)]
            even = min(b - a for a, b in pairwise([first, *moved, until]))
            if low <= moved[0] and moved[-1] <= high and even >= LEAST_BAY:
                return [*stations[: len(stations) - fixed - count + 1], *moved, *stations[len(stations) - fixed :]]
    return stations


def _part(row: _Row) -> None:
    """Move a truss that would stand inside its neighbour back, to leave a thickness of air."""
    thickness = row.spec.thickness
    for i in range(len(row.spots) - 1, 0, -1):
        (before, cut_before), (after, cut_after) = row.spots[i - 1], row.spots[i]
        if after - before >= thickness:
            continue
        if cut_after and not cut_before:
            row.spots[i] = (before + 2 * thickness, cut_after)
        else:
            row.spots[i - 1] = (after - 2 * thickness, cut_before)


def _clear_far(row: _Row, near_girder: float | None) -> None:
    """Leave out, or move back where the gap would be too wide, a truss within a thickness of what closes the row."""
    if row.far == "hip" or not row.spots:
        return
    clear = row.far_face - CLEAR * row.spec.thickness
    truncated = None
    while row.spots and row.spots[-1][0] > clear:  # between wide plates and close spacings there may be two
        _station, truncated = row.spots.pop()
    if truncated is None:
        return
    before = row.spots[-1][0] if row.spots else (near_girder or 0.0)
    support = row.far_face if row.far == "cut" else row.far_centre
    if support - before > row.spec.spacing:
        row.spots.append((clear, truncated))


def _clear_near(row: _Row, far_girder: float | None) -> None:
    """Do the same at the first end, where a gable truss, or one against a wall, may stand in the way."""
    if row.near not in OPEN_ENDED or not row.spots:
        return
    clear = row.near_face + CLEAR * row.spec.thickness
    station, truncated = row.spots[0]
    if station >= clear:
        return
    row.spots.pop(0)
    after = row.spots[0][0] if row.spots else (far_girder or row.length)
    if after - (row.near_face - row.spec.thickness / 2) > row.spec.spacing:
        row.spots.insert(0, (clear, truncated))
