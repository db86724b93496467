"""Where roof braces go on one slope of a row, so that one is in tension whichever way the wind blows.

From hip or gable apex to apex. Where a row is long enough for two braces one after another at the least angle, a V of
them, or more than one: from the apexes down to the plate between. Where only one fits, a cross. On a shorter row what
the job sheet says. At 30° to 60° and half the span ``h`` that is from 1.16 h, and from 0.58 h. Common practice, no
source.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

Bearing = Literal["", "plate", "girder"]
"""What the lower end of a roof brace can be tied down to."""
INSIDE = 2.0
"""How far inside the level's range of angles the reference keeps its roof braces where it can, degrees."""
STEP = 50.0
"""A lower end that finds no bearing is tried so much further on, mm."""
EXACT = 1.0
"""Lengths are told apart no finer, mm."""


@dataclass(frozen=True, slots=True)
class RoofBrace:
    """One roof brace: where along the row its lower end and its top are, mm."""

    foot: float
    top: float


@dataclass(frozen=True, slots=True)
class Slope:
    """One slope of a row: where its full-height trusses stand along it, and what lies under a place on its eave, mm.

    ``half`` is half the span; ``least`` and ``most`` are the angles in plan to the trusses, degrees.
    """

    tops: tuple[float, ...]
    half: float
    least: float
    most: float
    bearing: Callable[[float], Bearing]

    def reach(self, angle: float) -> float:
        """How far along the row a brace at this angle runs from plate to ridge, mm."""
        return self.half * math.tan(math.radians(angle))

    @property
    def length(self) -> float:
        """From apex to apex, mm."""
        return self.tops[-1] - self.tops[0]

    @property
    def crossed(self) -> bool:
        """Whether the row is too short for a V."""
        return self.length < 2 * self.reach(self.least) - EXACT

    @property
    def short(self) -> bool:
        """Whether the row is too short for a cross."""
        return self.length < self.reach(self.least) - EXACT


def legs(slope: Slope) -> list[RoofBrace]:
    """Return the Vs or the cross of one slope; fewer braces where there is nothing that they could be tied down to."""
    if not slope.crossed:
        return list(_vs(slope))
    return [leg for leg in (_leg(slope, slope.tops[0], 1), _leg(slope, slope.tops[-1], -1)) if leg]


def _vs(slope: Slope) -> Iterator[RoofBrace]:
    """Vs side by side: each from a truss's top down to the plate, and up again to another's."""
    least, most = slope.reach(slope.least), slope.reach(max(slope.least, slope.most - INSIDE))
    count = max(1, math.ceil(slope.length / (2 * most) - EXACT / slope.length))
    ideal = [slope.tops[0] + slope.length * k / count for k in range(count + 1)]
    tops = [min(slope.tops, key=lambda top, at=at: abs(top - at)) for at in ideal]  # type: ignore[misc]
    for first, last in pairwise(tops):
        half = (last - first) / 2
        room = min(half - least, slope.reach(slope.most) - half)
        offs = [0.0, *(sign * k * STEP for k in range(1, int(max(room, 0.0) // STEP) + 1) for sign in (1, -1))]
        foot = _tied_down(slope, ((first + last) / 2 + off for off in offs))
        if foot is not None:
            yield from (RoofBrace(foot, first), RoofBrace(foot, last))


def _leg(slope: Slope, top: float, way: int) -> RoofBrace | None:
    """A brace from the top of a truss down past the others of the row, towards higher (1) or lower (-1) places."""
    least, most = slope.reach(slope.least), slope.reach(slope.most)
    wished = [slope.reach(min(slope.least + INSIDE, slope.most)), least]
    further = [least + k * STEP for k in range(int((most - least) // STEP) + 1)]
    reaches = [slope.length, *wished, *further] if slope.length >= wished[0] else [*wished, slope.length, *further]
    foot = _tied_down(slope, (top + way * reach for reach in reaches if least - EXACT <= reach <= most + EXACT))
    return None if foot is None else RoofBrace(foot, top)


def _tied_down(slope: Slope, feet: Iterable[float]) -> float | None:
    """The first place that is over a plate; else the first on a girder."""
    on_girder = None
    for foot in feet:
        bearing = slope.bearing(foot)
        if bearing == "plate":
            return foot
        if bearing == "girder" and on_girder is None:
            on_girder = foot
    return on_girder
