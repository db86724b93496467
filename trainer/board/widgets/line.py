"""One line of typing: a number as people write it, a code name, a few words."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.widgets.base import Ui, draw_focus
from trainer.board.widgets.captioned import Captioned
from trainer.words import printable

MOST_LETTERS = 40


class LineEntry(Captioned):
    """A line of text, of ``most`` letters. It keeps each letter as it is typed; Ctrl V takes what was copied elsewhere.

    Enter calls ``enter``, Up and Down call ``step``. What is ``secret`` shows as dots.
    """

    role = "entry"

    def __init__(
        self, name: str, text: str, take: Callable[[str], None], *, key: str = "",
        enter: Callable[[], None] | None = None, step: Callable[[int], None] | None = None, most: int = MOST_LETTERS,
        secret: bool = False,
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.text = text
        self.take = take
        self.enter = enter
        self.step = step
        self.most = most
        self.secret = secret

    @property
    def value(self) -> str:
        return "•" * len(self.text) if self.secret else self.text

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

    def pasted(self, text: str) -> str:
        """Return what is taken of a copied text: its first line."""
        lines = text.splitlines()
        return printable(lines[0]) if lines else ""

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.key == pygame.K_v and event.mod & pygame.KMOD_CTRL:
            self.take((self.text + self.pasted(copied()))[: self.most])
            ui.refresh()
            return True
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


class TextEntry(LineEntry):
    """A few lines of text, of which the last ones show; Enter begins another line."""

    def __init__(
        self, name: str, text: str, take: Callable[[str], None], *, key: str = "", most: int = 20_000, show: int = 5
    ) -> None:
        super().__init__(name, text, take, key=key, most=most)
        self.show = show
        self.enter = lambda: self.take((self.text + "\n")[: self.most])

    def lines(self, ui: Ui, width: int) -> int:
        return self.show

    def pasted(self, text: str) -> str:
        return printable("\n".join(text.splitlines())) + "\n"

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, box = ui.look, self.box(ui)
        self.draw_caption(ui, surface)
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if ui.hover == self.key else 2, border_radius=look.px(4))
        caret = "|" if ui.focus == self.key else ""
        top = box.top + look.px(4)
        before = surface.get_clip()
        surface.set_clip(box.inflate(-6, -6).clip(before))
        for line in f"{self.text}{caret}".split("\n")[-self.show :]:
            surface.blit(look.text(line, "body", "panel_ink"), (box.left + look.px(8), top))
            top += look.line("body")
        surface.set_clip(before)
        draw_focus(ui, surface, self, box)


def copied() -> str:
    """Return the text that was copied on this machine; nothing where the system gives none."""
    try:
        return pygame.scrap.get_text()
    except pygame.error:
        return ""
