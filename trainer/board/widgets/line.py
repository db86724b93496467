"""One line of typing: a number as people write it, a code name, a few words."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.widgets.base import Ui, draw_focus
from trainer.board.widgets.captioned import Captioned
from trainer.board.widgets.typing import Typing, draw_typing, keep_typing, letter_at, typing_of
from trainer.words import printable

MOST_LETTERS = 40


class LineEntry(Captioned):
    """A line of text, of ``most`` letters. It keeps each letter as it is typed; Ctrl V takes what was copied elsewhere.

    The caret goes by Left, Right, Home, End and a press; with Shift what it goes over is marked, with Ctrl A all.
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

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return (*super().inks, ("panel_ink", "select"))

    def wide(self, ui: Ui) -> int:
        return max(ui.look.px(260), self.caption_wide(ui))

    def caption(self, ui: Ui, width: int) -> list[str]:
        return ui.look.wrap(self.name, "small", width)

    def typing(self, ui: Ui) -> Typing:
        """Return the text as it stands, with its caret."""
        return typing_of(ui, self.key, self.value)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, box = ui.look, self.box(ui)
        self.draw_caption(ui, surface)
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if ui.hover == self.key else 2, border_radius=look.px(4))
        typing = self.typing(ui)
        draw_typing(
            ui, surface, typing, self._room(ui), style="strong", slid=self._slide(ui, typing),
            caret=ui.focus == self.key,
        )  # fmt: skip
        draw_focus(ui, surface, self, box)

    def _room(self, ui: Ui) -> pygame.Rect:
        """Where the letters stand."""
        return self.box(ui).inflate(-2 * ui.look.px(8), -6)

    def _slide(self, ui: Ui, typing: Typing) -> int:
        """Return how much of a long text is out of sight at the left, px: so little that the caret can be seen."""
        if ui.focus != self.key:
            return 0
        slot, room = f"slid/{self.key}", self._room(ui).width - 4
        at, whole = (ui.look.width(text, "strong") for text in (typing.text[: typing.caret], typing.text))
        slid = min(int(ui.memory.get(slot, 0)), at, max(0, whole - room))
        ui.memory[slot] = slid = max(slid, at - room)
        return slid

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        if button == 1 and self.box(ui).collidepoint(pos):
            typing = self.typing(ui)
            keep_typing(ui, self.key, typing.to(self._letter_at(ui, typing, pos)))
        return super().on_press(ui, pos, button)

    def _letter_at(self, ui: Ui, typing: Typing, pos: tuple[int, int]) -> int:
        """Return before which letter a press puts the caret."""
        along = pos[0] - self._room(ui).left + self._slide(ui, typing)
        return letter_at(typing.text, along, lambda text: ui.look.width(text, "strong"))

    def on_leave(self, ui: Ui) -> None:
        keep_typing(ui, self.key, None)

    def pasted(self, text: str) -> str:
        """Return what is taken of a copied text: its first line."""
        lines = text.splitlines()
        return printable(lines[0]) if lines else ""

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        typing = typing_of(ui, self.key, self.text)
        typed, pastes = getattr(event, "unicode", ""), event.key == pygame.K_v and event.mod & pygame.KMOD_CTRL
        after = typing.put(self.pasted(copied()), self.most) if pastes else typing.key(event)
        if after is not None:
            self._stand(ui, after)
        elif event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER} and self.enter:
            self.enter()
        elif event.key in {pygame.K_UP, pygame.K_DOWN} and self.step:
            self.step(-1 if event.key == pygame.K_UP else 1)
        elif typed and typed.isprintable():
            self._stand(ui, typing.put(typed, self.most))
        else:
            return False
        ui.refresh()
        return True

    def _stand(self, ui: Ui, typing: Typing) -> None:
        """Let the text stand like that; it is taken where it is another."""
        keep_typing(ui, self.key, typing)
        if typing.text != self.text:
            self.take(typing.text)


class TextEntry(LineEntry):
    """A few lines of text, of which those by the caret show; Enter begins another line."""

    def __init__(
        self, name: str, text: str, take: Callable[[str], None], *, key: str = "", most: int = 20_000, show: int = 5
    ) -> None:
        super().__init__(name, text, take, key=key, most=most)
        self.show = show

    def lines(self, ui: Ui, width: int) -> int:
        return self.show

    def pasted(self, text: str) -> str:
        return printable("\n".join(text.splitlines())) + "\n"

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        typing = self.typing(ui)
        if event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self._stand(ui, typing.put("\n", self.most))
        elif event.key in {pygame.K_UP, pygame.K_DOWN}:
            row = typing.text.count("\n", 0, typing.caret) + (1 if event.key == pygame.K_DOWN else -1)
            column = typing.caret - typing.text.rfind("\n", 0, typing.caret) - 1
            if not 0 <= row <= typing.text.count("\n"):
                return False
            self._stand(ui, typing.to(_letter(typing.text, row, column)))
        else:
            return super().on_key(ui, event)
        ui.refresh()
        return True

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, box, room = ui.look, self.box(ui), self._room(ui)
        self.draw_caption(ui, surface)
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if ui.hover == self.key else 2, border_radius=look.px(4))
        typing, first = self.typing(ui), self._first(ui)
        for number, line in enumerate(typing.text.split("\n")[first : first + self.show]):
            start = _letter(typing.text, first + number, 0)
            caret, mark = (min(len(line), max(0, at - start)) for at in (typing.caret, typing.mark))
            place = pygame.Rect(room.left, room.top + number * look.line("body"), room.width, look.line("body"))
            here = ui.focus == self.key and start <= typing.caret <= start + len(line)
            draw_typing(ui, surface, Typing(line, caret, mark), place, style="body", slid=0, caret=here)
        draw_focus(ui, surface, self, box)

    def _first(self, ui: Ui) -> int:
        """Return the first line that shows."""
        typing = self.typing(ui)
        return min(max(0, typing.text.count("\n") + 1 - self.show), typing.text.count("\n", 0, typing.caret))

    def _letter_at(self, ui: Ui, typing: Typing, pos: tuple[int, int]) -> int:
        room, lines = self._room(ui), typing.text.split("\n")
        row = min(len(lines) - 1, max(0, self._first(ui) + (pos[1] - room.top) // ui.look.line("body")))
        column = letter_at(lines[row], pos[0] - room.left, lambda text: ui.look.width(text, "body"))
        return _letter(typing.text, row, column)


def _letter(text: str, row: int, column: int) -> int:
    """Return the place of a letter in a text of several lines; the end of its line where that is shorter."""
    lines = text.split("\n")
    return sum(len(line) + 1 for line in lines[:row]) + min(column, len(lines[row]))


def copied() -> str:
    """Return the text that was copied on this machine; nothing where the system gives none."""
    try:
        return pygame.scrap.get_text()
    except pygame.error:
        return ""
