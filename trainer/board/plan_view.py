"""The plan on the screen: a widget that shows a drawing through a camera, and says where on it the mouse is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

import pygame

from trainer.board.camera import Camera
from trainer.board.layers import StillLayer
from trainer.board.magnifier import Live, Magnifier, Still
from trainer.board.paint import Brush
from trainer.board.widgets import Node, Ui, Widget
from trainer.board.widgets.base import draw_focus
from trainer.picture.lettering import text_box
from trainer.picture.model import Box, Item, Text, View
from trainer.picture.placing import Lettering, letter, lettered
from trainer.plan import Point
from trainer.words import ngettext

CLICK_PX = 5
"""A press that moves less than this is a click, more is a drag."""
MOST_NOTE = 4
"""A note takes no more than one part in so many of the height. Two spaces stand between its sentences."""


class Drawer(Protocol):
    """Something that is drawn on the plan instead of what its screen does there: it has the mouse and the keys."""

    @property
    def status(self) -> str: ...
    def press(self, place: Point, mm_per_px: float) -> None: ...
    def follow(self, place: Point, mm_per_px: float) -> None: ...
    def release(self) -> None: ...
    def key(self, event: pygame.event.Event) -> bool: ...
    def items(self, scale: float) -> list[Item]: ...


class PlanView(Widget):
    """A drawing that can be moved and zoomed. It lives as long as its screen.

    ``still`` gives, for a scale in px per mm, what is painted once and cached; ``live`` paints what moves. ``outlying``
    gives what of it may have lettering that stands out of the box, where that is not all of it.
    ``at_point`` is called with the place under the mouse, ``click`` with the place and button of a click,
    ``press_key`` with keys. ``note`` gives a line to be written at its foot, ``over`` paints over all of it. A
    ``magnifier`` is held over the mouse, or over the ``chosen_place``; ``pointer_moved`` is then called. While there
    is a ``drawer``, that has the mouse and the keys; other buttons than the first still move the drawing.
    """

    role = "plan"
    focusable = True

    def __init__(
        self, name: str, box: Box, still: Still, live: Live | None = None, outlying: Still | None = None
    ) -> None:
        super().__init__(name, key=f"plan:{name}")
        self.still = still
        self._outlying = outlying or still
        self._ui: Ui | None = None
        self.camera = Camera(self._lettering)
        self.camera.look_at(box)
        self.layer = StillLayer(self._paint_still)
        self.ground = "paper"
        self.live = live
        self.at_point: Callable[[Point | None], None] | None = None
        self.click: Callable[[Point, int], None] | None = None
        self.press_key: Callable[[pygame.event.Event], bool] | None = None
        self.status = ""
        self.drawer: Drawer | None = None
        self.note: Callable[[], str] = str
        self.over: Callable[[Ui, pygame.Surface, View], None] | None = None
        self.magnifier: Magnifier | None = None
        self.chosen_place: Callable[[], Point | None] = lambda: None
        self.pointer_moved: Callable[[], None] = lambda: None
        self._pointer: tuple[int, int] | None = None
        self.list_places: Callable[[], tuple[Node, ...]] = tuple
        self.now_ms = 0
        self._texts: list[tuple[str, Box]] = []
        self._painted: Lettering | None = None
        self._grip: tuple[int, int] | None = None
        self._moved = False

    @property
    def value(self) -> str:
        return self.status if self.drawer is None else self.drawer.status

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("focus", "paper"), ("mark", "paper"), ("plate_edge", "paper"), ("timber_edge", "paper"))

    def invalidate(self) -> None:
        """What is drawn has changed."""
        self.layer.invalidate()

    @property
    def resting(self) -> bool:
        """Whether the cached painting is of the present view, so that nothing is left to paint."""
        return not self.layer.waiting(self.camera.view)

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        self.rect = pygame.Rect(rect)
        self._ui = ui
        self.camera.resize((rect.width, rect.height), self._foot(ui), ui.look.scale)

    def to_mm(self, pos: tuple[float, float]) -> Point:
        """Turn a place on the window into one on the plan."""
        return self.camera.view.to_mm((pos[0] - self.rect.left, pos[1] - self.rect.top))

    def to_window(self, point: Point) -> tuple[int, int]:
        """Turn a place on the plan into one on the window."""
        x, y = self.camera.view.to_px(point)
        return (round(x) + self.rect.left, round(y) + self.rect.top)

    # drawing

    def text_scale(self) -> float:
        """How much larger than usual text is."""
        return self._ui.look.scale if self._ui is not None else 1.0

    def _lettering(self, scale: float) -> tuple[float, float, float, float]:
        """Return by how many px lettering stands out of the drawing; before there is a look, nothing is known."""
        if self._ui is None:
            return (0.0, 0.0, 0.0, 0.0)
        return lettered(self._outlying(scale), scale, self._ui.look.scale, self.camera.box)

    def _paint_still(self, surface: pygame.Surface, view: View) -> None:
        assert self._ui is not None
        surface.fill(self._ui.look["paper"])
        look = self._ui.look
        drawn = self._painted = letter(self.still(view.scale), view.scale, look.scale, within=self.reach())
        self._texts = [(item.text, text_box(item, view.scale)) for item in drawn.items if isinstance(item, Text)]
        Brush(surface, look.colours, view).paint_sheet(drawn.items)

    def reach(self) -> Box:
        """Return how far lettering may be led away: over all that is shown above the note, and the drawing beyond."""
        view, (left, low, right, high) = self.camera.view, self.camera.box
        (x0, y1), (x1, y0) = view.to_mm((0.0, 0.0)), view.to_mm((self.rect.width, self.rect.height - self.camera.foot))
        return (min(left, x0), min(low, y0), max(right, x1), max(high, y1))

    def words_at(self, place: Point) -> str:
        """Return the lettering that is painted at a place, if any."""
        x, y = place
        return next((said for said, (x0, y0, x1, y1) in self._texts if x0 <= x <= x1 and y0 <= y <= y1), "")

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        self._ui = ui
        surface.fill(ui.look["paper"], self.rect) if not self.resting else None
        self.layer.show(surface, self.rect, self.camera.view, self.now_ms)
        if self.camera.fitted and self._foot(ui) > self.camera.foot:
            # Only once it is painted is it known that labels are left out; the line that says so covers none of them.
            self.camera.resize(self.rect.size, self._foot(ui), ui.look.scale)
            self.layer.invalidate()
            self.layer.show(surface, self.rect, self.camera.view, self.now_ms)
        window = surface.subsurface(self.rect.clip(surface.get_rect()))
        view = self.camera.view
        brush = Brush(window, ui.look.colours, view, lettering=ui.look.scale, inside=True, among=self._painted)
        if self.drawer is not None:
            brush.paint(self.drawer.items(self.camera.view.scale))
        elif self.live is not None:
            self.live(brush)
        if self.over is not None:
            free = window.get_rect()
            free.height = max(1, free.height - self._foot(ui))
            self.over(ui, window.subsurface(free), view)
        self._draw_note(ui, surface)
        place = self._magnified(ui) if self.magnifier is not None else None
        if self.magnifier is not None and place is not None:
            self.magnifier.paint(ui, window, view, place, (self.layer.paintings, self.still), self.live)
        draw_focus(ui, surface, self)

    def _magnified(self, ui: Ui) -> Point | None:
        """Return the place that the magnifier is held over: the mouse, unless somebody works by keyboard."""
        chosen = self.chosen_place()
        if self._pointer is None or (ui.show_focus and chosen is not None):
            return chosen
        return self.to_mm(self._pointer)

    def _note_lines(self, ui: Ui) -> list[str]:
        left_out = self._left_out_in_words()
        said = self.note().split("  ")
        # The drawing comes first: where little of it would be left, fewer sentences are said, or none.
        for many in range(len(said), -1, -1):
            note = "  ".join(filter(None, (*said[:many], left_out)))
            lines = ui.look.wrap(note, "small", self.rect.width - ui.look.px(24)) if note else []
            if len(lines) * ui.look.line("small") * MOST_NOTE < self.rect.height:
                return lines
        return []

    def _foot(self, ui: Ui) -> int:
        """Return how high the note at the foot is, px."""
        return len(self._note_lines(ui)) * ui.look.line("small")

    def _left_out_in_words(self) -> str:
        """Say how many labels have no room here, so that nobody takes what is lettered for all there is."""
        n = len(self._painted.left_out) if self._painted is not None else 0
        if self.magnifier is not None:
            return ""
        said = ngettext("{n} label has no room here. Nearer: +", "{n} labels have no room here. Nearer: +", n)
        return said.format(n=n) if n else ""

    def _draw_note(self, ui: Ui, surface: pygame.Surface) -> None:
        """Write at the foot what has to be known of how things are shown."""
        look, lines = ui.look, self._note_lines(ui)
        top = self.rect.bottom - len(lines) * look.line("small") - 4
        for number, line in enumerate(lines):
            at = (self.rect.left + look.px(12), top + number * look.line("small"))
            drawn = look.text(line, "small", "faint")
            surface.fill(look["paper"], drawn.get_rect(topleft=at).inflate(8, 0))
            surface.blit(drawn, at)

    # doing

    def _moved_view(self, ui: Ui) -> None:
        if self.at_point is not None:
            self.at_point(None)

    def on_wheel(self, ui: Ui, amount: float, pos: tuple[int, int]) -> bool:
        self.camera.zoom(1.18**amount, (pos[0] - self.rect.left, pos[1] - self.rect.top))
        return True

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & pygame.KMOD_CTRL:
            step = self.rect.width * 0.12
            pans = {
                pygame.K_LEFT: (step, 0),
                pygame.K_RIGHT: (-step, 0),
                pygame.K_UP: (0, step),
                pygame.K_DOWN: (0, -step),
            }
            if event.key in pans:
                self.camera.pan(*pans[event.key])
                return True
            return False
        if self.drawer is not None:
            return self.drawer.key(event)
        return self.press_key is not None and self.press_key(event)

    def zoom_by(self, by: float) -> None:
        """Enlarge by a factor about the middle."""
        self.camera.zoom(by, (self.rect.width / 2, self.rect.height / 2))

    def show_all(self) -> None:
        """Show the whole drawing again."""
        self.camera.fit()

    def zoom_key(self, event: pygame.event.Event) -> bool:
        """Zoom by the keys that do so anywhere on the screen."""
        if event.key in {pygame.K_PLUS, pygame.K_EQUALS, pygame.K_KP_PLUS, pygame.K_RIGHTBRACKET}:
            self.zoom_by(1.25)
        elif event.key in {pygame.K_MINUS, pygame.K_KP_MINUS, pygame.K_LEFTBRACKET}:
            self.zoom_by(0.8)
        elif event.key in {pygame.K_0, pygame.K_KP0}:
            self.show_all()
        else:
            return False
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        self._grip = pos
        self._moved = False
        if self.drawer is not None and button == 1:
            self._grip = None
            self.drawer.press(self.to_mm(pos), self.camera.mm_per_px)
        return True

    def dragged(self, pos: tuple[int, int]) -> tuple[int, int] | None:
        """Return how far the mouse has been dragged since last asked, px; none while it may still be a click."""
        if self._grip is None:
            return None
        dx, dy = pos[0] - self._grip[0], pos[1] - self._grip[1]
        if not self._moved and abs(dx) + abs(dy) <= CLICK_PX:
            return None
        self._moved = True
        self._grip = pos
        return dx, dy

    def on_drag(self, ui: Ui, pos: tuple[int, int]) -> None:
        moved = self.dragged(pos)
        if self.drawer is not None and self._grip is None:
            self.drawer.follow(self.to_mm(pos), self.camera.mm_per_px)
        elif moved is not None:
            self.camera.pan(*moved)
            self._moved_view(ui)

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        if self.drawer is not None and button == 1:
            self.drawer.release()
        elif not self._moved and self.click is not None and self.rect.collidepoint(pos):
            self.click(self.to_mm(pos), button)
        self._grip = None

    def on_hover(self, ui: Ui, pos: tuple[int, int]) -> bool:
        self._pointer = pos
        if self.magnifier is not None:
            self.pointer_moved()
        if self.drawer is not None:
            self.drawer.follow(self.to_mm(pos), self.camera.mm_per_px)
        elif self.at_point is not None:
            self.at_point(self.to_mm(pos))
        return True

    def node(self, ui: Ui) -> Node:
        from dataclasses import replace

        return replace(super().node(ui), children=self.list_places())
