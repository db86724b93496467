"""What changes the outline: corners put, walls drawn in and out, cut, bays, and the whole turned or mirrored."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

from trainer.plan import wall_name
from trainer.table.drawing import EAVE, CannotDraw, Corner, Drawing, WallKind, step, twice_area, within
from trainer.table.ring import FEWEST, Ring, RingCorner, renamed
from trainer.words import _

Way = Literal["right", "up", "left", "down"]
WAYS: Mapping[Way, tuple[int, int]] = {"right": (1, 0), "up": (0, 1), "left": (-1, 0), "down": (0, -1)}


@dataclass(frozen=True, slots=True)
class PutCorner:
    """Put the next corner. What is not straight off the last one is brought square to it, the longer way."""

    at: Corner

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with it; on the first corner, closed."""
        if drawing.closed:
            raise CannotDraw(_("The outline is closed. Draw its walls in and out, or begin a new sheet."))
        at = self.at
        if drawing.corners:
            (x, y), (nx, ny) = drawing.corners[-1], at
            first = drawing.corners[0]
            if at == first and len(drawing.corners) >= FEWEST - 1:
                return Close().on(drawing)
            at = (nx, y) if abs(nx - x) >= abs(ny - y) else (x, ny)
            if at == (x, y):
                raise CannotDraw(_("The last corner is there already."))
        corners = _straightened([*drawing.corners, at])
        within(corners)
        return replace(drawing, corners=corners, walls=_as_many(drawing.walls, len(corners)))


@dataclass(frozen=True, slots=True)
class Step:
    """One wall as it is paced: its length, mm, and which way it runs."""

    length: int
    way: Way


@dataclass(frozen=True, slots=True)
class Pace:
    """Walls one after the other, by their lengths and ways; the outline is closed after them if ``close``."""

    steps: tuple[Step, ...]
    close: bool = False

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with them; the first starts at nought where nothing is drawn yet."""
        if drawing.closed:
            raise CannotDraw(_("The outline is closed. Draw its walls in and out, or begin a new sheet."))
        if not drawing.corners:
            drawing = PutCorner((0, 0)).on(drawing)
        for one in self.steps:
            if drawing.closed:
                raise CannotDraw(_("The outline closes before the last wall."))
            (x, y), (dx, dy) = drawing.corners[-1], WAYS[one.way]
            drawing = PutCorner((x + dx * one.length, y + dy * one.length)).on(drawing)
        return Close().on(drawing) if self.close and not drawing.closed else drawing


@dataclass(frozen=True, slots=True)
class Close:
    """Close the outline, with a corner more where the last is not in line with the first."""

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with its outline closed, anticlockwise."""
        if drawing.closed:
            raise CannotDraw(_("The outline is closed already."))
        corners, walls = list(drawing.corners), list(drawing.walls)
        if len(corners) > 1:
            (px, _py), (x, y), (fx, fy) = corners[-2], corners[-1], corners[0]
            if x != fx and y != fy:
                corners.append((x, fy) if px != x else (fx, y))
        if len(corners) > 1 and corners[-1] == corners[0]:
            corners.pop()
        walls = list(_as_many(tuple(walls), len(corners)))
        names = {name: name for name in drawing.names}
        if twice_area(tuple(corners)) < 0:
            count = len(corners)
            corners = [corners[-k % count] for k in range(count)]
            walls = [walls[(-k - 1) % count] for k in range(count)]
            names = {wall_name((-k - 1) % count): wall_name(k) for k in range(count)}
        if len(corners) < FEWEST:
            raise CannotDraw(_("A house has at least four corners; draw one more wall."))
        within(tuple(corners))
        values = renamed(drawing.values, names)
        ring = Ring(replace(drawing, corners=tuple(corners), walls=tuple(walls), closed=True, values=values))
        ring.forget_cuts()
        ring.tidy()
        return ring.drawing_of()


