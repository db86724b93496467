"""A measure to type in, or to step up and down."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from trainer.board.widgets.base import Ui, draw_focus
from trainer.board.widgets.captioned import Captioned
from trainer.plan.points import half

MOST_LETTERS = 9
FURTHEST = 200_000.0
"""How far from zero a measure may be, as far as a level's places may, mm."""


class NumberEntry(Captioned):
    """A measure in millimetres. Digits start a new number; Enter takes it; Up and Down nudge it.

    With ``stops`` it goes from one of them to the next. One that is ``blank`` shows nothing: where there is no measure
    yet, ``number`` is where Up and Down begin.
    """

    role = "entry"

    def __init__(
        self, name: str, number: float, take: Callable[[float], None], *, key: str = "", unit: str = "mm",
        enter: Callable[[], None] | None = None, nudge: float = 1.0, blank: bool = False,
        stops: Sequence[float] = (),
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.number = number
        self.take = take
        self.enter = enter
        self.unit = unit
        self.nudge = nudge
        self.blank = blank
        self.stops = tuple(stops)

    @property
    def value(self) -> str:
        return "" if self.blank else f"{self.number:.1f}".removesuffix(".0") + f" {self.unit}"

    def wide(self, ui: Ui) -> int:
        return max(
            ui.look.width(f"-00000.0 {self.unit}", "strong") + ui.look.px(12) + 2 * max(24, ui.look.px(24)),
            self.caption_wide(ui),
        )

    def _draft(self, ui: Ui) -> str | None:
        draft = ui.memory.get(f"draft/{self.key}")
        return None if draft is None or ui.focus != self.key else str(draft)

    def steppers(self, ui: Ui) -> tuple[pygame.Rect, pygame.Rect]:
        """Where less and more are pressed by mouse, at the right of the box."""
        box, wide = self.box(ui), max(24, ui.look.px(24))
        more = pygame.Rect(box.right - wide - 2, box.top, wide, box.height)
        return more.move(-wide, 0), more

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look = ui.look
        self.draw_caption(ui, surface)
        box = self.box(ui)
        pygame.draw.rect(surface, look["panel"], box, border_radius=look.px(4))
        hot = ui.hover == self.key
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if hot else 2, border_radius=look.px(4))
        draft = self._draft(ui)
        drawn = look.text(self.value if draft is None else f"{draft}|", "strong", "panel_ink")
        steppers = self.steppers(ui)
        self.cut = box.left + look.px(8) + drawn.get_width() > steppers[0].left
        surface.blit(drawn, (box.left + look.px(8), box.centery - drawn.get_height() // 2))
        arm = look.px(5)
        for place, upright in zip(steppers, (False, True), strict=True):
            x, y = place.center
            pygame.draw.line(surface, look["panel_ink"], (x - arm, y), (x + arm, y), 2)
            if upright:
                pygame.draw.line(surface, look["panel_ink"], (x, y - arm), (x, y + arm), 2)
        draw_focus(ui, surface, self, box)

    def commit(self, ui: Ui) -> None:
        """Take what has been typed, if anything that is a number."""
        draft = ui.memory.pop(f"draft/{self.key}", None)
        if draft is None:
            return
        try:
            number = float(str(draft).replace(",", "."))
        except ValueError:
            ui.refresh()
            return
        self.take(max(-FURTHEST, min(FURTHEST, half(number))))

    def on_leave(self, ui: Ui) -> None:
        self.commit(ui)

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        slot = f"draft/{self.key}"
        typed = getattr(event, "unicode", "")
        if typed and typed in "0123456789.,-":
            draft = str(ui.memory.get(slot) or "")
            if len(draft) < MOST_LETTERS:
                ui.memory[slot] = draft + typed
        elif event.key == pygame.K_BACKSPACE:
            ui.memory[slot] = str(ui.memory.get(slot) or ("" if self.blank else f"{self.number:g}"))[:-1]
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.commit(ui)
            if self.enter:
                self.enter()
        elif event.key in {pygame.K_UP, pygame.K_DOWN}:
            self.commit(ui)
            self.take(self._stepped(1 if event.key == pygame.K_UP else -1, 10 if event.mod & pygame.KMOD_SHIFT else 1))
        elif event.key == pygame.K_ESCAPE and slot in ui.memory:
            ui.memory.pop(slot)
        else:
            return False
        ui.refresh()
        return True

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        less, more = self.steppers(ui)
        if button == 1 and (less.collidepoint(pos) or more.collidepoint(pos)):
            self._step(ui, 1 if more.collidepoint(pos) else -1)

    def _step(self, ui: Ui, way: int) -> None:
        self.commit(ui)
        self.take(self._stepped(way))
        ui.refresh()

    def _stepped(self, way: int, times: int = 1) -> float:
        """The number a step up or down from here: the next stop, or else so much more or less."""
        beyond = [stop for stop in self.stops if (stop - self.number) * way > 0.25]
        nearest = min(beyond, key=lambda stop: abs(stop - self.number), default=None)
        return self.number + way * times * self.nudge if nearest is None else nearest
