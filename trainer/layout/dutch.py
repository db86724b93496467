"""Dutch gables: a row whose hip end has a full-height girder standing in it, and the framing on that girder's face.

At the setback the girder takes the truncated girder's place. Further in, the truncated girder and truncated trusses
stand up to it, as they would without it, and the full-height row begins behind it: full bays from there, or one
shorter bay up to it. Hips and jacks land on a waling plate on its outer face. Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout.ground import NoBearing
from trainer.layout.model import House, Member, Part, Refusal, TrussSpec
from trainer.layout.stations import CLEAR, EndType, NoRoom, RowStations, girder_setback, row_stations
from trainer.layout.webs import TOP_CHORD
from trainer.plan import DutchGable, Point, to_half
from trainer.words import _

Ats = tuple[float | None, float | None]
"""How far in from a row's first and second end the girder of a dutch gable stands, mm; None where there is none."""


class NoPlace(NoBearing):
    """Raised where a dutch gable's girder can't stand where it should; becomes a refusal."""

    def __init__(self, at: Point, why: str) -> None:
        super().__init__(at)
        self.refusal = Refusal(_("the girder of a dutch gable"), at, why)


def dutch_row(
    length: float, span: float, ends: tuple[EndType, EndType], ats: Ats, spec: TrussSpec, plate_width: float
) -> RowStations:
    """Work out the stations of a row; with dutch gables the full-height part lies between their girders.

    :raises NoRoom: where the girders of a dutch gable and of what closes the row's other end stand too close.
    """
    near, far = (end if at is None else "dutch" for end, at in zip(ends, ats, strict=True))
    first, last = ats[0] or 0.0, ats[1] or 0.0
    between = length - first - last
    width = spec.girder_plies * spec.thickness
    if (first or last) and between < width / 2 * ((near == "dutch") + (far == "dutch")) + spec.thickness:
        raise NoRoom
    row = row_stations(between, span, near, far, spec, plate_width)
    truncated = [first + s for s in row.truncated]
    girders = [None if s is None else first + s for s in (row.near_girder, row.far_girder)]
    for i, at in enumerate(ats):
        if at is not None:
            girder, before = _before(at, span, spec)
            girders[i] = girder if girder is None or i == 0 else length - girder
            truncated += before if i == 0 else [length - s for s in before]
    standards = tuple(first + s for s in row.standards)
    dutch = tuple(at if i == 0 else length - at for i, at in enumerate(ats) if at is not None)
    return RowStations(girders[0], girders[1], tuple(sorted(truncated)), standards, dutch)


def _before(at: float, span: float, spec: TrussSpec) -> tuple[float | None, list[float]]:
    """Stations of the truncated girder and the truncated trusses that stand up to a dutch gable's girder."""
    width, girder = spec.girder_plies * spec.thickness, girder_setback(spec, span)
    if at - girder < width + spec.thickness:
        return None, []
    clear = at - width / 2 - CLEAR * spec.thickness
    stations: list[float] = []
    while (station := girder + spec.spacing * (len(stations) + 1)) <= clear:
        stations.append(station)
    last = stations[-1] if stations else girder
    return girder, [*stations, clear] if at - last > spec.spacing else stations


def dutch_parts(house: House, girder: Member, end: DutchGable) -> Iterator[Part]:
    """The waling plate on a girder's outer face, between the hips, and a verge ladder for each slope.

    Against the face the plate's top is as high as the underside of the chords that come down there.
    """
    wall = house.roof_plan.by_name[end.wall]
    (x, y), (ux, uy), (nx, ny), length = wall.a, wall.along, wall.inward, wall.length

    def spot(s: float, t: float) -> Point:
        return to_half((x + ux * t + nx * s, y + uy * t + ny * s))

    face = end.at - girder.width / 2
    level = house.roof.heel + face * house.roof.slope - TOP_CHORD / math.cos(math.radians(house.roof.pitch))
    middle = face - girder.thickness / 2
    yield Part("waling plate", girder.tag, spot(middle, middle), spot(middle, length - middle), top=level)
    if end.verge_at < face:
        for t in (end.verge_at, length - end.verge_at):
            yield Part("verge ladder", girder.tag, spot(end.verge_at, t), spot(end.verge_at, length / 2))


def end_of(house: House, girder: Member) -> DutchGable | None:
    """The dutch gable that a girder in a row of trusses stands for; None of any other truss."""
    if not girder.is_dutch:
        return None
    walls = house.roof_plan.by_name

    def off(gable: DutchGable) -> float:
        wall = walls[gable.wall]
        axis = 0 if wall.inward[0] else 1
        if girder.start[axis] != girder.finish[axis]:
            return math.inf
        low, high = sorted((wall.a[1 - axis], wall.b[1 - axis]))
        within = low - 1 <= girder.middle[1 - axis] <= high + 1
        return abs((girder.start[axis] - wall.a[axis]) * wall.inward[axis] - gable.at) if within else math.inf

    return min(house.roof_plan.dutch_gables, key=off)
