"""A line through an attempt from its first action to its last, with marks on it, to go to any moment."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from trainer.board.icons import icon
from trainer.board.look import LEAST_TARGET
from trainer.board.widgets.base import Ui, Widget, draw_focus

PAGE = 10
STEPS = (1, 2, 5, 10, 20, 50, 100)
"""How many actions one division of the line may stand for."""


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
        tape = pygame.Rect(left, self.rect.bottom - look.px(21), right - left, look.px(10))
        x = self.x_of(ui, self.at_moment)
        pygame.draw.rect(surface, look["mark"], (left, tape.top, x - left, tape.height))
        pygame.draw.rect(surface, look["faint"], tape, 1)
        self._draw_divisions(ui, surface, tape)
        size = look.px(18)
        for moment, picture in self.marks:
            at = self.x_of(ui, moment)
            pygame.draw.line(surface, look["faint"], (at, tape.top - look.px(4)), (at, tape.bottom), 2)
            surface.blit(icon(look, picture, size), (at - size // 2, tape.top - look.px(5) - size))
        self._draw_pencil(ui, surface, (x, tape.top), ("paper", 2), ("mark", 0))
        draw_focus(ui, surface, self)

    def _draw_divisions(self, ui: Ui, surface: pygame.Surface, tape: pygame.Rect) -> None:
        """Divide the line as a tape is, as finely as can be seen: each tenth division is longer."""
        room = tape.width / max(1, self.last)
        step = next(each for each in STEPS if each * room >= ui.look.px(6) or each == STEPS[-1])
        for number, moment in enumerate(range(0, self.last, step)):
            x = self.x_of(ui, moment)
            high = tape.height if number % 10 == 0 else tape.height // 2
            ink = ui.look["paper" if moment < self.at_moment else "faint"]
            pygame.draw.line(surface, ink, (x, tape.bottom - high), (x, tape.bottom - 1))

    def _draw_pencil(self, ui: Ui, surface: pygame.Surface, tip: tuple[int, int], *coats: tuple[str, int]) -> None:
        """Draw the point of a pencil at where it is, set off from the line by a rim."""
        x, top = tip
        half, shoulder, foot = ui.look.px(7), ui.look.px(10), ui.look.px(19)
        for role, rim in coats:
            wide = half + rim
            points = [(x, top - 2 * rim), (x + wide, top + shoulder - rim), (x + wide, top + foot + rim)]
            points += [(2 * x - at, y) for at, y in reversed(points[1:])]
            pygame.draw.polygon(surface, ui.look[role], points)

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
