"""A line to write words in."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.widgets.base import Ui, Widget, control_height, draw_focus

MOST = 60
"""Letters that it takes."""


class Writing(Widget):
    """A line of text. Every letter is taken as it is typed; Up and Down ``step`` through what it finds, Enter goes."""

    role = "writing"
    focusable = True

    def __init__(
        self, name: str, text: str, write: Callable[[str], None], *, key: str, go: Callable[[], None],
        step: Callable[[int], None],
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.text = text
        self.write = write
        self.go = go
        self.step = step

    @property
    def value(self) -> str:
        return self.text

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return (("panel_faint", "panel"), ("panel_ink", "panel"))

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("panel_edge", "panel"), ("focus", "panel"))

    def wide(self, ui: Ui) -> int:
        return ui.look.px(300)

    def _caption(self, ui: Ui, width: int) -> list[str]:
        return ui.look.wrap(self.name, "small", width)

    def high(self, ui: Ui, width: int) -> int:
        return len(self._caption(ui, width)) * ui.look.line("small") + control_height(ui)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, top = ui.look, self.rect.top
        for line in self._caption(ui, self.rect.width):
            surface.blit(look.text(line, "small", "panel_faint"), (self.rect.left, top))
            top += look.line("small")
        box = pygame.Rect(self.rect.left, top, self.rect.width, self.rect.bottom - top)
        pygame.draw.rect(surface, look["panel_edge"], box, 2, border_radius=look.px(4))
        drawn = look.text(f"{self.text}|", "body", "panel_ink")
        room = box.width - look.px(16)
        # The end of what is typed always shows.
        piece = pygame.Rect(max(0, drawn.get_width() - room), 0, room, drawn.get_height())
        surface.blit(drawn, (box.left + look.px(8), box.centery - drawn.get_height() // 2), piece)
        whole, self.rect = self.rect, box
        draw_focus(ui, surface, self)
        self.rect = whole

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        typed = getattr(event, "unicode", "")
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key == pygame.K_BACKSPACE:
            self.write(self.text[:-1])
        elif event.key in {pygame.K_UP, pygame.K_DOWN}:
            self.step(-1 if event.key == pygame.K_UP else 1)
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.go()
        elif typed and typed.isprintable():
            self.write((self.text + typed)[:MOST])
        else:
            return False
        ui.refresh()
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        return button == 1
