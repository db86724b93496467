"""Extensions that run on over another body's trusses, and rafters where a hip end comes out above a lower ridge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from trainer.layout.draft import Draft, DraftCrossing, LooseRafter
from trainer.layout.ground import DraftGround
from trainer.layout.hip_end import Emerging, HipEnd
from trainer.layout.model import Leg
from trainer.layout.slopes import height_on
from trainer.terms import TrussKind

UNDER: frozenset[TrussKind] = frozenset({"girder", "truncated_girder", "truncated", "saddle"})
"""What an extension may run on over."""
SAME = 1.0
"""Heights that differ by no more are the same, mm."""


@dataclass(frozen=True)
class RunOn:
    """One hip end, and the trusses ``along`` its wall that its extensions may meet."""

    ground: DraftGround
    end: HipEnd
    along: tuple[Draft, ...]

    def crossings(self, known: set[tuple[int, int]]) -> Iterator[DraftCrossing]:
        """Where extensions cross trusses that are not their own wing's; ``known`` pairs are left out."""
        for truss in (*self.end.hips, *self.end.jacks):
            reach = truss.legs[0].low + (truss.top[-1][0] - truss.top[0][0]) / abs(truss.legs[0].per_h)
            lean, spot = truss.legs[0].lean, truss.legs[0].spot
            for s, under in self._under(self.end.centre, reach):
                place = spot + lean * s
                if (id(truss), id(under)) not in known and self._level(under, s, place):
                    yield DraftCrossing(truss, under, self.end.point(s, place - self.end.low), "extension")

    def rafters(self) -> Iterator[LooseRafter]:
        """Rafters where extensions can't run; the trusses under each are given what roof it holds up."""
        for line in self.end.emerging:
            bearers = [(s, t) for s, t in self._under(line.start, line.stop) if self._level(t, s, _at(line, s))]
            if not bearers:
                middle = (line.start + line.stop) / 2
                near = self._under(self.end.centre, float("inf"))
                bearers = sorted(near, key=lambda pair: abs(pair[0] - middle))[:1]
            if not bearers:
                continue
            bounds = [line.start, *(s for s, _ in bearers[1:]), line.stop]
            for (low, high), (s, under) in zip(pairwise(bounds), bearers, strict=True):
                run = abs(_at(line, s) - self._place(under))
                under.legs += (Leg(self.end.end_plane, line.spot, line.lean, low, high, run, 0.0),)
                if line.lean:
                    side = self.end.side_plane(line.lean < 0)
                    under.legs += (Leg(side, self.end.end, self.end.lean, low, high, run, 0.0),)
            ends = (self.end.point(s, _at(line, s) - self.end.low) for s in (line.start, line.stop))
            yield LooseRafter(bearers[0][1], *ends)

    def _under(self, low: float, high: float) -> list[tuple[float, Draft]]:
        """Trusses between two distances in from the end's wall, nearest first."""
        return [(s, truss) for s, truss in self._by_distance if low < s <= high]

    @cached_property
    def _by_distance(self) -> list[tuple[float, Draft]]:
        """Each of the trusses along, with how far in from the end's wall it stands; nearest first."""
        along = 0 if self.end.axis == "x" else 1
        found = [
            (((t.legs[0].spot if t.legs else t.ends[0].at[along]) - self.end.end) * self.end.step, t)
            for t in self.along
        ]
        return sorted(found, key=lambda pair: pair[0])

    def _place(self, truss: Draft) -> float:
        return truss.ends[0].at[self._low]

    @property
    def _low(self) -> int:
        return 1 if self.end.axis == "x" else 0

    def _level(self, under: Draft, s: float, place: float) -> bool:
        """Whether a truss's roof line at a place is as high as the end's plane is there."""
        first, last = (end.at[self._low] for end in under.ends)
        if not min(first, last) < place < max(first, last):
            return False
        z = height_on(under.top, abs(place - first))
        return z is not None and abs(z - self.ground.height(s)) <= SAME


def _at(line: Emerging, s: float) -> float:
    return line.spot + line.lean * s


def trusses_along(drafts: Iterable[Draft], end: HipEnd) -> tuple[Draft, ...]:
    """Those that stand along a hip end's wall, but for what carries it and its own wing's girder."""
    along = 0 if end.axis == "x" else 1
    return tuple(
        t for t in drafts
        if t.kind in UNDER and t is not end.carrier and not (t.kind == "girder" and t.wing == end.wing)
        and t.ends[0].at[along] == t.ends[1].at[along]
    )  # fmt: skip