@dataclass(frozen=True, slots=True)
class TakeBack:
    """Take out the last corner of an outline that is still open."""

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet without it."""
        if drawing.closed or not drawing.corners:
            raise CannotDraw(_("There is no open outline to take a corner from."))
        return replace(drawing, corners=drawing.corners[:-1], walls=drawing.walls[:-1])


@dataclass(frozen=True, slots=True)
class MoveWall:
    """Draw a wall ``out`` mm away from the house, or into it where that is negative."""

    wall: str
    out: int

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with the wall there, and the walls beside it as long as they then are."""
        ring = Ring(drawing)
        index = drawing.index(self.wall)
        if not self.out:
            raise CannotDraw(_("The wall stands there already."))
        ux, uy = ring.way(index)
        ring.move(index, uy * self.out, -ux * self.out)
        ring.tidy()
        return ring.drawing_of()


@dataclass(frozen=True, slots=True)
class SetLength:
    """Let a wall be so many mm long: the wall after it is drawn to where that ends."""

    wall: str
    length: int

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with that wall as long, from its first corner."""
        ring = Ring(drawing)
        index = drawing.index(self.wall)
        by = self.length - drawing.length(index)
        if not by:
            raise CannotDraw(_("The wall is that long already."))
        if self.length <= 0:
            raise CannotDraw(_("A wall has some length. To do without it, take it out."))
        ux, uy = ring.way(index)
        if ring.way(index + 1) in {(ux, uy), (-ux, -uy)}:
            raise CannotDraw(_("The wall after it runs on in line. Draw that in or out first."))
        ring.move(index + 1, ux * by, uy * by)
        ring.tidy()
        return ring.drawing_of()


@dataclass(frozen=True, slots=True)
class MoveCorner:
    """Draw a corner to another place; both its walls go with it."""

    corner: int
    to: Corner

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with the corner there, all other corners still square."""
        ring = Ring(drawing)
        if not 0 <= self.corner < len(ring):
            raise CannotDraw(_("There is no such corner on the sheet."))
        corner = ring[self.corner]
        dx, dy = self.to[0] - corner.at[0], self.to[1] - corner.at[1]
        if not (dx or dy):
            raise CannotDraw(_("The corner is there already."))
        before = ring[self.corner - 1]
        for wall in (before, corner):
            index = ring.corners.index(wall)
            across = ring.way(index)[0] != 0
            if across and dy:
                ring.move(index, 0, dy)
            elif not across and dx:
                ring.move(index, dx, 0)
        ring.tidy()
        return ring.drawing_of()


@dataclass(frozen=True, slots=True)
class SplitWall:
    """Cut a wall in two ``at`` mm from its first corner, so that each part can be drawn in or out by itself."""

    wall: str
    at: int

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with a corner more."""
        ring = Ring(drawing)
        index = drawing.index(self.wall)
        length = drawing.length(index)
        if not 0 < self.at < length:
            text = _("Wall {wall} is {length} long; cut it somewhere between its ends.")
            raise CannotDraw(text.format(wall=self.wall, length=length))
        (x, y), (ux, uy) = ring[index].at, ring.way(index)
        first = ring[index]
        cut = RingCorner((x + ux * self.at, y + uy * self.at), first.wall, set(first.of), first.base)
        ring.corners.insert(index + 1, cut)
        return ring.drawing_of()


@dataclass(frozen=True, slots=True)
class PushBay:
    """Push part of a wall out: from ``low`` to ``high`` mm along it, by ``out`` mm; in, where that is negative."""

    wall: str
    low: int
    high: int
    out: int

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with the bay, flush with a corner where it reaches that."""
        index = drawing.index(self.wall)
        length = drawing.length(index)
        low, high = max(0, min(self.low, self.high)), min(length, max(self.low, self.high))
        if low >= high or not self.out:
            raise CannotDraw(_("A bay wants some width and some depth."))
        ring = Ring(drawing)
        (x, y), (ux, uy) = ring[index].at, ring.way(index)
        whole = ring[index]
        at = index
        if low > 0:
            at += 1
            ring.corners.insert(at, RingCorner((x + ux * low, y + uy * low)))
        if high < length:
            rest = RingCorner((x + ux * high, y + uy * high), whole.wall, set(whole.of), whole.base)
            ring.corners.insert(at + 1, rest)
        ring.move(at, uy * self.out, -ux * self.out)
        ring.tidy()
        return ring.drawing_of()


