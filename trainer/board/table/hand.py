"""What mouse and keys do on the sheet: corners put, walls and corners drawn, cut, bays pushed, places pressed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import pygame

from trainer.board.table.beam_ends import beam_handles, beam_preview, handles_drawn, moved_end
from trainer.board.table.state import Table
from trainer.layout.posts import free_posts
from trainer.level.dangers import LATE, LIES, OF_POSTS, DangerKind
from trainer.picture.as_built import square
from trainer.picture.house import roof_lines
from trainer.picture.model import Item, Line, Polygon, Text, flat
from trainer.plan import Point
from trainer.table import (
    Act,
    CannotDraw,
    Close,
    Drawing,
    MoveCorner,
    MoveWall,
    PushBay,
    PutCorner,
    PutDanger,
    PutInside,
    SplitWall,
    TakeInside,
    roof_of,
)
from trainer.table.drawing import step
from trainer.words import _

INSIDE_PX, HANDLE_PX = 26.0, 16.0
"""How far inside the wall the handles of a beam are, and how near to one a press must be, px."""
NEAR_PX = 12.0
"""How near to a corner or a wall a press must be to mean it, px."""
ARROWS = {pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1)}
CORNERS_BEFORE_LAST = 2
"""So many corners at least stand before one that may be the last: it may be in line with the first."""
FIGURE_PX = 17.0
LATE_AFTER = 3
"""After so many lifts what comes up on the day comes, until the level says otherwise."""


@dataclass(frozen=True, slots=True)
class Grip:
    """What is held: the corner, wall or end of a beam, and where it was taken hold of."""

    at: tuple[int, int]
    wall: str = ""
    corner: int | None = None
    end: int | None = None
    """Which end of the wall's beam, 0 or 1."""
    under: str = ""
    """The wall that lies under that end, beside the beam's own."""


