"""One line of typing: a number as people write it, a code name, a few words."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.widgets.base import Ui, draw_focus
from trainer.board.widgets.captioned import Captioned

MOST_LETTERS = 40


class LineEntry(Captioned):
    """A line of text. It keeps each letter as it is typed; Enter calls ``enter``, Up and Down call ``step``.

    It holds ``most`` letters.
    """

    role = "entry"

    def __init__(
        self, name: str, text: str, take: Callable[[str], None], *, key: str = "",
        enter: Callable[[], None] | None = None, step: Callable[[int], None] | None = None, most: int = MOST_LETTERS,
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.text = text
        self.take = take
        self.enter = enter
        self.step = step
        self.most = most

    @property
    def value(self) -> str:
        return self.text

    def wide(self, ui: Ui) -> int:
        return max(ui.look.px(260), self.caption_wide(ui))

    def caption(self, ui: Ui, width: int) -> list[str]:
        return ui.look.wrap(self.name, "small", width)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, box = ui.look, self.box(ui)
        self.draw_caption(ui, surface)
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if ui.hover == self.key else 2, border_radius=look.px(4))
        caret = "|" if ui.focus == self.key else ""
        drawn = look.text(f"{self.value}{caret}", "strong", "panel_ink")
        room = box.width - look.px(16)
        # What is longer than the box shows its end, where one types.
        shown = pygame.Rect(max(0, drawn.get_width() - room), 0, room, drawn.get_height())
        surface.blit(drawn, (box.left + look.px(8), box.centery - drawn.get_height() // 2), shown)
        draw_focus(ui, surface, self, box)

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        typed = getattr(event, "unicode", "")
        if event.key == pygame.K_BACKSPACE:
            self.take(self.text[:-1])
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER} and self.enter:
            self.enter()
        elif event.key in {pygame.K_UP, pygame.K_DOWN} and self.step:
            self.step(-1 if event.key == pygame.K_UP else 1)
        elif typed and typed.isprintable():
            self.take((self.text + typed)[: self.most])
        else:
            return False
        ui.refresh()
        return True
