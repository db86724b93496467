"""A house as it is drawn so far: corners, what each wall is, and the rest of its level as a file would hold it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any, Literal

from trainer.plan import wall_name
from trainer.words import _

Corner = tuple[int, int]
"""A place on the plan, whole mm."""
Stretch = tuple[int, int]
"""From where to where along a wall, mm from its first corner."""
Kind = Literal["eave", "gable", "dutch gable", "beam", "against"]
KINDS: tuple[Kind, ...] = ("eave", "gable", "dutch gable", "beam", "against")
Values = Mapping[str, Any]
FURTHEST, MOST_CORNERS = 200_000, 500
"""As far from nothing as a level file has corners, mm, and as many of them."""


class CannotDraw(Exception):  # noqa: N818 - it is an answer, not a fault of the program
    """Raised where nobody could do what was asked for; says in plain words what to do instead."""


@dataclass(frozen=True, slots=True)
class WallKind:
    """What a wall is; an eave where nothing is said.

    ``dutch`` is where the girder of a dutch gable stands and how far its verge stands out, mm, None where the level
    leaves the verge to its default. A beam runs over the whole wall where it has no ``stretch``.
    """

    gable: bool = False
    against: bool = False
    dutch: tuple[int, int | None] | None = None
    beam: bool = False
    stretch: Stretch | None = None
    posts: tuple[int, ...] | None = None

    @property
    def kind(self) -> Kind:
        """The kind in one word; that of a dutch gable over a beam is the gable's."""
        said: tuple[tuple[object, Kind], ...] = (
            (self.gable, "gable"), (self.against, "against"), (self.dutch, "dutch gable"), (self.beam, "beam"),
        )  # fmt: skip
        return next((kind for there, kind in said if there), "eave")


EAVE = WallKind()


@dataclass(frozen=True)
class Drawing:
    """The sheet. It never changes: each act gives another one.

    ``walls`` has one entry a corner, the wall that starts there. While it is not ``closed`` the last corner is where
    the next wall starts. ``inside`` are the internal walls. ``values`` is all else that the level file holds, by the
    keys of the file.
    """

    corners: tuple[Corner, ...] = ()
    walls: tuple[WallKind, ...] = ()
    closed: bool = False
    inside: tuple[tuple[Corner, ...], ...] = ()
    values: Values = field(default_factory=dict)

    @property
    def names(self) -> tuple[str, ...]:
        """The walls' names."""
        return tuple(wall_name(i) for i in range(len(self.corners) - (not self.closed and bool(self.corners))))

    def index(self, wall: str) -> int:
        """Return the place of a wall; :class:`CannotDraw` where there is none of this name."""
        if wall not in self.names:
            raise CannotDraw(_("There is no wall {wall} on the sheet.").format(wall=wall))
        return self.names.index(wall)

    def ends(self, index: int) -> tuple[Corner, Corner]:
        """Return the two corners of a wall."""
        return self.corners[index], self.corners[(index + 1) % len(self.corners)]

    def length(self, index: int) -> int:
        """Return a wall's length, mm."""
        (ax, ay), (bx, by) = self.ends(index)
        return abs(bx - ax) + abs(by - ay)

    @property
    def bounds(self) -> tuple[int, int, int, int]:
        """(least x, least y, greatest x, greatest y), mm; all nought for an empty sheet."""
        xs, ys = zip(*self.corners, strict=True) if self.corners else ((0,), (0,))
        return min(xs), min(ys), max(xs), max(ys)

    def at(self, *path: str | int) -> Any:
        """Return what of the rest of the level stands at a path; None where nothing does."""
        found: Any = self.values
        for part in path:
            try:
                found = found[part]
            except (KeyError, IndexError, TypeError):
                return None
        return found

    def with_walls(self, index: int, wall: WallKind) -> Drawing:
        """Return it with one wall of another kind."""
        return replace(self, walls=(*self.walls[:index], wall, *self.walls[index + 1 :]))


def new_drawing() -> Drawing:
    """Return an empty sheet with what a first house needs; every size is invented."""
    return Drawing(
        values={
            "schema": 1,
            "id": "my-house",
            "title": _("My house"),
            "brief": _("Build the roof of this house. Every size is invented."),
            "plates": {"width": 90},
            "roof": {"pitch": 22.5, "overhang": 450, "heel": 90},
            "trusses": {"spacing": 600, "setback": 1800},
        }
    )


def step(a: Corner, b: Corner) -> tuple[int, int]:
    """Return the unit step from a place to another on the same line along x or y; (0, 0) for the same place."""
    return (b[0] > a[0]) - (b[0] < a[0]), (b[1] > a[1]) - (b[1] < a[1])


def twice_area(corners: tuple[Corner, ...]) -> int:
    """Return twice the area inside, negative where the corners run clockwise."""
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in pairwise((*corners, *corners[:1])))


def within(corners: tuple[Corner, ...]) -> None:
    """Hold corners to what a level file can have; :class:`CannotDraw` beyond."""
    if len(corners) > MOST_CORNERS:
        raise CannotDraw(_("A plan has at most {most} corners.").format(most=MOST_CORNERS))
    if any(abs(x) > FURTHEST or abs(y) > FURTHEST for x, y in corners):
        raise CannotDraw(_("That is off the sheet: it goes {most} m each way.").format(most=FURTHEST // 1000))