class SheetHand:
    """Draws on the sheet. It has the mouse and the keys of the plan view that it is the drawer of."""

    def __init__(self, table: Table, redraw: Callable[[], None]) -> None:
        self.table = table
        self._redraw = redraw
        self.cursor = (0, 0)
        self.grip: Grip | None = None
        self._near = 100.0

    @property
    def status(self) -> str:
        """Where it points, for the tree."""
        x, y = self.cursor
        return f"{x}, {y}" + (f" {self.table.wall}" if self.table.wall else "")

    # the mouse

    def press(self, place: Point, mm_per_px: float) -> None:
        """Take hold of what is there, or put what the tool puts."""
        self._point(place, mm_per_px)
        table, drawing = self.table, self.table.drawing
        if not drawing.closed:
            self._put_corner()
            return
        corner, wall = self._corner_near(place), self._wall_near(place)
        end = self._beam_end_near(place, mm_per_px)
        match table.tool:
            case "draw" if end is not None:
                self.grip = Grip(self.cursor, table.wall, end=end, under=self._wall_near(place, besides=table.wall))
            case "draw":
                self.grip = Grip(self.cursor, wall, corner) if wall or corner is not None else None
                table.choose(wall if corner is None else table.wall)
            case "bay":
                self.grip = Grip(self.cursor, wall) if wall else None
                table.choose(wall)
            case "inside":
                self.grip = Grip(self.cursor)
            case "cut" if wall:
                table.act(SplitWall(wall, self._run(wall)))
            case "danger":
                self._put_danger(wall)

    def follow(self, place: Point, mm_per_px: float) -> None:
        """Go with the mouse."""
        before = self.cursor
        self._point(place, mm_per_px)
        if self.cursor != before:
            self._redraw()

    def release(self) -> None:
        """Let go: what was drawn is done."""
        act, grip = self.held or self._inside_taken(), self.grip
        self.grip = None
        if act is not None:
            self.table.act(act)
        elif grip is not None and grip.under and grip.at == self.cursor:
            self.table.choose(grip.under)  # who only presses on the end of a beam means the wall that it lies on

    def _inside_taken(self) -> Act | None:
        """Return what takes an internal wall out that was pressed on, and not drawn from."""
        if self.grip is None or self.table.tool != "inside":
            return None
        for i, wall in enumerate(self.table.drawing.inside):
            if any(_off(self.cursor, a, b) <= self._near for a, b in pairwise(wall)):
                return TakeInside(i)
        return None

    def _point(self, place: Point, mm_per_px: float) -> None:
        self._near = max(NEAR_PX * mm_per_px, 60.0)
        self.cursor = self.table.snapped(place)
        drawing = self.table.drawing
        if drawing.corners and not drawing.closed and math.dist(place, drawing.corners[0]) <= self._near:
            self.cursor = drawing.corners[0]
        elif len(drawing.corners) > CORNERS_BEFORE_LAST and not drawing.closed:
            self.cursor = self._in_line(place)

    def _in_line(self, place: Point) -> tuple[int, int]:
        """Return the cursor; where the wall there would end nearly in line with the first corner, in line with it.

        Else closing the outline would leave a wall of a few mm that nobody meant.
        """
        (x, y), first, last = self.cursor, self.table.drawing.corners[0], self.table.drawing.corners[-1]
        if abs(x - last[0]) >= abs(y - last[1]):
            return (first[0] if abs(place[0] - first[0]) <= self._near else x), y
        return x, (first[1] if abs(place[1] - first[1]) <= self._near else y)

    def _put_corner(self) -> None:
        corners = self.table.drawing.corners
        closes = len(corners) > 2 and self.cursor == corners[0]
        self.table.act(Close() if closes else PutCorner(self.cursor))

    def _put_danger(self, wall: str) -> None:
        what: DangerKind = self.table.danger  # type: ignore[assignment]
        lies = LIES[what]
        tag = self._truss_near() if lies == "tag" else ""
        place = self._post_near() if what in OF_POSTS else self.cursor
        at, on = place if lies == "at" else None, wall if lies == "wall" else ""
        self.table.act(PutDanger(what, at, on, tag, LATE_AFTER if what in LATE else None))

    def _truss_near(self) -> str:
        layout = self.table.study.layout
        members = layout.members if layout else ()
        return min(members, key=lambda m: math.dist(m.middle, self.cursor)).tag if members else ""

    def _post_near(self) -> tuple[int, int] | None:
        """Return the place of the next post, if there is one."""
        layout = self.table.study.layout
        posts = free_posts(layout) if layout else ()
        post = min(posts, key=lambda post: math.dist(post.at, self.cursor), default=None)
        return (round(post.at[0]), round(post.at[1])) if post else None

    def _corner_near(self, place: Point) -> int | None:
        corners = self.table.drawing.corners
        best = min(range(len(corners)), key=lambda i: math.dist(place, corners[i]), default=None)
        return best if best is not None and math.dist(place, corners[best]) <= self._near else None

    def _beam_end_near(self, place: Point, mm_per_px: float) -> int | None:
        """Return which handle of the chosen wall's beam lies at a place."""
        offs = [math.dist(place, at) for at in self._beam_handles(mm_per_px)]
        best = min(range(len(offs)), key=lambda end: offs[end], default=None)
        return best if best is not None and offs[best] <= HANDLE_PX * mm_per_px else None

    def _beam_handles(self, mm_per_px: float) -> tuple[Point, ...]:
        """Return where the two ends of the chosen wall's beam are taken hold of, beside the wall's own corners."""
        table = self.table
        if not table.wall or not table.drawing.closed or table.tool != "draw":
            return ()
        return beam_handles(table.drawing, table.wall, INSIDE_PX * mm_per_px)

    def _wall_near(self, place: Point, besides: str = "") -> str:
        drawing = self.table.drawing
        offs = {name: _off(place, *drawing.ends(i)) for i, name in enumerate(drawing.names) if name != besides}
        best = min(offs, key=lambda name: offs[name], default="")
        return best if best and offs[best] <= self._near + 90 else ""

    def _run(self, wall: str) -> int:
        """Return how far along a wall the cursor is, mm."""
        drawing = self.table.drawing
        (ax, ay), b = drawing.ends(drawing.index(wall))
        ux, uy = step((ax, ay), b)
        return (self.cursor[0] - ax) * ux + (self.cursor[1] - ay) * uy

    def _out(self, wall: str) -> int:
        """Return how far outside a wall the cursor is, mm."""
        drawing = self.table.drawing
        (ax, ay), b = drawing.ends(drawing.index(wall))
        ux, uy = step((ax, ay), b)
        return (self.cursor[0] - ax) * uy - (self.cursor[1] - ay) * ux

    @property
    def held(self) -> Act | None:
        """Return the act that letting go would do; none where nothing has moved."""
        grip, table = self.grip, self.table
        if grip is None or grip.at == self.cursor:
            return None
        if table.tool == "inside":
            (x, y), (nx, ny) = grip.at, self.cursor
            return PutInside(((x, y), (nx, y) if abs(nx - x) >= abs(ny - y) else (x, ny)))
        if grip.end is not None:
            return moved_end(table.drawing, grip.wall, grip.end, self._run(grip.wall), table.grid)
        if grip.corner is not None:
            return MoveCorner(grip.corner, self.cursor)
        out = self._out(grip.wall)
        if table.tool == "bay":
            drawing = table.drawing
            (ax, ay), b = drawing.ends(drawing.index(grip.wall))
            ux, uy = step((ax, ay), b)
            first = (grip.at[0] - ax) * ux + (grip.at[1] - ay) * uy
            return PushBay(grip.wall, min(first, self._run(grip.wall)), max(first, self._run(grip.wall)), out)
        return MoveWall(grip.wall, out) if out else None

    # the keyboard

    def key(self, event: pygame.event.Event) -> bool:
        """Take a key: arrows point, or draw the chosen wall; Enter presses, and lets go of what is held."""
        table = self.table
        if event.key in ARROWS:
            self._arrow(event)
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            if self.grip is not None:
                self.release()
            else:
                self.press(self.cursor, 1.0)
        elif event.key == pygame.K_ESCAPE and (self.grip or table.wall):
            self.grip = None
            table.choose("")
        elif event.key in {pygame.K_BACKSPACE, pygame.K_DELETE}:
            table.take_out()
        else:
            return False
        return True

    def _arrow(self, event: pygame.event.Event) -> None:
        dx, dy = ARROWS[event.key]
        by = self.table.grid * (10 if event.mod & pygame.KMOD_SHIFT else 1)
        table = self.table
        if table.wall and table.tool == "draw" and self.grip is None:
            drawing = table.drawing
            ux, uy = step(*drawing.ends(drawing.index(table.wall)))
            out = (dx * uy - dy * ux) * by
            if out:
                table.act(MoveWall(table.wall, out))
            else:
                table.said = _("An arrow square to the wall draws it.")
                table.changed()
            return
        if not table.drawing.closed and table.drawing.corners and self.grip is None and self._fresh():
            self.cursor = table.drawing.corners[-1]
        x, y = table.snapped(self.cursor)
        self.cursor = (x + dx * by, y + dy * by)
        table.changed()

    def _fresh(self) -> bool:
        """Whether the cursor is nowhere near the last wall: the mouse has left it somewhere."""
        x, y = self.table.drawing.corners[-1]
        return self.cursor[0] != x and self.cursor[1] != y

    # what is drawn over the sheet

    def items(self, scale: float) -> list[Item]:
        """Return the chosen wall, what is held as it would be, and where it points."""
        table, drawing = self.table, self.table.drawing
        items: list[Item] = []
        if table.wall:
            beam = table.chosen[1] == "beam"  # under which its posts are to be seen
            items.append(Line(drawing.ends(drawing.index(table.wall)), "mark", 3.0 if beam else 6.0))
            if self.grip is None:
                items += handles_drawn(self._beam_handles(1 / scale), 1 / scale)
        act = self.held
        if act is not None:
            items += [*_preview(drawing, act), *beam_preview(drawing, act)]
        elif drawing.corners and not drawing.closed:
            items += self._next_wall()
        x, y = self.cursor
        arms = ((160, 0), (0, 160))
        items += [Line(((x - dx, y - dy), (x + dx, y + dy)), "mark", 2.0) for dx, dy in arms]
        if not drawing.corners:
            said = f"{x}, {y}"
            items.append(Text((x, y), said, "mark", FIGURE_PX, "px", "start", ground="paper", off=(0.6, 1.0)))
        return items

    def _next_wall(self) -> list[Item]:
        """Return the wall that the next corner would give, with its length."""
        (x, y), (nx, ny) = self.table.drawing.corners[-1], self.cursor
        to = (nx, y) if abs(nx - x) >= abs(ny - y) else (x, ny)
        length = abs(to[0] - x) + abs(to[1] - y)
        if not length:
            return []
        middle = ((x + to[0]) / 2, (y + to[1]) / 2)
        return [Line(((x, y), to), "mark", 3.0, "px", (8.0, 5.0)), _figure(middle, str(length))]


