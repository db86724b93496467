"""From space to paper: looking at the roof from above at an angle, without perspective."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from trainer.plan import Point
from trainer.roof.model import Point3

LEAST_TILT, MOST_TILT = 8.0, 90.0
"""From nearly level to straight down, degrees."""


@dataclass(frozen=True)
class Turn:
    """A way of looking: ``yaw`` turns the house anticlockwise, ``tilt`` is the look downwards; degrees.

    ``middle`` is the place of the plan about which it turns. At tilt 90 and yaw 0 it shows the plan.
    """

    yaw: float = 30.0
    tilt: float = 32.0
    middle: Point = (0.0, 0.0)

    @cached_property
    def numbers(self) -> tuple[float, float, float, float, float, float]:
        """(cos yaw, sin yaw, sin tilt, cos tilt, middle x, middle y)."""
        yaw, tilt = math.radians(self.yaw), math.radians(self.tilt)
        return (math.cos(yaw), math.sin(yaw), math.sin(tilt), math.cos(tilt), *self.middle)

    def flat(self, place: Point3) -> Point:
        """Return where a place in space comes on the paper, mm from the middle."""
        c, s, down, up, mx, my = self.numbers
        x, y = place[0] - mx, place[1] - my
        return (x * c - y * s, (x * s + y * c) * down + place[2] * up)

    def all_flat(self, places: Iterable[Point3]) -> tuple[Point, ...]:
        """Return where many places come on the paper."""
        c, s, down, up, mx, my = self.numbers
        cd, sd = c * down, s * down
        ox, oy = mx * c - my * s, mx * sd + my * cd
        return tuple([(x * c - y * s - ox, x * sd + y * cd - oy + z * up) for x, y, z in places])

    def depth(self, place: Point3) -> float:
        """Return how far away a place is, mm from the middle, away from whoever looks."""
        c, s, down, up, mx, my = self.numbers
        return ((place[0] - mx) * s + (place[1] - my) * c) * up - place[2] * down

    @property
    def away(self) -> Point3:
        """The step in space that goes straight away from whoever looks."""
        c, s, down, up, *_middle = self.numbers
        return (s * up, c * up, -down)

    def turned(self, yaw: float, tilt: float) -> Turn:
        """Return it turned by so many degrees."""
        return Turn((self.yaw + yaw) % 360, min(MOST_TILT, max(LEAST_TILT, self.tilt + tilt)), self.middle)

    def sees(self, one: Point3, two: Point3, three: Point3) -> bool:
        """Whether one looks on the side of a face from which its corners run anticlockwise."""
        (ax, ay), (bx, by), (cx, cy) = self.flat(one), self.flat(two), self.flat(three)
        return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) > 0