@dataclass(frozen=True, slots=True)
class TakeOut:
    """Take a wall out: the wall before it is drawn into line with the one after it."""

    wall: str

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet with a step less."""
        ring = Ring(drawing)
        index = drawing.index(self.wall)
        if len(ring) <= FEWEST:
            raise CannotDraw(_("A house has at least four corners, so no wall can go."))
        (ax, ay), (bx, by) = drawing.ends(index)
        if ring.way(index - 1)[0] == ring.way(index)[0]:
            # It is one part of a wall that was cut: the cut goes.
            ring.forget_cuts()
        else:
            ring.move(index - 1, bx - ax, by - ay)
        ring.tidy()
        return ring.drawing_of()


@dataclass(frozen=True, slots=True)
class Mirror:
    """Mirror the house, left to right."""

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet mirrored where it stands; wall A stays wall A."""
        left, _low, right, _high = drawing.bounds
        moved = _moved(drawing, lambda at: (left + right - at[0], at[1]))
        if not drawing.closed:
            return moved
        count = len(moved.corners)
        lengths = [drawing.length(i) for i in range(count)]
        corners = tuple(moved.corners[(1 - k) % count] for k in range(count))
        walls = tuple(_turned_round(moved.walls[-k % count], lengths[-k % count]) for k in range(count))
        names = {wall_name(-k % count): wall_name(k) for k in range(count)}
        return replace(moved, corners=corners, walls=walls, values=renamed(moved.values, names))


@dataclass(frozen=True, slots=True)
class Turn:
    """Turn the house a quarter, anticlockwise."""

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet turned, its left and low edges where they were."""
        left, low, _right, high = drawing.bounds
        return _moved(drawing, lambda at: (left + high - at[1], low + at[0] - left))


def _moved(drawing: Drawing, place: Callable[[Corner], Corner]) -> Drawing:
    """Return a drawing with everything on the plan put elsewhere, dangers too."""
    corners = tuple(map(place, drawing.corners))
    inside = tuple(tuple(map(place, wall)) for wall in drawing.inside)
    within((*corners, *(at for wall in inside for at in wall)))
    values: Any = drawing.values
    dangers = drawing.at("site", "dangers")
    if isinstance(dangers, list | tuple):
        there = [{**one, "at": list(place(tuple(one["at"])))} if _is_placed(one) else one for one in dangers]
        values = {**values, "site": {**values["site"], "dangers": there}}
    return replace(drawing, corners=corners, inside=inside, values=values)


def _is_placed(danger: Any) -> bool:
    at = danger.get("at") if isinstance(danger, Mapping) else None
    return isinstance(at, list | tuple) and len(at) == 2 and all(type(part) is int for part in at)


def _turned_round(wall: WallKind, length: int) -> WallKind:
    """Return what a wall is when it is walked from its other end."""
    stretch = (length - wall.stretch[1], length - wall.stretch[0]) if wall.stretch else None
    posts = None if wall.posts is None else tuple(sorted(length - place for place in wall.posts))
    return replace(wall, stretch=stretch, posts=posts)


def _straightened(corners: list[Corner]) -> tuple[Corner, ...]:
    """Return open corners without one that the last wall runs on or back over."""
    while len(corners) > 2 and 0 in (corners[-1][0] - corners[-3][0], corners[-1][1] - corners[-3][1]):
        (ax, ay), (bx, by) = step(corners[-3], corners[-2]), step(corners[-2], corners[-1])
        if (ax == 0) != (bx == 0) or (ay == 0) != (by == 0):
            break
        del corners[-2]
        if corners[-1] == corners[-2]:
            del corners[-1]
    return tuple(corners)


def _as_many(walls: tuple[WallKind, ...], count: int) -> tuple[WallKind, ...]:
    return (*walls[:count], *(EAVE for _more in range(count - len(walls))))
