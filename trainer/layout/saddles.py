"""Saddle trusses: where a wing's roof runs on over another wing's trusses, and the trimmers they ask for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from trainer.layout.bodies import Body
from trainer.layout.draft import Draft, DraftCrossing, DraftEnd
from trainer.layout.ground import DraftGround, NoBearing
from trainer.layout.model import Part
from trainer.layout.slopes import height_on, legs_of
from trainer.layout.stations import CLEAR
from trainer.layout.wings import Opening
from trainer.plan import Point
from trainer.roof.rects import Profile, RoofRect, profile

ALONG = ("girder", "truncated_girder", "truncated", "standard")
"""Trusses that run straight across their wing or opening: where ridges run the same way, along a saddle."""


SAME = 0.5
"""Heights that differ by no more are the same, mm."""


def _together(mine: Profile, whole: Profile) -> Iterator[tuple[float, float]]:
    """(place, how much the whole roof is higher) at every bend of two lines; where they part, the whole one bends."""
    places = sorted({t for t, _ in (*mine, *whole)})
    for t in places:
        yield t, (height_on(whole, t) or 0.0) - (height_on(mine, t) or 0.0)


def _longest_shared(mine: Profile, whole: Profile) -> tuple[float, float]:
    """From where to where two lines are one for longest; a lower wing's roof may be seen again beyond another's."""
    runs: list[list[float]] = [[]]
    for t, height in _together(mine, whole):
        if height <= SAME:
            runs[-1].append(t)
        elif runs[-1]:
            runs.append([])
    longest = max(runs, key=lambda run: run[-1] - run[0] if run else 0.0)
    return (longest[0], longest[-1]) if longest else (0.0, 0.0)


def _sloping(line: Profile) -> Profile | None:
    """A roof line without level ends, which hold no slope up; None where nothing else is left."""
    while len(line) > 1 and line[0][1] == line[1][1]:
        line = line[1:]
    while len(line) > 1 and line[-1][1] == line[-2][1]:
        line = line[:-1]
    return line if len(line) > 1 else None


@dataclass
class Under:
    """One truss under a saddle's line: where along the line it is crossed."""

    t: float
    truss: Draft


