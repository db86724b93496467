"""One line of typing: a number as people write it, a code name, a few words."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.widgets.base import Ui, Widget, control_height, draw_focus


class LineEntry(Widget):
    """A line of text. It keeps each letter as it is typed; Enter calls ``enter``."""

    role = "entry"
    focusable = True

    def __init__(
        self, name: str, text: str, take: Callable[[str], None], *, key: str = "", most: int = 40,
        enter: Callable[[], None] | None = None, secret: bool = False,
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.text = text
        self.take = take
        self.enter = enter
        self.most = most
        self.secret = secret

    @property
    def value(self) -> str:
        return "•" * len(self.text) if self.secret else self.text

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return (("panel_faint", "panel"), ("panel_ink", "panel"))

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("panel_edge", "panel"), ("focus", "panel"))

    def wide(self, ui: Ui) -> int:
        return max(ui.look.px(260), ui.look.width(self.name, "small"))

    def high(self, ui: Ui, width: int) -> int:
        return ui.look.line("small") * len(ui.look.wrap(self.name, "small", width)) + control_height(ui)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look = ui.look
        top = self.rect.top
        for line in look.wrap(self.name, "small", self.rect.width):
            surface.blit(look.text(line, "small", "panel_faint"), (self.rect.left, top))
            top += look.line("small")
        box = pygame.Rect(self.rect.left, top, self.rect.width, self.rect.bottom - top)
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if ui.hover == self.key else 2, border_radius=look.px(4))
        caret = "|" if ui.focus == self.key else ""
        drawn = look.text(f"{self.value}{caret}", "strong", "panel_ink")
        room = box.width - look.px(16)
        # What is longer than the box shows its end, where one types.
        shown = pygame.Rect(max(0, drawn.get_width() - room), 0, room, drawn.get_height())
        surface.blit(drawn, (box.left + look.px(8), box.centery - drawn.get_height() // 2), shown)
        if ui.focus == self.key:
            ring, self.rect = self.rect, box
            draw_focus(ui, surface, self)
            self.rect = ring

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        typed = getattr(event, "unicode", "")
        if event.key == pygame.K_BACKSPACE:
            self.take(self.text[:-1])
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            if self.enter is None:
                return False
            self.enter()
        elif typed and typed.isprintable():
            self.take((self.text + typed)[: self.most])
        else:
            return False
        ui.refresh()
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        return button == 1
