"""How widgets share room: under each other, beside each other, and in a panel that scrolls."""

from __future__ import annotations

from collections.abc import Sequence

import pygame

from trainer.board.widgets.base import Ui, Widget, draw_focus
from trainer.board.widgets.captioned import Captioned
from trainer.board.widgets.scrollbar import dragged, draw_bar, let_go, take_hold
from trainer.words import _


class Column(Widget):
    """Widgets under each other; those that grow share what height is left over."""

    role = "group"

    def __init__(self, children: Sequence[Widget], *, gap: float = 8, key: str = "") -> None:
        super().__init__(key=key or "column:", children=children)
        self.gap = gap

    def wide(self, ui: Ui) -> int:
        return max((child.wide(ui) for child in self.children), default=0)

    def high(self, ui: Ui, width: int) -> int:
        gaps = ui.look.px(self.gap) * max(0, len(self.children) - 1)
        return sum(child.high(ui, width) for child in self.children) + gaps

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        self.rect = pygame.Rect(rect)
        needs = [child.high(ui, rect.width) for child in self.children]
        gap = ui.look.px(self.gap)
        growing = [i for i, child in enumerate(self.children) if child.grows]
        if growing:
            fixed = sum(need for i, need in enumerate(needs) if i not in growing) + gap * max(0, len(needs) - 1)
            spare = max(0, rect.height - fixed)
            for i in growing:
                needs[i] = spare // len(growing)
        top = rect.top
        for child, need in zip(self.children, needs, strict=True):
            child.place(ui, pygame.Rect(rect.left, top, rect.width, need))
            top += need + gap


class Followed(Widget):
    """Something that may scroll, and right under it what goes on from there: at the foot once it scrolls."""

    role = "group"

    def __init__(self, child: Widget, foot: Widget, *, gap: float = 12) -> None:
        super().__init__(key=f"followed:{child.key}", children=[child, foot])
        self.gap = gap
        self.grows = True

    def wide(self, ui: Ui) -> int:
        return max(child.wide(ui) for child in self.children)

    def high(self, ui: Ui, width: int) -> int:
        return sum(child.high(ui, width) for child in self.children) + ui.look.px(self.gap)

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        self.rect = pygame.Rect(rect)
        child, foot = self.children
        gap, under = ui.look.px(self.gap), foot.high(ui, rect.width)
        over = max(0, min(child.high(ui, rect.width), rect.height - under - gap))
        child.place(ui, pygame.Rect(rect.left, rect.top, rect.width, over))
        foot.place(ui, pygame.Rect(rect.left, rect.top + over + gap, rect.width, under))


