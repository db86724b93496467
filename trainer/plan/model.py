"""A house's plate plan: the outline of the top plates, and its walls.

Whole millimetres; x to the right, y up; the outline runs anticlockwise along the outside face of the
plates, so that the inside of the house lies to the left of every wall.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

Point = tuple[float, float]
"""A place on the plan, (x, y), millimetres."""


def wall_name(index: int) -> str:
    """Name of the wall that starts at corner ``index``: A … Z, AA, AB …"""
    name = ""
    index += 1
    while index:
        index, letter = divmod(index - 1, 26)
        name = chr(ord("A") + letter) + name
    return name


@dataclass(frozen=True, slots=True)
class Wall:
    """One edge of the outline, from corner ``a`` to corner ``b``."""

    index: int
    name: str
    a: Point
    b: Point
    gable: bool
    against: bool = False
    """Whether it is the face of a higher wall: no plate and no eave, and a ledger where trusses run square to it."""

    step: bool = False
    """Whether it is no wall, but where a part of the roof ends under another one's gable."""

    @property
    def eave(self) -> bool:
        """Whether a roof plane rises from it."""
        return not (self.gable or self.against or self.step)

    @property
    def length(self) -> float:
        """Length along the outside of the plates, mm."""
        return abs(self.b[0] - self.a[0]) + abs(self.b[1] - self.a[1])

    @property
    def along(self) -> tuple[int, int]:
        """Unit step from ``a`` towards ``b``."""
        return (_sign(self.b[0] - self.a[0]), _sign(self.b[1] - self.a[1]))

    @property
    def inward(self) -> tuple[int, int]:
        """Unit step from the wall into the house."""
        dx, dy = self.along
        return (-dy, dx)

    def at(self, distance: float) -> Point:
        """Return the point ``distance`` mm from the wall's first corner, along its outside face."""
        dx, dy = self.along
        return (self.a[0] + dx * distance, self.a[1] + dy * distance)

    def holds(self, other: Wall) -> bool:
        """Whether another wall, or a piece of this one, lies on it and faces the same way."""
        on_line = self.along == other.along and self.at(self.run(other.a)) == other.a
        return on_line and self.run(other.a) >= 0 and self.run(other.b) <= self.length

    def run(self, place: Point) -> float:
        """Return how far along it a place lies, mm from its first corner."""
        dx, dy = self.along
        return (place[0] - self.a[0]) * dx + (place[1] - self.a[1]) * dy


@dataclass(frozen=True, slots=True)
class Beam:
    """The verandah beam on ``wall``, ``low`` to ``high`` mm from its first corner.

    ``posts`` are where its posts stand by the drawing, mm along the wall; None: as the rules put them.
    """

    wall: str
    low: float
    high: float
    posts: tuple[float, ...] | None = None

    def holds(self, wall: Wall, place: Point) -> bool:
        """Whether a place on a wall is on the beam."""
        return wall.name == self.wall and self.low <= wall.run(place) <= self.high


@dataclass(frozen=True, slots=True)
class DutchGable:
    """A small gable above the hip end on ``wall``, mm.

    Its girder's centre line stands ``at`` in from the outside of the wall; the side planes run on ``verge`` past that.
    """

    wall: str
    at: float
    verge: float

    @property
    def verge_at(self) -> float:
        """How far in from the outside of the wall the small verge ends, mm."""
        return self.at - self.verge


def _sign(value: float) -> int:
    return (value > 0) - (value < 0)


@dataclass(frozen=True)
class PlatePlan:
    """A plate plan that has passed :func:`trainer.plan.plan_faults`."""

    outline: tuple[tuple[int, int], ...]
    plate_width: int
    gables: frozenset[str] = frozenset()
    internal_walls: tuple[tuple[tuple[int, int], ...], ...] = ()
    names: tuple[str, ...] = ()
    """The walls' names where they are not A, B, … in order: on a line straightened past several plates."""
    against: frozenset[str] = frozenset()
    """The walls that are the face of a higher wall."""
    steps: frozenset[str] = frozenset()
    """Of one part of a roof: where it ends under another one's gable; see :mod:`trainer.plan.roof_parts`."""
    dutch_gables: tuple[DutchGable, ...] = ()
    beams: tuple[Beam, ...] = ()
    """Verandah beams, which trusses bear on as on plates."""
    height: float = 2400.0
    """How high the walls are, from the slab to the top of the plates, mm; a look only."""

    @cached_property
    def walls(self) -> tuple[Wall, ...]:
        """The walls A, B, … in order."""
        corners = self.outline
        return tuple(
            Wall(
                i, name, a, corners[(i + 1) % len(corners)], name in self.gables, name in self.against,
                name in self.steps,
            )
            for i, (name, a) in enumerate(zip(self.names or map(wall_name, range(len(corners))), corners, strict=True))
        )  # fmt: skip

    @cached_property
    def by_name(self) -> dict[str, Wall]:
        """The walls by name."""
        return {wall.name: wall for wall in self.walls}

    def convex(self, corner: int) -> bool:
        """Whether the corner at the start of wall ``corner`` is an outside corner."""
        before, after = self.walls[corner - 1].along, self.walls[corner].along
        return before[0] * after[1] - before[1] * after[0] > 0

    @property
    def bounds(self) -> tuple[int, int, int, int]:
        """(least x, least y, greatest x, greatest y), mm."""
        xs, ys = zip(*self.outline, strict=True)
        return min(xs), min(ys), max(xs), max(ys)