@dataclass
class SaddleBuilder:
    """Drafts the saddles that one opening asks for on one side, over ``bodies``: ``away`` is the way there.

    ``below`` are all trusses that it may lie over, or come up to.
    """

    ground: DraftGround
    rects: tuple[RoofRect, ...]
    opening: Opening
    bodies: tuple[Body, ...]
    away: int
    below: list[Draft]
    wing: str
    row: str
    station_of_line: float
    group: float
    crossings: list[DraftCrossing] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    trimmers_before: int = 0

    def __post_init__(self) -> None:
        across = 1 if self.opening.along == "x" else 0
        lines = ((truss, *truss.line) for truss in self.below)
        through = {body.wing for body in self.bodies}
        self._others = [r for r in self.rects if r.axis != self.opening.wing.axis and r not in through]
        self._crossing_lines = [(truss, p, q) for truss, p, q in lines if p[across] != q[across]]

    def draft(self) -> list[Draft]:
        """One saddle a spacing inward from the plate line, while there is a base left and this body lasts.

        :raises NoBearing: where no truss lies below one: the valleys run out past the trusses of a gable.
        """
        found = []
        for d in self._lines():
            line = self.opening.at + self.away * d
            unders = self._unders(line)
            if not unders:
                raise NoBearing(self._spot((self.opening.start + self.opening.stop) / 2, line))
            roof = self._seen(d)
            if roof:
                found.append(self._saddle(d, roof, unders))
        return found

    def _seen(self, d: float) -> Profile | None:
        """The whole roof along a saddle, as far as its own wing's is the highest; None where it is nowhere."""
        o = self.opening
        line, (start, stop) = o.at + self.away * d, self._base(d)
        found = whole = profile(self.rects, o.along, line, start, stop)
        if self._others:
            mine = profile([r for r in self.rects if r not in self._others], o.along, line, start, stop)
            # Another wing's roof is higher over part of it: the two meet in a valley, and that one carries the rest.
            first, last = _longest_shared(mine, whole)
            if last <= first:
                return None
            if mine != whole:
                found = profile(self.rects, o.along, line, first, last)
        return self._over_bodies(found, line) if o.bitten else found

    def _over_bodies(self, seen: Profile, line: float) -> Profile | None:
        """As much of a saddle's roof line as is higher than that of the bodies under it, without level ends."""
        o, own = self.opening, [body.left_of for body in self.bodies]
        spots = list(_together(profile(own, o.along, line, seen[0][0], seen[-1][0]), seen))
        higher = [i for i, (_t, height) in enumerate(spots) if height > SAME]
        if not higher:
            return None
        start, stop = spots[max(higher[0] - 1, 0)][0], spots[min(higher[-1] + 1, len(spots) - 1)][0]
        return _sloping(profile(self.rects, o.along, line, start, stop))

    def _base(self, d: float) -> tuple[float, float]:
        """From where to where along its line a saddle may lie at ``d`` in from the opening: up to a higher wall."""
        o = self.opening
        first, last = (0.0 if at_wall else d for at_wall in o.at_wall)
        low, high = self._limits(o.at + self.away * d)
        return max(o.start + first, low), min(o.stop - last, high)

    def _limits(self, line: float) -> tuple[float, float]:
        """From where to where its bodies lie along a line.

        Where the opening runs on past them, the girder along the rest takes the saddles' high ends.
        """
        o, across = self.opening, 1 if self.opening.along == "x" else 0
        bodies = self.bodies
        if len(bodies) > 1:
            bodies = tuple(b for b in bodies if b.rect[across] <= line <= b.rect[across + 2]) or bodies
        low, high = min(b.rect[1 - across] for b in bodies), max(b.rect[3 - across] for b in bodies)
        half = self.ground.girder_width / 2
        return (low + half if low > o.start else o.start), (high - half if high < o.stop else o.stop)

    def _lines(self) -> Iterator[float]:
        """How far in from the opening each saddle lies: by the spacing, up to what stands along them."""
        spec, o = self.ground.house.trusses, self.opening
        across = 1 if o.along == "x" else 0
        room = max(body.rect[across + 2] - body.rect[across] for body in self.bodies)
        d = float(spec.spacing)
        ahead = sorted(self._all_along())
        if self._lies_along():
            d -= spec.thickness
        least = max(spec.smallest_saddle, spec.thickness)  # no saddle is shorter than it is thick
        while (base := self._base(d))[1] - base[0] > least and d < room:
            stop = next((along[:2] for along in ahead if along[2] < base[1] and base[0] < along[3]), None)
            face = stop[1] - CLEAR * spec.thickness if stop else room
            if stop and d > face:
                if stop[0] - (d - spec.spacing) > spec.spacing and face > d - spec.spacing:
                    yield face
                    d = face
            else:
                yield d
            d += spec.spacing

    def _all_along(self) -> Iterator[tuple[float, float, float, float]]:
        """(centre, near face, from, to) of each truss of this body that runs along the saddles."""
        o, thickness = self.opening, self.ground.house.trusses.thickness
        low, across = (0, 1) if o.along == "x" else (1, 0)
        for truss in self.below:
            p, q = truss.ends[0].at, truss.ends[1].at
            away = (p[across] - o.at) * self.away
            if truss.kind not in ALONG or p[across] != q[across] or away <= self.ground.girder_width:
                continue
            first, last = sorted((p[low], q[low]))
            if first < o.stop and o.start < last:
                yield away, away - truss.plies * thickness / 2, first, last

    def _lies_along(self) -> bool:
        """Whether a saddle would lie along a jack or creeper under it: then all stand a thickness nearer."""
        spec, o = self.ground.house.trusses, self.opening
        low, across = (0, 1) if o.along == "x" else (1, 0)
        for truss in self.below:
            p, q = truss.ends[0].at, truss.ends[1].at
            d = (p[across] - o.at) * self.away
            if truss.kind not in ("jack", "creeper") or p[across] != q[across] or d <= 0:
                continue
            off = abs(d / spec.spacing - round(d / spec.spacing)) * spec.spacing
            first, last = self._base(d) if off < spec.thickness else (0.0, 0.0)
            if first < last:
                ends = sorted((p[low], q[low]))
                if min(ends[1], last) - max(ends[0], first) > spec.thickness:
                    return True
        return False

    def _saddle(self, d: float, roof: Profile, unders: list[Under]) -> Draft:
        o, line = self.opening, self.opening.at + self.away * d
        start, stop = roof[0][0], roof[-1][0]
        top = tuple((t - start, self.ground.height(height)) for t, height in roof)
        legs = tuple(legs_of(roof, o.across, line, start, 1))
        crossed = [under for under in unders if start <= under.t <= stop]
        ends = tuple(self._end(t, line, crossed, unders) for t in (start, stop))
        saddle = Draft(
            "saddle", self.wing, self.row, (self.group, 0.0, d), self.station_of_line + d, (ends[0], ends[1]), top, legs
        )
        self._seat(saddle, line, crossed, unders)
        return saddle

    def _spot(self, t: float, line: float) -> Point:
        return (t, line) if self.opening.along == "x" else (line, t)

    def _unders(self, line: float) -> list[Under]:
        """Every truss of the body that meets the line, in order along it; hips first where two meet at one place."""
        low, across = (0, 1) if self.opening.along == "x" else (1, 0)
        found = []
        for truss, p, q in self._crossing_lines:
            if not min(p[across], q[across]) <= line <= max(p[across], q[across]):
                continue
            t = p[low] + (q[low] - p[low]) * (line - p[across]) / (q[across] - p[across])
            found.append(Under(round(t, 3), truss))
        return sorted(found, key=lambda under: (under.t, under.truss.kind != "hip"))

    def _end(self, t: float, line: float, crossed: list[Under], unders: list[Under]) -> DraftEnd:
        at = self._spot(t, line)
        nearest = min(crossed, key=lambda under: abs(under.t - t), default=None)
        if len({under.t for under in crossed}) > 1 and nearest and abs(nearest.t - t) <= self._overrun:
            return DraftEnd(at, carrier=nearest.truss)
        return DraftEnd(at, trimmer=self._trimmer(t, line, unders))

    @property
    def _overrun(self) -> float:
        return float(self.ground.house.trusses.saddle_overrun)

    def _bay(self, t: float, unders: list[Under]) -> tuple[Under, Under] | None:
        """The two trusses on either side of ``t``."""
        before = [under for under in unders if under.t < t]
        after = [under for under in unders if under.t >= t]
        if before and after:
            return before[-1], after[0]
        near = before[-2:] or after[:2]
        return (near[0], near[1]) if len(near) > 1 else None

    def _trimmer(self, t: float, line: float, unders: list[Under]) -> str:
        bay = self._bay(t, unders)
        first, last = (self._spot(bay[0].t, line), self._spot(bay[1].t, line)) if bay else (self._spot(t, line),) * 2
        for part in self.parts:
            if (part.start, part.finish) == (first, last):
                return part.name
        name = f"trimmer {self.trimmers_before + len(self.parts) + 1}"
        self.parts.append(Part("trimmer", "", first, last, name))
        return name

    def _seat(self, saddle: Draft, line: float, crossed: list[Under], unders: list[Under]) -> None:
        """Note what the saddle sits on: each truss it crosses, and those that its trimmers span between."""
        for under in crossed:
            saddle.sits_on.append(under.truss)
            self.crossings.append(DraftCrossing(saddle, under.truss, self._spot(under.t, line), "saddle"))
        low = 0 if self.opening.along == "x" else 1
        for end in saddle.ends:
            if end.trimmer:
                bay = self._bay(end.at[low], unders)
                saddle.sits_on += [under.truss for under in bay or ()]