def _preview(drawing: Drawing, act: Act) -> list[Item]:
    """Return the sheet as an act would leave it: its outline and its roof, with the lengths that would change."""
    try:
        after = act.on(drawing)
    except CannotDraw as why:
        return [_figure(drawing.corners[0], str(why))]
    items: list[Item] = []
    house = roof_of(after)
    if house is not None:
        items += flat(roof_lines(house.solved))
    ring = (*after.corners, after.corners[0])
    items.append(Line(ring, "mark", 2.6))
    before = set(pairwise((*drawing.corners, drawing.corners[0])))
    for (ax, ay), (bx, by) in pairwise(ring):
        if ((ax, ay), (bx, by)) not in before:
            items.append(_figure(((ax + bx) / 2, (ay + by) / 2), str(abs(bx - ax) + abs(by - ay))))
    items += [Polygon(square(at, 70.0), "paper", "mark", 1.4) for at in after.corners if at not in drawing.corners]
    items += [Line(wall, "mark", 4.0, "px", (4.0, 5.0)) for wall in after.inside[len(drawing.inside) :]]
    return items


def _figure(at: Point, said: str) -> Text:
    return Text(at, said, "mark", FIGURE_PX, "px", bold=True, ground="paper")


def _off(place: Point, a: Point, b: Point) -> float:
    """Distance of a place from a wall."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square_ = dx * dx + dy * dy or 1.0
    t = min(1.0, max(0.0, ((place[0] - a[0]) * dx + (place[1] - a[1]) * dy) / square_))
    return math.dist(place, (a[0] + t * dx, a[1] + t * dy))