class Flow(Widget):
    """Widgets beside each other, going on in the next line where the room ends. ``fill`` stretches them to it.

    Those from ``to_right`` on stand at the right end of their line.
    """

    role = "group"

    def __init__(
        self, children: Sequence[Widget], *, gap: float = 8, fill: bool = False, key: str = "", to_right: int = 0
    ) -> None:
        super().__init__(key=key or f"flow::{'/'.join(c.key for c in children)}", children=children)
        self.gap = gap
        self.fill = fill
        self.to_right = to_right or len(children)
        self._in_rows: dict[int, list[list[tuple[Widget, int, int]]]] = {}

    def wide(self, ui: Ui) -> int:
        return sum(child.wide(ui) for child in self.children) + ui.look.px(self.gap) * max(0, len(self.children) - 1)

    def high(self, ui: Ui, width: int) -> int:
        rows = self._rows(ui, width)
        return sum(max(h for _, _, h in row) for row in rows) + ui.look.px(self.gap) * max(0, len(rows) - 1)

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        self.rect = pygame.Rect(rect)
        gap = ui.look.px(self.gap)
        top = rect.top
        for row in self._rows(ui, rect.width):
            left = rect.left
            tall = max(h for _, _, h in row)
            # What stands beside a box with a name over it is level with the box.
            lift = 1 if any(isinstance(child, Captioned) for child, _, _ in row) else 2
            spare = rect.width - sum(w for _, w, _ in row) - gap * (len(row) - 1)
            extra = spare // len(row) if self.fill else 0
            for child, wide, high in row:
                if self.to_right < len(self.children) and child is self.children[self.to_right] and not self.fill:
                    left += max(0, spare)
                child.place(ui, pygame.Rect(left, top + (tall - high) // lift, wide + extra, high))
                left += wide + extra + gap
            top += tall + gap

    def _rows(self, ui: Ui, width: int) -> list[list[tuple[Widget, int, int]]]:
        """The widgets in lines, with how wide and high each is; asked for again as boxes round it are placed."""
        if width not in self._in_rows:
            self._in_rows[width] = self._broken(ui, width)
        return self._in_rows[width]

    def _broken(self, ui: Ui, width: int) -> list[list[tuple[Widget, int, int]]]:
        rows: list[list[tuple[Widget, int, int]]] = [[]]
        gap = ui.look.px(self.gap)
        used = 0
        for child in self.children:
            wide = min(child.wide(ui), width)
            if rows[-1] and used + gap + wide > width:
                rows.append([])
                used = 0
            used += wide + (gap if rows[-1] else 0)
            rows[-1].append((child, wide, child.high(ui, wide)))
        return rows if rows[0] else []


class Beside(Widget):
    """A text with something at its right, or at its ``left``, that keeps its own width."""

    role = "group"

    def __init__(self, text: Widget, aside: Widget, *, gap: float = 12, left: bool = False) -> None:
        super().__init__(key=f"beside:{text.key}", children=[text, aside])
        self.gap = gap
        self.left = left

    def _room(self, ui: Ui, width: int) -> tuple[int, int]:
        aside = self.children[1].wide(ui)
        return max(width // 3, width - aside - ui.look.px(self.gap)), aside

    def high(self, ui: Ui, width: int) -> int:
        room, aside = self._room(ui, width)
        return max(self.children[0].high(ui, room), self.children[1].high(ui, aside))

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        self.rect = pygame.Rect(rect)
        room, aside = self._room(ui, rect.width)
        text, other = self.children
        ends = (rect.right - room, rect.left) if self.left else (rect.left, rect.right - aside)
        for child, left, wide in ((text, ends[0], room), (other, ends[1], aside)):
            high = min(rect.height, child.high(ui, wide))
            child.place(ui, pygame.Rect(left, rect.top + (rect.height - high) // 2, wide, high))


class Pad(Widget):
    """Room around one child, on a ground of its own colour; a ``column`` has a line at each side in the window."""

    def __init__(
        self,
        child: Widget,
        *,
        pad: float = 16,
        ground: str = "panel",
        name: str = "",
        key: str = "",
        column: bool = False,
    ) -> None:
        super().__init__(name, key=key or f"pad:{child.key}", children=[child])
        self.pad = pad
        self.column = column
        self.ground = ground
        self.grows = child.grows

    def wide(self, ui: Ui) -> int:
        return self.children[0].wide(ui) + 2 * ui.look.px(self.pad)

    def high(self, ui: Ui, width: int) -> int:
        pad = ui.look.px(self.pad)
        return self.children[0].high(ui, width - 2 * pad) + 2 * pad

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        self.rect = pygame.Rect(rect)
        pad = ui.look.px(self.pad)
        self.children[0].place(ui, rect.inflate(-2 * pad, -2 * pad))

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        surface.fill(ui.look[self.ground], self.visible_rect())
        if self.column:
            for x in (self.rect.left, self.rect.right - 1):
                if 0 < x < surface.get_width() - 1:
                    pygame.draw.line(surface, ui.look["panel_edge"], (x, self.rect.top), (x, self.rect.bottom), 1)
        super().draw(ui, surface)


INSET = 6
"""Room between what scrolls and the focus ring, at 100 %."""


class Scroll(Widget):
    """A window on a child that may be taller than it. Takes the focus only where there is something to scroll."""

    role = "scroll"
    focusable = True

    def __init__(self, child: Widget, name: str, *, key: str = "", text: str = "") -> None:
        """Scroll ``child``; another ``text``, where that is what it shows, begins at its first line."""
        super().__init__(name, key=key or f"scroll:{name}", children=[child])
        self._text = text
        self.grows = True
        self.overflow = 0
        self.stops = False
        """Whether it takes the focus in any case: a text that is to be read before anything else."""

    @property
    def value(self) -> str:
        return _("all shown") if not self.overflow else _("{n} px more").format(n=self.overflow)

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("panel_edge", self.ground),) if self.overflow else ()

    def reachable(self) -> bool:
        return self.stops or (self.overflow > 0 and not any(w.reachable() for w in self.children[0].walk()))

    def high(self, ui: Ui, width: int) -> int:
        return self.children[0].high(ui, width - 2 * ui.look.px(INSET))

    def place(self, ui: Ui, rect: pygame.Rect) -> None:
        self.rect = pygame.Rect(rect)
        if self._text != ui.memory.get(f"text/{self.key}", ""):
            ui.memory[f"text/{self.key}"] = self._text
            ui.memory.pop(self.key, None)
        child = self.children[0]
        inner = rect.inflate(-2 * ui.look.px(INSET), 0)
        self.overflow = max(0, child.high(ui, inner.width) - rect.height)
        if self.overflow:
            inner.width -= ui.look.px(12)
            self.overflow = max(0, child.high(ui, inner.width) - rect.height)
        offset = self._offset(ui)
        child.place(ui, pygame.Rect(inner.left, rect.top - offset, inner.width, rect.height + self.overflow))
        child.clip_to(self.rect)

    def _offset(self, ui: Ui) -> int:
        at = int(ui.memory.get(self.key, 0))
        return max(0, min(at, self.overflow))

    def move(self, ui: Ui, by: float) -> bool:
        """Scroll by so many px; return whether it moved."""
        before = self._offset(ui)
        after = max(0, min(self.overflow, round(before + by)))
        ui.memory[self.key] = after
        if after != before:
            ui.refresh()
        return after != before

    def reveal(self, ui: Ui, rect: pygame.Rect) -> None:
        """Scroll just far enough to show a place."""
        margin = ui.look.px(6)
        if rect.top < self.rect.top:
            self.move(ui, rect.top - self.rect.top - margin)
        elif rect.bottom > self.rect.bottom:
            self.move(ui, min(rect.bottom - self.rect.bottom + margin, rect.top - self.rect.top))

    def on_wheel(self, ui: Ui, amount: float, pos: tuple[int, int]) -> bool:
        return self.move(ui, -amount * ui.look.px(60))

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        whole = self.rect.height + self.overflow
        held = button == 1 and take_hold(ui, self.key, self.rect, whole, self._offset(ui), pos)
        if held:
            self.on_drag(ui, pos)
        return held

    def on_drag(self, ui: Ui, pos: tuple[int, int]) -> None:
        to = dragged(ui, self.key, self.rect, self.rect.height + self.overflow, pos)
        if to is not None:
            self.move(ui, to - self._offset(ui))

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        let_go(ui, self.key)

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        page = self.rect.height * 0.8
        steps = {
            pygame.K_UP: -ui.look.px(40), pygame.K_DOWN: ui.look.px(40), pygame.K_PAGEUP: -page,
            pygame.K_PAGEDOWN: page, pygame.K_HOME: -1e9, pygame.K_END: 1e9,
        }  # fmt: skip
        if event.key not in steps:
            return False
        return self.move(ui, max(-1e6, min(1e6, steps[event.key])))

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        before = surface.get_clip()
        surface.set_clip(self.rect.clip(before))
        super().draw(ui, surface)
        surface.set_clip(before)
        if self.overflow:
            draw_bar(ui, surface, self.rect, self.rect.height + self.overflow, self._offset(ui))
        draw_focus(ui, surface, self)


class Room(Widget):
    """As much room as a widget takes that is not there yet."""

    role = "room"

    def __init__(self, of: Widget) -> None:
        super().__init__(key=f"room:{of.key}")
        self._of = of

    def wide(self, ui: Ui) -> int:
        return self._of.wide(ui)

    def high(self, ui: Ui, width: int) -> int:
        return self._of.high(ui, width)


class Divider(Widget):
    """A thin line between two parts."""

    role = "rule"

    def high(self, ui: Ui, width: int) -> int:
        return ui.look.px(3)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        pygame.draw.line(surface, ui.look["panel_edge"], self.rect.midleft, self.rect.midright, 1)
