"""What a truss can land on: the plates and the girders of openings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from trainer.layout.draft import Draft, DraftEnd
from trainer.layout.model import House, Leg, Plane, Refusal
from trainer.layout.wings import Opening
from trainer.plan import Point, Wall
from trainer.roof.rects import Axis
from trainer.words import _


class NoBearing(Exception):  # noqa: N818 - becomes a refusal
    """Raised where a truss would end in mid-air; carries the refusal."""

    def __init__(self, at: Point) -> None:
        super().__init__("no bearing")
        self.refusal = Refusal(
            _("an end with nothing under it"),
            at,
            _("A truss that belongs here would have no wall or girder to land on. Change the plan here."),
        )


@dataclass(frozen=True, slots=True)
class Landing:
    """Where a truss lands: ``offset`` mm inside the line of the walls, on a wall or a girder; ``tail`` past it."""

    offset: float
    tail: float
    wall: str = ""
    girder: Draft | None = None

    @property
    def outer(self) -> float:
        """Where the roof line starts: mm inside the line of the walls (negative along a tail)."""
        return -self.tail if self.tail else self.offset

    def end(self, at: Point) -> DraftEnd:
        """The end of a truss that lands here, at the plan point ``at``."""
        if self.girder:
            return DraftEnd(at, carrier=self.girder)
        return DraftEnd(at, tail=self.tail, wall=self.wall)


@dataclass
class Ground:
    """A house's plates, and the girders of its openings once they are drafted."""

    house: House
    girders: list[tuple[Opening, Draft]] = field(default_factory=list)
    _lines: dict[Plane, list[Wall]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for wall in self.house.plan.walls:
            along: Axis = "x" if wall.inward[1] else "y"
            across = 1 if along == "x" else 0
            self._lines.setdefault((along, float(wall.a[across]), wall.inward[across]), []).append(wall)

    @property
    def girder_width(self) -> float:
        """Thickness of a girder, all plies, mm."""
        return float(self.house.trusses.girder_plies * self.house.trusses.thickness)

    def height(self, distance: float) -> float:
        """The roof line above the plate, mm, at a distance from the outside, mm."""
        return self.house.roof.heel + distance * self.house.roof.slope

    def walls_on(self, plane: Plane) -> list[Wall]:
        """The walls that one roof plane rises from."""
        return self._lines.get(plane, [])

    def land(self, plane: Plane, t: float) -> Landing:
        """Find what lies under a truss that ends on the line of ``plane`` at ``t``.

        :raises NoBearing: where there is neither a wall nor a girder.
        """
        along, at, inward = plane
        for opening, girder in self.girders:
            if opening.covers(along, at, t):
                side = 1 if opening.inward == inward else -1
                return Landing(side * self.girder_width / 2, 0.0, girder=girder)
        low = 0 if along == "x" else 1
        for wall in self.walls_on(plane):
            first, last = sorted((wall.a[low], wall.b[low]))
            if first <= t <= last:
                # At the very end of a wall stands another wall's face: there is no eave for a tail.
                return Landing(0.0, float(self.house.roof.overhang) if first < t < last else 0.0, wall=wall.name)
        raise NoBearing((t, at) if along == "x" else (at, t))

    def land_corner(self, end: Plane, side: Plane) -> Landing:
        """Find what lies under a hip truss at the corner of a hip end's ``end`` and ``side`` lines.

        A corner on an opening lands on its girder, where that stands on this side of the line and an
        outside wall runs past; at a re-entrant corner the plate takes it, without a tail.
        """
        at = {end[0]: side[1], side[0]: end[1]}
        for opening, girder in self.girders:
            for plane, t in ((side, end[1]), (end, side[1])):
                if (opening.along, opening.at) != plane[:2] or t not in (opening.start, opening.stop):
                    continue
                past = opening.tails[0 if t == opening.start else 1]
                if past and opening.inward == plane[2]:
                    return Landing(self.girder_width / 2, 0.0, girder=girder)
                return Landing(0.0, 0.0, wall=self._corner_wall(at["x"], at["y"], (end, side)))
        wall = self._corner_wall(at["x"], at["y"], (end, side))
        return Landing(0.0, float(self.house.roof.overhang), wall=wall)

    def _corner_wall(self, x: float, y: float, planes: Iterable[Plane]) -> str:
        for plane in planes:
            for wall in self.walls_on(plane):
                if min(wall.a[0], wall.b[0]) <= x <= max(wall.a[0], wall.b[0]) and (
                    min(wall.a[1], wall.b[1]) <= y <= max(wall.a[1], wall.b[1])
                ):
                    return wall.name
        raise NoBearing((x, y))


def girder_draft(ground: Ground, opening: Opening, wing: str, station: float) -> Draft:
    """The girder of an opening: the roof's profile on the plate line, its thickness on the through wing's side."""
    spec = ground.house.roof
    line = opening.at + opening.inward * ground.girder_width / 2
    tails = [float(spec.overhang) if past else 0.0 for past in opening.tails]
    width = opening.stop - opening.start
    points = [(t - opening.start, d) for t, d in opening.profile]
    if tails[0]:
        points[0] = (-tails[0], -tails[0])
    if tails[1]:
        points[-1] = (width + tails[1], -tails[1])

    def spot(t: float) -> Point:
        return (t, line) if opening.along == "x" else (line, t)

    ends = tuple(
        DraftEnd(spot(t), tail=tail, wall=wall)
        for t, tail, wall in zip((opening.start, opening.stop), tails, opening.walls, strict=True)
    )
    peak = max(d for _t, d in opening.profile)
    legs = (
        Leg((opening.across, opening.start, 1), opening.at, 0, -tails[0], peak, 0.0, 1.0),
        Leg((opening.across, opening.stop, -1), opening.at, 0, -tails[1], peak, width, -1.0),
    )
    return Draft(
        "girder",
        wing,
        "",
        (opening.at,),
        station,
        (ends[0], ends[1]),
        tuple((run, ground.height(d)) for run, d in points),
        legs,
        plies=ground.house.trusses.girder_plies,
    )
