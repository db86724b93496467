"""The angled view on the screen: turned by mouse or keys, a sketch while it turns and whole once it rests."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection
from dataclasses import replace
from itertools import pairwise

import pygame

from trainer.board.layers import SETTLE_MS
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.widgets import Ui
from trainer.board.widgets.base import draw_focus
from trainer.picture.angled import Scene3, angled, box_round, sketch
from trainer.picture.model import Box, Item, Polygon, Text
from trainer.picture.space import Turn
from trainer.plan import Point

DEGREES_PER_PX = 0.35
STEP, LARGE_STEP = 5.0, 45.0
"""Degrees that an arrow turns, and that the button does."""
COVERING_MS = 3000
"""How long the roof of a finished house takes to turn once while its sheets run on."""
TILTS = (15.0, 32.0, 55.0, 90.0)
"""The looks downwards that the button goes through, degrees."""
NEAR_PX = 14.0
"""How near a click must be to a truss to mean it, px."""
_ARROWS = {pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1)}


class AngledView(PlanView):
    """The roof so far in space. ``look`` gives what is to be seen, ``named`` the trusses that show their tags."""

    role = "view"

    def __init__(
        self, name: str, box: Box, look: Callable[[], Scene3], named: Callable[[], Collection[str]],
        choose: Callable[[str], None], chosen: Callable[[], str], over: Callable[[Turn, float], list[Item]],
    ) -> None:  # fmt: skip
        self.turn = Turn(middle=((box[0] + box[2]) / 2, (box[1] + box[3]) / 2))
        self.planes = False
        self._look = look
        self._named = named
        self._choose = choose
        self._chosen = chosen
        self._over = over
        self._kept: Scene3 | None = None
        self._turned_at = -SETTLE_MS
        self._covers_from: int | None = None
        self._covers = False
        self._first_yaw = self.turn.yaw
        super().__init__(name, self._box(), self._items, self._marks)
        self.click = self._pick
        self.press_key = self.turn_key
        self._button = 1

    @property
    def value(self) -> str:
        return f"{self.turn.yaw:g}° {self.turn.tilt:g}° {self.note()}".rstrip()

    @property
    def scene3(self) -> Scene3:
        """What is to be seen, worked out once until something changes."""
        if self._kept is None:
            self._kept = self._look()
        return self._kept

    def _box(self, turn: Turn | None = None) -> Box:
        """Return the box on the paper round the house as it is turned."""
        return box_round(self.scene3.layout, turn or self.turn)

    def invalidate(self) -> None:
        self._kept = None
        super().invalidate()

    def _items(self, scale: float) -> list[Item]:
        return angled(self.scene3, self.turn, scale, self._named(), planes=self.planes, chosen=self._chosen())

    def _lettering(self, scale: float) -> tuple[float, float, float, float]:
        return (0.0, 0.0, 0.0, 0.0)  # tags stand on their trusses, within the house

    def _marks(self, brush: Brush) -> None:
        brush.paint(self._over(self.turn, brush.view.scale))
        # A tag stays over what is drawn round its truss.
        brush.paint_sheet(item for item in self._painted.items if isinstance(item, Text)) if self._painted else None

    # turning

    @property
    def turning(self) -> bool:
        """Whether it has been turned just now."""
        return self.now_ms - self._turned_at < SETTLE_MS

    @property
    def resting(self) -> bool:
        return not self.turning and not self._covers and super().resting

    def cover(self, *, still: bool) -> None:
        """Cover the roof: it turns once while its sheets run on, or is covered at once where nothing may move."""
        self.planes = True
        self._covers, self._covers_from, self._first_yaw = not still, None, self.turn.yaw
        boxes = [self._box(replace(self.turn, yaw=yaw)) for yaw in range(0, 360, 45)]
        lefts, lows, rights, highs = zip(*boxes, strict=True)
        self.camera.look_at((min(lefts), min(lows), max(rights), max(highs)))
        self.invalidate()

    def _covered(self) -> float:
        """Turn on as the time has come, and return how much of the roof is covered, from 0 to 1."""
        if not self._covers:
            return 1.0
        if self._covers_from is None:
            self._covers_from = self.now_ms
        share = min(1.0, (self.now_ms - self._covers_from) / COVERING_MS)
        eased = share * share * (3 - 2 * share)
        self.turn = replace(self.turn, yaw=(self._first_yaw + 360 * eased) % 360)
        if share >= 1.0:
            self._covers = False
            self.layer.invalidate()
        return share

    def turn_by(self, yaw: float, tilt: float) -> None:
        """Turn by so many degrees."""
        self.turn = self.turn.turned(yaw, tilt)
        self._covers = False  # whoever turns it takes over
        self._turned_at = self.now_ms
        self.layer.invalidate()

    def turn_on(self) -> None:
        """Turn by an eighth."""
        self.turn_by(LARGE_STEP, 0.0)

    def tilt_on(self) -> None:
        """Go on to the next look downwards."""
        higher = [tilt for tilt in TILTS if tilt > self.turn.tilt + 1]
        self.turn_by(0.0, (higher or TILTS)[0] - self.turn.tilt)

    def show_all(self) -> None:
        """Show all of the house as it is turned now."""
        self.camera.look_at(self._box())

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        share = self._covered()
        if not self.turning and not self._covers:
            super().draw(ui, surface)
            return
        items = sketch(self.scene3, self.turn, planes=self.planes, share=share)
        window = surface.subsurface(self.rect.clip(surface.get_rect()))
        view = self.camera.view
        # The ground is filled with the rest: only what is over it is cleared first.
        horizon = max(item.points[2][1] for item in items[:2] if isinstance(item, Polygon) and item.fill == "ground")
        window.fill(ui.look["paper"], (0, 0, self.rect.width, max(0, math.ceil(view.to_px((0.0, horizon))[1]))))
        Brush(window, ui.look.colours, view, quick=True).paint_sheet(items)
        self._draw_note(ui, surface)
        draw_focus(ui, surface, self)

    # doing

    def turn_key(self, event: pygame.event.Event) -> bool:
        """Turn by the arrows."""
        if event.key not in _ARROWS or event.mod & pygame.KMOD_CTRL:
            return False
        across, up = _ARROWS[event.key]
        self.turn_by(-across * STEP, up * STEP)
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        self._button = button
        return super().on_press(ui, pos, button)

    def on_drag(self, ui: Ui, pos: tuple[int, int]) -> None:
        if self._button != 1:
            super().on_drag(ui, pos)
            return
        moved = self.dragged(pos)
        if moved is not None:
            self.turn_by(moved[0] * DEGREES_PER_PX, moved[1] * DEGREES_PER_PX)

    def on_hover(self, ui: Ui, pos: tuple[int, int]) -> bool:
        return False

    def _pick(self, place: Point, button: int) -> None:
        tag = self.truss_at(place)
        if tag and button == 1:
            self._choose(tag)

    def truss_at(self, place: Point) -> str:
        """Return the truss that passes nearest to a place of the paper, if one is near enough."""
        best, reach = "", NEAR_PX * self.camera.mm_per_px
        for tag, solid in self.scene3.solids.items():
            points = self.turn.all_flat(solid.at(run, z) for run, z in solid.member.top)
            off = min((_off(place, a, b) for a, b in pairwise(points)), default=math.inf)
            if off < reach:
                best, reach = tag, off
        return best


def _off(place: Point, a: Point, b: Point) -> float:
    """Distance of a place from a straight piece."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy or 1.0
    t = min(1.0, max(0.0, ((place[0] - a[0]) * dx + (place[1] - a[1]) * dy) / square))
    return math.dist(place, (a[0] + t * dx, a[1] + t * dy))
