"""What a truss can land on: the plates and the girders of openings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from itertools import pairwise

from trainer.layout.draft import Draft, DraftEnd
from trainer.layout.model import House, Plane, Refusal
from trainer.layout.slopes import height_on, legs_of
from trainer.layout.wings import Opening
from trainer.plan import Plate, Point, Wall
from trainer.roof.rects import Axis, Profile
from trainer.words import _


class NoBearing(Exception):  # noqa: N818 - becomes a refusal
    """Raised where a truss would end in mid-air; carries the refusal."""

    def __init__(self, at: Point) -> None:
        super().__init__("no bearing")
        self.refusal = Refusal(
            _("an end with nothing under it"),
            at,
            _(
                "A truss that belongs here would have no wall or girder to land on. Bring walls that are close here "
                "into one line, or set them further apart."
            ),
        )


@dataclass(frozen=True, slots=True)
class Landing:
    """Where a truss lands: ``offset`` mm inside the line of the walls, on a wall or a girder; ``tail`` past it."""

    offset: float
    tail: float
    wall: str = ""
    girder: Draft | None = None
    ledger: bool = False

    @property
    def rank(self) -> int:
        """Which end is ``from``: one on a plate before one on a girder, and that before one on a ledger."""
        return 2 if self.ledger else 1 if self.girder else 0

    @property
    def set_back(self) -> bool:
        """Whether a wall stands back here under a straight fascia."""
        return bool(self.wall and self.offset)

    @property
    def outer(self) -> float:
        """Where the roof line starts: mm inside the line of the walls (negative along a tail)."""
        return self.offset - self.tail

    def end(self, at: Point) -> DraftEnd:
        """The end of a truss that lands here, at the plan point ``at``."""
        if self.girder:
            return DraftEnd(at, carrier=self.girder)
        return DraftEnd(at, tail=self.tail, wall=self.wall, ledger=self.ledger)


@dataclass
class DraftGround:
    """A house's plates, and the girders of its openings once they are drafted."""

    house: House
    girders: list[tuple[Opening, Draft]] = field(default_factory=list)
    _lines: dict[Plane, list[Wall]] = field(default_factory=dict)
    _facing: dict[Plane, list[tuple[float, Wall]]] = field(default_factory=dict)
    girder_width: float = field(init=False)
    """Thickness of a girder, all plies, mm."""

    def __post_init__(self) -> None:
        self.girder_width = float(self.house.trusses.girder_plies * self.house.trusses.thickness)
        self._heel, self._slope = self.house.roof.heel, self.house.roof.slope
        self._under = self.house.straightened.plates
        self._stepped = {name for name, plates in self._under.items() if len(plates) > 1}
        self._plates = [_plate_line(wall) for wall in self.house.plan.walls]
        for wall in self.house.roof_plan.walls:
            along: Axis = "x" if wall.inward[1] else "y"
            across = 1 if along == "x" else 0
            self._lines.setdefault((along, float(wall.a[across]), wall.inward[across]), []).append(wall)

    def height(self, distance: float) -> float:
        """The roof line above the plate, mm, at a distance from the outside, mm."""
        return self._heel + distance * self._slope

    def walls_on(self, plane: Plane) -> list[Wall]:
        """The walls that one roof plane rises from."""
        return self._lines.get(plane, [])

    def eave(self, plane: Plane, t: float) -> float:
        """How far the eave stands out from a plane's wall at ``t``: half way at most to a wall that looks at it."""
        low, overhang = 0 if plane[0] == "x" else 1, float(self.house.roof.overhang)
        for gap, wall in self._looking_at(plane):
            if min(wall.a[low], wall.b[low]) <= t <= max(wall.a[low], wall.b[low]):
                overhang = min(overhang, gap / 2)
        return overhang

    def _looking_at(self, plane: Plane) -> list[tuple[float, Wall]]:
        """(gap, wall) of the walls that look at a plane's walls over less than two overhangs."""
        found = self._facing.get(plane)
        if found is None:
            along, at, inward = plane
            found = self._facing[plane] = [
                ((at - line) * inward, wall)
                for (axis, line, way), walls in self._lines.items()
                if axis == along and way == -inward and 0 < (at - line) * inward < 2 * self.house.roof.overhang
                for wall in walls
            ]
        return found

    def land(self, plane: Plane, t: float) -> Landing:
        """Find what lies under a truss that ends on the line of ``plane`` at ``t``.

        :raises NoBearing: where there is neither a wall nor a girder.
        """
        along, at, inward = plane
        for opening, girder in self.girders:
            if opening.along != along or not opening.start < t < opening.stop:
                continue
            if opening.at == at and self._holds(girder, along, t):
                side = 1 if opening.inward == inward else -1
                return Landing(side * self.girder_width / 2, 0.0, girder=girder)
            if opening.bites(along, at, inward, t):
                return Landing(abs(opening.at - at) - self.girder_width / 2, 0.0, girder=girder)
        low = 0 if along == "x" else 1
        for wall in self.walls_on(plane):
            plate = self._plate(wall, t)
            if plate and wall.against:
                return Landing(0.0, 0.0, wall=plate.wall, ledger=True)
            if plate:
                tail = self.eave(plane, t) + plate.depth if self._has_eave(wall, low, t) else 0.0
                return Landing(plate.depth, tail, wall=plate.wall)
        raise NoBearing((t, at) if along == "x" else (at, t))

    def _has_eave(self, wall: Wall, low: int, t: float) -> bool:
        """Whether a truss at ``t`` along a wall has an eave for its tail.

        It has none at the very end of the wall, where another wall's face stands, unless that goes on up above it.
        """
        half, near = self.house.trusses.thickness / 2, None
        if abs(wall.a[low] - t) <= half:
            near = wall.index - 1
        elif abs(wall.b[low] - t) <= half:
            near = (wall.index + 1) % len(self.house.roof_plan.walls)
        return near is None or not self.house.roof_plan.walls[near].eave

    def _holds(self, girder: Draft, along: Axis, t: float) -> bool:
        """Whether a girder reaches ``t``: where its wall stands back it begins further in than its opening."""
        first, last = _reach(girder, along)
        return first < t < last

    def _plate(self, wall: Wall, t: float) -> Plate | None:
        """The plate at ``t`` under a wall of the roof's outline; at a step the one that stands back."""
        plates = self._under[wall.name]
        if len(plates) == 1:
            return plates[0] if plates[0].low <= t <= plates[0].high else None
        return max((p for p in plates if p.low <= t <= p.high), key=lambda p: p.depth, default=None)

    def from_corner(self, along: Axis, at: float, t: float) -> bool:
        """Whether a girder from the corner of a higher wall stands at ``t`` beside the line ``at``."""
        found = (opening for opening, _girder in self.girders if opening.round_corner)
        return any(o.along == along and o.at == at and o.start <= t <= o.stop for o in found)

    def off_plates(self, plane: Plane, t: float) -> bool:
        """Whether the eave is so wide at ``t`` that no plate lies under it: at a corner that stands back."""
        low = 0 if plane[0] == "x" else 1
        walls = self.walls_on(plane)
        if any(self._plate(wall, t) for wall in walls) or any(o.bites(*plane, t) for o, _girder in self.girders):
            return False
        for opening, girder in self.girders:
            if opening.covers(plane[0], plane[1], t):
                return not self._holds(girder, plane[0], t)
        return any(min(w.a[low], w.b[low]) <= t <= max(w.a[low], w.b[low]) for w in walls)

    def land_girder(self, plane: Plane, at: float, line: float, past: bool) -> Landing:
        """Find what bears the end of an opening's girder, which stands at ``line`` beside the walls' line ``at``.

        Where two openings share a corner, the girder drafted first takes the bearing there, and carries the other.
        """
        for opening, girder in self.girders:
            if opening.covers(plane[0], plane[1], line) and self._holds(girder, plane[0], line):
                side = 1 if opening.inward == plane[2] else -1
                return Landing(side * self.girder_width / 2, 0.0, girder=girder)
        landing = self.land(plane, line if past else at)
        return landing if past else replace(landing, tail=0.0)

    def clear(self, planes: Iterable[Plane], t: float, width: float) -> float:
        """Where a truss that ends on the lines of ``planes`` at ``t`` touches no girder's end, nor lies on a return."""
        planes = tuple(planes)
        lines = {plane[:2] for plane in planes}
        for opening, girder in self.girders:
            if (opening.along, opening.at) not in lines:
                continue
            for end, way, at_wall in zip(_reach(girder, opening.along), (-1, 1), opening.at_wall, strict=True):
                if (opening.round_corner or not at_wall) and abs(t - end) < width / 2:
                    return end + way * width / 2
        walls = (wall for plane in planes for wall in self.walls_on(plane)) if self._stepped else ()
        for wall in (wall for wall in walls if wall.name in self._stepped):
            for a, b in pairwise(self._under[wall.name]):
                back = 1 if b.depth > a.depth else -1
                over = (t - a.high) * back
                if a.depth != b.depth and -width / 2 - self.house.plan.plate_width < over < width / 2:
                    return a.high + back * width / 2
        return t

    def land_corner(self, end: Plane, side: Plane) -> Landing:
        """Find what lies under a hip truss at the corner of a hip end's ``end`` and ``side`` lines.

        A corner on an opening lands on its girder, where that stands on this side of the line and an
        outside wall runs past; at a re-entrant corner the plate takes it, without a tail.
        """
        at = {end[0]: side[1], side[0]: end[1]}
        for plane, t in ((side, end[1]), (end, side[1])):
            for opening, girder in self.girders:
                if opening.covers(plane[0], plane[1], t) and opening.inward == plane[2]:
                    return Landing(self.girder_width / 2, 0.0, girder=girder)  # where one girder hangs on another
        for opening, girder in self.girders:
            for plane, t in ((side, end[1]), (end, side[1])):
                if (opening.along, opening.at) != plane[:2] or t not in (opening.start, opening.stop):
                    continue
                first = t == opening.start
                past = opening.tails[0 if first else 1]
                depth = abs(_reach(girder, opening.along)[0 if first else 1] - t)
                if past and depth:
                    back = self._outside_corner(end, side)
                    return Landing(back.offset, 0.0, wall=back.wall)
                if opening.inward == plane[2]:
                    return Landing(self.girder_width / 2, 0.0, girder=girder)
                return Landing(0.0, 0.0, wall=self._corner_wall(at["x"], at["y"], (end, side)))
        return self._outside_corner(end, side)

    def _corner_wall(self, x: float, y: float, planes: Iterable[Plane]) -> str:
        for plane in planes:
            t, across = (x, y) if plane[0] == "x" else (y, x)
            for wall in self.walls_on(plane) if across == plane[1] else ():
                plate = self._plate(wall, t)
                if plate:
                    return plate.wall
        raise NoBearing((x, y))

    def _outside_corner(self, end: Plane, side: Plane) -> Landing:
        """Where a hip crosses a plate: at the corner, or further in where walls stand back."""
        across_x, across_y = (side, end) if end[0] == "x" else (end, side)
        corner, way = (across_x[1], across_y[1]), (across_x[2], across_y[2])
        crossed = []
        for across, line, inward, first, last, name in self._plates:
            if inward != way[across]:
                continue
            offset = (line - corner[across]) * inward
            if offset >= 0 and first <= corner[1 - across] + way[1 - across] * offset <= last:
                crossed.append((offset, (end[0] == "x") != (across == 1), name))
        if not crossed:
            raise NoBearing(corner)
        offset, _side, name = min(crossed)
        eave = min(self.eave(plane, t) for plane, at in ((end, side), (side, end)) for t in (at[1], at[1] - at[2]))
        return Landing(offset, eave + offset, wall=name)


