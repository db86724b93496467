"""A choice of a few values, of which one shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from trainer.board.widgets.base import Ui, draw_focus
from trainer.board.widgets.captioned import Captioned

LEAST_END = 24
"""Width of the end that is pressed to go back, px, however small it is drawn."""


class Choice(Captioned):
    """One of a few values: Left and Right go through them; so does a press, back on its left end alone."""

    role = "choice"

    def __init__(
        self, name: str, options: Sequence[str], index: int, change: Callable[[int], None], *, key: str = "",
        shortcut: str = "", ground: str = "panel", tight: bool = False,
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.ground = ground
        self.style = "small" if tight else "body"
        self.tight = tight
        self.options = tuple(options)
        self.index = index
        self.change = change
        self.shortcut = shortcut

    @property
    def value(self) -> str:
        return self.options[self.index] if self.options else ""

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return ((self.caption_ink, self.ground), ("button_ink", "button"))

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("button_edge", self.ground), ("button_ink", "button"), ("focus", self.ground))

    def _widest(self, ui: Ui) -> int:
        return max((ui.look.width(option, self.style) for option in self.options), default=0)

    def wide(self, ui: Ui) -> int:
        return max(self._widest(ui) + 2 * self._end(ui) + ui.look.px(8), self.caption_wide(ui))

    def _end(self, ui: Ui) -> int:
        return ui.look.px(10 if self.tight else 30)

    def lines(self, ui: Ui, width: int) -> int:
        room = max(20, width - 2 * self._end(ui))
        return max((len(ui.look.wrap(option, self.style, room)) for option in self.options), default=1)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, box, end = ui.look, self.box(ui), self._end(ui)
        self.draw_caption(ui, surface)
        pygame.draw.rect(surface, look["button"], box, border_radius=look.px(4))
        hot = ui.hover == self.key
        pygame.draw.rect(surface, look["button_edge"], box, 2 if hot else 1, border_radius=look.px(4))
        lines = look.wrap(self.value, self.style, box.width - 2 * end)
        top = box.centery - look.line(self.style) * len(lines) // 2
        for number, line in enumerate(lines):
            drawn = look.text(line, self.style, "button_ink")
            surface.blit(drawn, (box.centerx - drawn.get_width() // 2, top + number * look.line(self.style)))
        if len(self.options) > 1:
            for x, way in ((box.left + end // 2, -1), (box.right - end // 2, 1)):
                size = look.px(5)
                points = [
                    (x - way * size // 2, box.centery - size),
                    (x - way * size // 2, box.centery + size),
                    (x + way * size, box.centery),
                ]
                pygame.draw.polygon(surface, look["button_ink"], points)
        draw_focus(ui, surface, self, box)

    def step(self, by: int) -> None:
        """Go on to the next value, or back."""
        if self.options:
            self.change((self.index + by) % len(self.options))

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        steps = {pygame.K_LEFT: -1, pygame.K_RIGHT: 1, pygame.K_SPACE: 1}
        if event.key not in steps:
            return False
        self.step(steps[event.key])
        return True

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        if button == 1 and self.visible_rect().collidepoint(pos):
            self.step(-1 if pos[0] < self.rect.left + max(LEAST_END, self._end(ui)) else 1)
