"""A list of which one row is chosen; only the rows that show are drawn."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

import pygame

from trainer.board.icons import icon
from trainer.board.widgets.base import Node, Ui, Widget, control_height, draw_focus
from trainer.board.widgets.drawing import Painter
from trainer.board.widgets.scrollbar import dragged, draw_bar, let_go, take_hold
from trainer.words import _

CARD_GAP = 4
"""Room round each card, px at 100 %."""
DRAWN = (96, 72)
"""Width and height of a row's drawing with the room round it, px at 100 %."""
ROWS_A_NOTCH = 3.0
"""How many rows a notch of the wheel goes on."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its key, its text, something on the right, an icon, and in tall rows a second line and a drawing.

    What an icon says stands in the detail too.
    """

    key: str
    text: str
    detail: str = ""
    picture: str = ""
    ink: str = "panel_ink"
    second: str = ""
    drawing: Painter | None = None


class Listing(Widget):
    """Rows under each other. Up and Down choose, Enter or a press takes the chosen one.

    ``show`` is how many rows it asks room for; it takes more where there is more. As ``cards`` each row stands by
    itself. ``drawn`` is the room of each row's drawing.
    """

    role = "list"
    focusable = True

    def __init__(
        self, name: str, rows: Sequence[Row], chosen: str, choose: Callable[[str], None], *, key: str = "",
        take: Callable[[str], None] | None = None, empty: str = "", tall: bool = False,
        carry: Callable[[tuple[int, int]], None] | None = None, drop: Callable[[tuple[int, int]], None] | None = None,
        show: int = 0, cards: bool = False, drawn: tuple[int, int] = DRAWN,
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.rows = tuple(rows)
        self.chosen = chosen
        self.choose = choose
        self.take = take
        self.empty = empty
        self.tall = tall or cards
        self.cards = cards
        self.carry = carry
        self.drop = drop
        self.show = show or (3 if tall else 5)
        self.drawn = drawn
        self.grows = True
        self._tops: dict[int, tuple[int, ...]] = {}

    @property
    def value(self) -> str:
        return next((row.text for row in self.rows if row.key == self.chosen), "")

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        used = {(row.ink, "panel") for row in self.rows}
        return (*used, ("ink", "select"), ("panel_faint", "panel"))

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("focus", "panel"), ("mark", "select"), *((("button_edge", "panel"),) if self.cards else ()))

    def reachable(self) -> bool:
        return self.enabled and bool(self.rows)

    def wide(self, ui: Ui) -> int:
        return max((ui.look.width(f"{r.text}   {r.detail}", "body") for r in self.rows), default=0) + ui.look.px(60)

    def _arrange(self, ui: Ui, width: int) -> None:
        """Put what stands on the right of each row under it, where both have no room beside each other."""
        look = ui.look
        room = width - look.px(34) - (look.px(28) if any(row.picture for row in self.rows) else 0)
        if self.tall or all(look.width(r.text, "body") + look.width(r.detail, "small") <= room for r in self.rows):
            return
        self.tall = True
        self.rows = tuple(replace(row, detail="", second=row.detail) for row in self.rows)
        self._tops.clear()

    def tops(self, ui: Ui, width: int = 0) -> tuple[int, ...]:
        """Where each row begins and the last one ends, px from the top of the first: each as high as it has to be."""
        width = width or self.rect.width
        if width not in self._tops:
            room = self._text_room(ui, width) if self.tall else 0
            heights = (
                self._tall_height(ui, row, width, room) if self.tall else control_height(ui) for row in self.rows
            )
            self._tops[width] = tuple(accumulate(heights, initial=0))
        return self._tops[width]

    def row_height(self, ui: Ui, width: int = 0) -> int:
        """Height of the highest row, px."""
        tops = self.tops(ui, width)
        return max((below - top for top, below in pairwise(tops)), default=control_height(ui))

    def _tall_height(self, ui: Ui, row: Row, width: int, room: int) -> int:
        lines = len(ui.look.wrap(row.text, "strong", room)) * ui.look.line("strong") + ui.look.px(16)
        lines += len(ui.look.wrap(row.second, "small", room)) * ui.look.line("small") if row.second else 0
        lines += ui.look.px(2 * CARD_GAP) if self.cards else 0
        wide, high = self.drawn
        return max(lines, self._drawing_width(ui, width) * high // wide if self._drawn() else 0)

    def _drawn(self) -> bool:
        return any(row.drawing for row in self.rows)

    def _text_room(self, ui: Ui, width: int) -> int:
        """Width that the lines of a tall row have."""
        room = width - ui.look.px(28 + (2 * CARD_GAP if self.cards else 0))
        if any(row.picture for row in self.rows):
            room -= ui.look.px(28)
        if self._drawn():
            room -= self._drawing_width(ui, width) + ui.look.px(14)
        if details := [ui.look.width(row.detail, "small") for row in self.rows if row.detail]:
            room -= max(details) + ui.look.px(10)
        return max(room, 40)

    def _drawing_width(self, ui: Ui, width: int) -> int:
        return min(ui.look.px(self.drawn[0]), width // 4)

    def _empty_lines(self, ui: Ui, width: int) -> list[str]:
        return ui.look.wrap(self.empty, "body", width - ui.look.px(16)) if not self.rows else []

    def high(self, ui: Ui, width: int) -> int:
        if not self.rows:
            return len(self._empty_lines(ui, width)) * ui.look.line("body") + ui.look.px(16)
        self._arrange(ui, width)
        return self.tops(ui, width)[min(self.show, len(self.rows))]

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        super().place(ui, rect)
        self._arrange(ui, rect.width)
        index = self._index()
        seen, shown = f"seen/{self.key}", f"shown/{self.key}"
        if ui.memory.get(shown) != self.name:  # another list in the same place begins at its own top
            ui.memory[shown] = self.name
            ui.memory.pop(seen, None)
            ui.memory[self.key] = 0
        # Follow the choice when it or the room changes, and leave the wheel free otherwise.
        if index is None:
            return
        top, below = self.tops(ui)[index : index + 2]
        if ui.memory.get(seen) != (self.chosen, rect.height, top):
            ui.memory[seen] = (self.chosen, rect.height, top)
            ui.memory[self.key] = min(max(self._offset(ui), below - rect.height), top)

    def _index(self) -> int | None:
        return next((i for i, row in enumerate(self.rows) if row.key == self.chosen), None)

    def _offset(self, ui: Ui) -> int:
        most = max(0, self._whole(ui) - self.rect.height)
        return max(0, min(int(ui.memory.get(self.key, 0)), most))

    def row_rect(self, ui: Ui, index: int) -> pygame.Rect:
        """Where a row is on the screen, scrolled as it is now."""
        top, below = self.tops(ui)[index : index + 2]
        return pygame.Rect(self.rect.left, self.rect.top + top - self._offset(ui), self.rect.width, below - top)

    def in_use(self, ui: Ui) -> pygame.Rect:
        index = self._index()
        return self.rect if index is None else self.row_rect(ui, index)

    def node(self, ui: Ui) -> Node:
        own = super().node(ui)
        rows = tuple(
            Node(
                "row", " ".join(filter(None, (row.text, row.detail, row.second))),
                _("chosen") if row.key == self.chosen else "", row.key,
                self.row_rect(ui, i), False, False, True, False, "", (), (), (),
            )
            for i, row in enumerate(self.rows)
        )  # fmt: skip
        return Node(
            own.role, own.name, own.value, own.key, own.rect, own.focused, own.focusable, own.enabled, own.cut,
            own.shortcut, own.inks, own.edges, rows,
        )  # fmt: skip

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        before = surface.get_clip()
        surface.set_clip(self.rect.clip(before))
        top = self.rect.top + ui.look.px(8)
        for line in self._empty_lines(ui, self.rect.width):
            surface.blit(ui.look.text(line, "body", "panel_faint"), (self.rect.left + ui.look.px(8), top))
            top += ui.look.line("body")
            self.cut = self.cut or top > self.rect.bottom
        offset, whole = self._offset(ui), self._whole(ui)
        first, last = self._row_at(ui, offset), self._row_at(ui, offset + self.rect.height)
        for index, row in list(enumerate(self.rows))[first : last + 1]:
            self._draw_row(ui, surface, row, self.row_rect(ui, index))
        if whole > self.rect.height:
            draw_bar(ui, surface, self.rect, whole, offset)
        surface.set_clip(before)
        draw_focus(ui, surface, self)

    def _draw_row(self, ui: Ui, surface: pygame.Surface, row: Row, rect: pygame.Rect) -> None:
        look = ui.look
        ink = row.ink
        if self.cards:
            rect = rect.inflate(-2 * look.px(CARD_GAP), -2 * look.px(CARD_GAP))
        if row.key == self.chosen:
            ink = "ink"
            surface.fill(look["select"], rect)
            surface.fill(look["mark"], (rect.left, rect.top, look.px(5), rect.height))
        if self.cards:
            edge = "mark" if row.key == self.chosen else "button_edge"
            pygame.draw.rect(surface, look[edge], rect, 2 if row.key == self.chosen else 1)
        left = rect.left + look.px(14)
        if row.picture:
            picture = icon(look, row.picture, look.px(20))
            surface.blit(picture, (left, rect.centery - picture.get_height() // 2))
            left += look.px(28)
        right = rect.right - look.px(14)
        if row.detail:
            detail = look.text(row.detail, "small", "ink" if row.key == self.chosen else "panel_faint")
            right -= detail.get_width()
            surface.blit(detail, (right, rect.centery - detail.get_height() // 2))
        if self.tall:
            self._draw_tall(ui, surface, row, pygame.Rect(left, rect.top, right - left, rect.height))
            return
        drawn = look.text(row.text, "body", ink)
        room = right - left - look.px(6)
        self.cut = self.cut or drawn.get_width() > room
        surface.blit(drawn, (left, rect.centery - drawn.get_height() // 2), (0, 0, room, drawn.get_height()))

    def _draw_tall(self, ui: Ui, surface: pygame.Surface, row: Row, rect: pygame.Rect) -> None:
        look = ui.look
        chosen = row.key == self.chosen
        left = rect.left
        if row.drawing is not None:
            frame = pygame.Rect(
                left, rect.top + look.px(5), self._drawing_width(ui, self.rect.width), rect.height - look.px(10)
            )
            row.drawing(surface, frame)
            left = frame.right + look.px(14)
        room = self._text_room(ui, self.rect.width)
        lines = [("strong", line, row.ink) for line in look.wrap(row.text, "strong", room)]
        if row.second:
            lines += [("small", line, "panel_faint") for line in look.wrap(row.second, "small", room)]
        top = rect.centery - sum(look.line(style) for style, _line, _ink in lines) // 2
        for style, line, ink in lines:
            surface.blit(look.text(line, style, "ink" if chosen else ink), (left, top))
            top += look.line(style)

    def _move(self, by: int) -> None:
        index = self._index()
        target = max(0, min(len(self.rows) - 1, (-1 if index is None else index) + by))
        self.chosen = self.rows[target].key
        self.choose(self.chosen)

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT) or not self.rows:
            return False
        page = max(1, self.rect.height // self.row_height(ui) - 1)
        moves = {
            pygame.K_UP: -1, pygame.K_DOWN: 1, pygame.K_PAGEUP: -page, pygame.K_PAGEDOWN: page,
            pygame.K_HOME: -len(self.rows), pygame.K_END: len(self.rows),
        }  # fmt: skip
        if event.key in moves:
            self._move(moves[event.key])
        elif (
            event.key in {pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE}
            and self.take
            and self._index() is not None
        ):
            self.take(self.chosen)
        else:
            return False
        ui.refresh()
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        if button == 1 and take_hold(ui, self.key, self.rect, self._whole(ui), self._offset(ui), pos):
            self._follow_bar(ui, pos)
            return True
        index = self._row_at(ui, pos[1] - self.rect.top + self._offset(ui))
        inside = button == 1 and 0 <= index < len(self.rows)
        # Choosing may scroll the list under the mouse: remember what was pressed, not where.
        ui.memory[f"pressed/{self.key}"] = self.rows[index].key if inside else ""
        if inside and self.carry is not None:
            self.choose(self.rows[index].key)
        return button == 1

    def _whole(self, ui: Ui) -> int:
        return self.tops(ui)[-1]

    def _row_at(self, ui: Ui, down: int) -> int:
        """The row so many px down from the top of the first; one past the last where there is none."""
        return bisect_right(self.tops(ui), down) - 1

    def _follow_bar(self, ui: Ui, pos: tuple[int, int]) -> bool:
        to = dragged(ui, self.key, self.rect, self._whole(ui), pos)
        if to is not None:
            ui.memory[self.key] = to
            ui.refresh()
        return to is not None

    def on_drag(self, ui: Ui, pos: tuple[int, int]) -> None:
        if self._follow_bar(ui, pos):
            return
        if self.carry is not None and not self.rect.collidepoint(pos):
            self.carry(pos)

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        if let_go(ui, self.key):
            return
        row = str(ui.memory.pop(f"pressed/{self.key}", ""))
        if self.drop is not None and row and not self.rect.collidepoint(pos):
            self.drop(pos)
        elif row and self.visible_rect().collidepoint(pos):
            self.choose(row)
            if self.take:
                self.take(row)
            ui.refresh()

    def on_wheel(self, ui: Ui, amount: float, pos: tuple[int, int]) -> bool:
        before = self._offset(ui)
        ui.memory[self.key] = max(0, round(before - amount * self.row_height(ui) * ROWS_A_NOTCH))
        ui.memory[self.key] = self._offset(ui)
        ui.refresh()
        return bool(ui.memory[self.key] != before)