def _reach(girder: Draft, along: Axis) -> tuple[float, float]:
    """From where to where a girder goes along its opening's line."""
    low = 0 if along == "x" else 1
    a, b = girder.ends[0].at[low], girder.ends[1].at[low]
    return min(a, b), max(a, b)


def _plate_line(wall: Wall) -> tuple[int, float, int, float, float, str]:
    """(axis across it, where on that, which way is inward, from where to where along it, name) of a wall's plate."""
    across = 0 if wall.inward[0] else 1
    ends = wall.a[1 - across], wall.b[1 - across]
    return across, wall.a[across], wall.inward[across], min(ends), max(ends), wall.name


def _height(line: Profile, t: float) -> float:
    """Height of a roof line at ``t``; beyond its ends, by half a girder at most, it falls on."""
    found = height_on(line, t)
    if found is not None:
        return found
    end, height = line[0] if t < line[0][0] else line[-1]
    return height - abs(t - end)


def girder_draft(ground: DraftGround, opening: Opening, wing: str, station: float) -> Draft:
    """The girder of an opening: the roof's profile on the plate line, its thickness on the through wing's side.

    Where half a wing frames in, it hangs on the ledger of the higher wall at its high end, which is its ``to``.
    """
    line = opening.at + opening.inward * ground.girder_width / 2
    sides: tuple[tuple[Plane, bool], ...] = (
        ((opening.across, opening.start, 1), opening.tails[0]),
        ((opening.across, opening.stop, -1), opening.tails[1]),
    )
    landings = [ground.land_girder(plane, opening.at, line, past) for plane, past in sides]
    first, last = landings
    start, stop = opening.start + first.offset, opening.stop - last.offset
    low, high = (_height(opening.profile, t) for t in (start, stop))
    roof = (
        (start, low) if first.girder or first.ledger else (opening.start + first.outer, first.outer),
        *(
            bend
            for bend in opening.profile[1:-1]
            if not (first.girder and bend[0] <= start) and not (last.girder and bend[0] >= stop)
        ),
        (stop, high) if last.girder or last.ledger else (opening.stop - last.outer, last.outer),
    )

    def spot(t: float) -> Point:
        return (t, line) if opening.along == "x" else (line, t)

    begin, way = (stop, -1) if first.ledger else (start, 1)
    ends = [landing.end(spot(t)) for landing, t in zip(landings, (start, stop), strict=True)][::way]
    return Draft(
        "girder",
        wing,
        "",
        (opening.at,),
        station,
        (ends[0], ends[1]),
        tuple((way * (t - begin), ground.height(d)) for t, d in roof[::way]),
        tuple(legs_of(roof, opening.across, opening.at, begin, way)),
        plies=ground.house.trusses.girder_plies,
    )
