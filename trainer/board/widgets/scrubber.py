"""A line through an attempt from its first action to its last, with marks on it, to go to any moment."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from trainer.board.icons import icon
from trainer.board.look import LEAST_TARGET
from trainer.board.widgets.base import Ui, Widget, draw_focus

PAGE = 10


class Scrubber(Widget):
    """Moments from 0 to ``last``; ``marks`` are (moment, icon) of what was found.

    Arrows, Home, End and the mouse move it.
    """

    role = "slider"
    focusable = True

    def __init__(
        self, name: str, at: int, last: int, go: Callable[[int], None], marks: Sequence[tuple[int, str]], *,
        key: str = "",
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.at_moment = at
        self.last = last
        self.go = go
        self.marks = tuple(marks)
        self.ground = "paper"

    @property
    def value(self) -> str:
        return f"{self.at_moment} / {self.last}"

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("faint", self.ground), ("mark", self.ground), ("focus", self.ground))

    def wide(self, ui: Ui) -> int:
        return ui.look.px(320)

    def high(self, ui: Ui, width: int) -> int:
        return max(LEAST_TARGET, ui.look.px(18)) + ui.look.px(20)

    def _ends(self, ui: Ui) -> tuple[int, int]:
        pad = ui.look.px(14)
        return self.rect.left + pad, self.rect.right - pad

    def x_of(self, ui: Ui, moment: int) -> int:
        """Where a moment is on the line, px."""
        left, right = self._ends(ui)
        return left + (right - left) * moment // max(1, self.last)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look = ui.look
        left, right = self._ends(ui)
        line = self.rect.bottom - look.px(16)
        pygame.draw.line(surface, look["faint"], (left, line), (right, line), 2)
        size = look.px(18)
        for moment, picture in self.marks:
            x = self.x_of(ui, moment)
            pygame.draw.line(surface, look["faint"], (x, line - look.px(8)), (x, line), 2)
            surface.blit(icon(look, picture, size), (x - size // 2, line - look.px(10) - size))
        x = self.x_of(ui, self.at_moment)
        pygame.draw.line(surface, look["mark"], (left, line), (x, line), max(3, look.px(4)))
        pygame.draw.circle(surface, look["mark"], (x, line), look.px(9))
        draw_focus(ui, surface, self)

    def _to(self, ui: Ui, pos: tuple[int, int]) -> None:
        left, right = self._ends(ui)
        self._move(round((pos[0] - left) / max(1, right - left) * self.last))

    def _move(self, moment: int) -> None:
        self.go(max(0, min(self.last, moment)))

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        moves = {
            pygame.K_LEFT: self.at_moment - 1, pygame.K_RIGHT: self.at_moment + 1, pygame.K_HOME: 0,
            pygame.K_END: self.last, pygame.K_PAGEUP: self.at_moment - PAGE, pygame.K_PAGEDOWN: self.at_moment + PAGE,
        }  # fmt: skip
        if event.key not in moves:
            return False
        self._move(moves[event.key])
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        if button == 1:
            self._to(ui, pos)
        return button == 1

    def on_drag(self, ui: Ui, pos: tuple[int, int]) -> None:
        self._to(ui, pos)

    def on_wheel(self, ui: Ui, amount: float, pos: tuple[int, int]) -> bool:
        self._move(self.at_moment + (1 if amount < 0 else -1))
        return True
