"""The outline while it is being changed: corners, each with the wall that starts there and where that came from.

What lies along a wall (part of a beam, posts) stays where it is on the plan while its ends move, and whatever else of
the level names a wall follows it to its new letter.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from trainer.plan import wall_name
from trainer.table.drawing import EAVE, CannotDraw, Corner, Drawing, WallKind, step, twice_area, within
from trainer.words import _

FEWEST = 4


@dataclass(eq=False)
class RingCorner:
    """One corner, and the wall from there to the next. ``of`` are the old walls that it is, or was part of.

    Each is itself alone, whatever is equal about two of them.
    """

    at: Corner
    wall: WallKind = EAVE
    of: set[int] = field(default_factory=set)
    base: Corner | None = None
    """From where the measures along the wall ran before; none where there are none or they hold."""


class Ring:
    """The corners of a closed outline, to be changed and then made a drawing again."""

    def __init__(self, drawing: Drawing) -> None:
        if not drawing.closed:
            raise CannotDraw(_("Close the outline first."))
        self.drawing = drawing
        self.corners = [
            RingCorner(at, wall, {i}, at)
            for i, (at, wall) in enumerate(zip(drawing.corners, drawing.walls, strict=True))
        ]
        self._cuts = {c.at for i, c in enumerate(self.corners) if self._straight(i)}

    def __len__(self) -> int:
        return len(self.corners)

    def __getitem__(self, index: int) -> RingCorner:
        return self.corners[index % len(self.corners)]

    def way(self, index: int) -> tuple[int, int]:
        """Return the unit step along a wall."""
        return step(self[index].at, self[index + 1].at)

    def _straight(self, index: int) -> bool:
        """Whether a corner lies on a straight wall, or on the one before it."""
        before, after = self.way(index - 1), self.way(index)
        return before == after or (0, 0) in (before, after)

    def move(self, index: int, dx: int, dy: int) -> None:
        """Move a wall square to itself; where the wall beside it is in line with it, a short wall joins them."""
        first, last = self[index], self[index + 1]
        before, after = (self.way(index + way) == self.way(index) for way in (-1, 1))
        olds = first.at, last.at
        for end in (first, last):
            end.at = (end.at[0] + dx, end.at[1] + dy)
        if after:
            # The corner that stays starts the wall beside; the moved one starts the short wall to it.
            stays = RingCorner(olds[1], last.wall, last.of, last.base)
            last.wall, last.of, last.base = EAVE, set(), None
            self.corners.insert(self.corners.index(last) + 1, stays)
        if before:
            self.corners.insert(self.corners.index(first), RingCorner(olds[0]))

    def forget_cuts(self) -> None:
        """Let corners that lie on a straight wall go when it is tidied."""
        self._cuts = set()

    def tidy(self) -> None:
        """Take out corners that come together, and those that the outline now runs straight through.

        A corner that lay on a straight wall before was put there to cut it in two, and stays.
        """
        changed = True
        while changed and len(self) > FEWEST:
            changed = False
            for i, corner in enumerate(self.corners):
                nothing = self.way(i) == (0, 0)
                if nothing or (self.way(i - 1) == self.way(i) and corner.at not in self._cuts):
                    self._merge(i, nothing=nothing)
                    changed = True
                    break

    def _merge(self, index: int, *, nothing: bool) -> None:
        """Take a corner out: its wall becomes part of the one before, or is nothing any more."""
        corner, before = self[index], self[index - 1]
        if nothing:
            # The wall after it starts here; what was nothing long goes.
            self.corners.remove(corner)
            return
        long = sum(abs(a - b) for a, b in zip(corner.at, self[index + 1].at, strict=True))
        short = sum(abs(a - b) for a, b in zip(before.at, corner.at, strict=True))
        if long > short and corner.of:
            before.wall, before.base = corner.wall, corner.base
        before.of |= corner.of
        self.corners.remove(corner)

    def drawing_of(self) -> Drawing:
        """Return it as a drawing, anticlockwise, with all that names a wall following it."""
        self._anticlockwise()
        corners = tuple(corner.at for corner in self.corners)
        if len(corners) < FEWEST:
            raise CannotDraw(_("A house has at least four corners."))
        within(corners)
        walls = tuple(self._wall(i) for i in range(len(self)))
        names = {wall_name(old): wall_name(i) for i, corner in enumerate(self.corners) for old in sorted(corner.of)}
        values = renamed(self.drawing.values, names)
        return replace(self.drawing, corners=corners, walls=walls, values=values)

    def _anticlockwise(self) -> None:
        """List the corners the other way round where they run clockwise: a wall was drawn through the one across."""
        if twice_area(tuple(corner.at for corner in self.corners)) >= 0:
            return
        corners = self.corners
        turned = [corners[(1 - k) % len(corners)].at for k in range(len(corners))]
        walls = [corners[-k % len(corners)] for k in range(len(corners))]
        self.corners = [RingCorner(at, wall.wall, wall.of, wall.base) for at, wall in zip(turned, walls, strict=True)]

    def _wall(self, index: int) -> WallKind:
        """Return what a wall is, its measures from where it now starts."""
        corner = self[index]
        wall, base = corner.wall, corner.base
        if base is None or (wall.stretch is None and wall.posts is None):
            return wall
        (ux, uy), (ox, oy) = self.way(index), self._old_way(corner)
        length = sum(abs(a - b) for a, b in zip(corner.at, self[index + 1].at, strict=True))

        def moved(run: int) -> int:
            x, y = base[0] + ox * run, base[1] + oy * run
            return (x - corner.at[0]) * ux + (y - corner.at[1]) * uy

        posts, stretch = wall.posts, wall.stretch
        if posts is not None:
            posts = tuple(sorted(place for run in posts if 0 <= (place := moved(run)) <= length)) or None
        if stretch is not None:
            low, high = sorted(min(length, max(0, moved(run))) for run in stretch)
            if low == high:
                return replace(wall, beam=False, stretch=None, posts=None)
            stretch = (low, high)
        return replace(wall, stretch=stretch, posts=posts)

    def _old_way(self, corner: RingCorner) -> tuple[int, int]:
        old = min(corner.of)
        return step(*self.drawing.ends(old))


def renamed(values: Mapping[str, Any], names: Mapping[str, str]) -> Mapping[str, Any]:
    """Return the rest of a level with the walls that its site names by their new names; those that are gone go."""
    site = values.get("site")
    if not isinstance(site, Mapping):
        return values
    changed = dict(site)
    for key in ("walls", "dangers"):
        found = site.get(key)
        if isinstance(found, list | tuple):
            changed[key] = [new for one in found if (new := _renamed(one, names)) is not None]
    return values if changed == site else {**values, "site": changed}


def _renamed(one: Any, names: Mapping[str, str]) -> Any:
    """Return an entry with its wall's new name; None where that wall is gone."""
    wall = one.get("wall") if isinstance(one, Mapping) else None
    if not isinstance(wall, str):
        return one
    return {**one, "wall": names[wall]} if wall in names else None
