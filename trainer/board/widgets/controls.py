"""What can be pressed, chosen and typed in: buttons, choices, numbers in millimetres."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from trainer.board.icons import icon
from trainer.board.widgets.base import Ui, Widget, control_height, draw_focus
from trainer.words import _

PRESS_KEYS = (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE)
_INKS = {
    "plain": ("button_ink", "button"), "primary": ("accent_ink", "accent"),
    "quiet": ("panel_ink", "panel"), "tool": ("panel_ink", "panel"), "tab": ("panel_ink", "panel"),
}  # fmt: skip


class Button(Widget):
    """Something to press. ``kind``: plain, primary, quiet, tool (icon over word) or tab."""

    role = "button"
    focusable = True

    def __init__(
        self, name: str, press: Callable[[], None], *, key: str = "", kind: str = "plain", picture: str = "",
        shortcut: str = "", checked: bool | None = None, enabled: bool = True, ground: str = "panel",
        tight: bool = False,
    ) -> None:  # fmt: skip
        if kind == "tab":
            self.role = "tab"
        super().__init__(name, key=key)
        self.press = press
        self.kind = kind
        self.picture = picture
        self.shortcut = shortcut
        self.checked = checked
        self.enabled = enabled
        self.ground = ground
        self.tight = tight

    @property
    def value(self) -> str:
        return "" if self.checked is None else (_("chosen") if self.checked else _("not chosen"))

    def _roles(self) -> tuple[str, str]:
        ink, fill = _INKS[self.kind if self.enabled or self.kind != "primary" else "plain"]
        if self.kind in {"quiet", "tool", "tab"}:
            fill = "select" if self.checked and self.kind == "tool" else self.ground
            ink = "ink" if fill in {"paper", "select"} else ink
        return ("disabled_ink" if not self.enabled else ink), fill

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        ink, fill = self._roles()
        return ((ink, fill),) if self.enabled else ()

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        found = [("focus", self.ground)]
        if self.kind == "plain":
            found.append(("button_edge", self.ground))
        if self.kind == "primary":
            found.append(("accent", self.ground))
        if self.checked:
            found.append(("mark", self._roles()[1]))
        return tuple(found)

    def wide(self, ui: Ui) -> int:
        look = ui.look
        if self.kind == "tool":
            return max(look.px(84), look.width(self.name, "small") + look.px(16))
        wide = look.width(self.name, "body") + 2 * self._margin(ui)
        if self.picture:
            wide += look.px(26)
        if self.shortcut:
            wide += look.width(self.shortcut, "small") + look.px(12)
        return wide

    def _margin(self, ui: Ui) -> int:
        return ui.look.px(10 if self.kind in {"quiet", "tab"} else 14)

    def high(self, ui: Ui, width: int) -> int:
        if self.kind == "tool":
            return self._icon_size(ui) + ui.look.line("small") + (10 if self.tight else ui.look.px(18))
        room = width - (self.wide(ui) - ui.look.width(self.name, "body"))
        return control_height(ui, len(ui.look.wrap(self.name, "body", max(room, 40))))

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, rect = ui.look, self.rect
        ink, fill = self._roles()
        hot = self.enabled and (self.key in (ui.hover, ui.pressed))
        radius = look.px(4)
        if self.kind in {"plain", "primary"}:
            pygame.draw.rect(surface, look[fill], rect, border_radius=radius)
            if self.kind == "plain":
                pygame.draw.rect(surface, look["button_edge"], rect, 2 if hot else 1, border_radius=radius)
        elif self.kind == "tool" and self.checked:
            pygame.draw.rect(surface, look[fill], rect)
            pygame.draw.rect(surface, look["mark"], (rect.left, rect.top, look.px(5), rect.height))
        if self.kind == "tool":
            self._draw_tool(ui, surface, ink)
        else:
            self._draw_line(ui, surface, ink)
        if self.kind in {"tab", "quiet"} and self.checked:
            bar = look.px(4)
            pygame.draw.rect(
                surface, look["mark"], (rect.left + look.px(8), rect.bottom - bar, rect.width - look.px(16), bar)
            )
        if hot and self.kind != "plain":
            line = rect.bottom - look.px(9)
            pygame.draw.line(surface, look[ink], (rect.left + look.px(12), line), (rect.right - look.px(12), line), 1)
        draw_focus(ui, surface, self)

    def _icon_size(self, ui: Ui) -> int:
        return 24 if self.tight else ui.look.px(28)

    def _draw_tool(self, ui: Ui, surface: pygame.Surface, ink: str) -> None:
        look, rect = ui.look, self.rect
        picture = icon(look, self.picture, self._icon_size(ui))
        surface.blit(picture, (rect.centerx - picture.get_width() // 2, rect.top + (4 if self.tight else look.px(7))))
        if len(self.shortcut) == 1:
            letter = look.text(self.shortcut, "small", "faint" if ink == "panel_ink" else ink)
            surface.blit(
                letter, (rect.right - letter.get_width() - look.px(9), rect.top + (2 if self.tight else look.px(4)))
            )
        word = look.text(self.name, "small", ink)
        self.cut = word.get_width() > rect.width
        surface.blit(
            word,
            (rect.centerx - word.get_width() // 2, rect.bottom - word.get_height() - (4 if self.tight else look.px(6))),
        )

    def _draw_line(self, ui: Ui, surface: pygame.Surface, ink: str) -> None:
        look, rect = ui.look, self.rect
        left, right = rect.left + self._margin(ui), rect.right - self._margin(ui)
        if self.picture:
            picture = icon(look, self.picture, look.px(20))
            surface.blit(picture, (left, rect.centery - picture.get_height() // 2))
            left += look.px(26)
        if self.shortcut:
            keys = look.text(self.shortcut, "small", ink)
            surface.blit(keys, (right - keys.get_width(), rect.centery - keys.get_height() // 2))
            right -= keys.get_width() + look.px(12)
        lines = look.wrap(self.name, "body", right - left + 1)
        step = look.line("body")
        top = rect.centery - step * len(lines) // 2
        self.cut = step * len(lines) > rect.height
        for number, line in enumerate(lines):
            drawn = look.text(line, "body", ink)
            centred = self.kind in {"tab", "primary"} and not self.shortcut and not self.picture
            at = (left + right - drawn.get_width()) // 2 if centred else left
            surface.blit(drawn, (at, top + number * step))

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.key in PRESS_KEYS and self.enabled and not event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            self.press()
            return True
        return False

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        return button == 1 and self.enabled

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        if button == 1 and self.visible_rect().collidepoint(pos):
            self.press()


class Choice(Widget):
    """One of a few values: Left and Right, or a press on either end, go through them."""

    role = "choice"
    focusable = True

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
        return ((self._faint, self.ground), ("button_ink", "button"))

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("button_edge", self.ground), ("button_ink", "button"), ("focus", self.ground))

    @property
    def _faint(self) -> str:
        return "faint" if self.ground == "paper" else "panel_faint"

    def _widest(self, ui: Ui) -> int:
        return max((ui.look.width(option, self.style) for option in self.options), default=0)

    def wide(self, ui: Ui) -> int:
        return max(self._widest(ui) + 2 * self._end(ui) + ui.look.px(8), ui.look.width(self._caption(), "small"))

    def _end(self, ui: Ui) -> int:
        return ui.look.px(10 if self.tight else 30)

    def _caption(self) -> str:
        return f"{self.name}   {self.shortcut}" if self.shortcut else self.name

    def _lines(self, ui: Ui, width: int) -> int:
        room = max(20, width - 2 * self._end(ui))
        return max((len(ui.look.wrap(option, self.style, room)) for option in self.options), default=1)

    def high(self, ui: Ui, width: int) -> int:
        return ui.look.line("small") + control_height(ui, self._lines(ui, width))

    def _box(self, ui: Ui) -> pygame.Rect:
        top = ui.look.line("small")
        return pygame.Rect(self.rect.left, self.rect.top + top, self.rect.width, self.rect.height - top)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look, box, end = ui.look, self._box(ui), self._end(ui)
        surface.blit(look.text(self._caption(), "small", self._faint), self.rect.topleft)
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
        if ui.focus == self.key:
            ring, self.rect = self.rect, box
            draw_focus(ui, surface, self)
            self.rect = ring

    def step(self, by: int) -> None:
        """Go on to the next value, or back."""
        if self.options:
            self.change((self.index + by) % len(self.options))

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        ways = {pygame.K_LEFT: -1, pygame.K_RIGHT: 1, pygame.K_SPACE: 1}
        if event.key not in ways:
            return False
        self.step(ways[event.key])
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        return button == 1

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        if button == 1 and self.visible_rect().collidepoint(pos):
            self.step(-1 if pos[0] < self.rect.centerx else 1)


class Entry(Widget):
    """A measure in millimetres. Digits start a new number; Enter takes it; Up and Down nudge it."""

    role = "entry"
    focusable = True

    def __init__(
        self, name: str, number: float, take: Callable[[float], None], *, key: str = "", unit: str = "mm",
        enter: Callable[[], None] | None = None, shortcut: str = "", nudge: float = 1.0,
    ) -> None:  # fmt: skip
        super().__init__(name, key=key)
        self.number = number
        self.take = take
        self.enter = enter
        self.unit = unit
        self.shortcut = shortcut
        self.nudge = nudge

    @property
    def value(self) -> str:
        return f"{self.number:.1f}".removesuffix(".0") + f" {self.unit}"

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return (("panel_faint", "panel"), ("panel_ink", "panel"))

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("panel_edge", "panel"), ("focus", "panel"))

    def _caption(self) -> str:
        return f"{self.name}   {self.shortcut}" if self.shortcut else self.name

    def wide(self, ui: Ui) -> int:
        return max(
            ui.look.width(f"-00000.0 {self.unit}", "strong") + ui.look.px(12) + 2 * max(24, ui.look.px(24)),
            ui.look.width(self._caption(), "small"),
        )

    def high(self, ui: Ui, width: int) -> int:
        return ui.look.line("small") + control_height(ui)

    def _draft(self, ui: Ui) -> str | None:
        draft = ui.memory.get(f"draft/{self.key}")
        return None if draft is None or ui.focus != self.key else str(draft)

    def _box(self, ui: Ui) -> pygame.Rect:
        top = ui.look.line("small")
        return pygame.Rect(self.rect.left, self.rect.top + top, self.rect.width, self.rect.height - top)

    def steppers(self, ui: Ui) -> tuple[pygame.Rect, pygame.Rect]:
        """Where less and more are pressed by mouse, at the right of the box."""
        box, wide = self._box(ui), max(24, ui.look.px(24))
        more = pygame.Rect(box.right - wide - 2, box.top, wide, box.height)
        return more.move(-wide, 0), more

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        look = ui.look
        surface.blit(look.text(self._caption(), "small", "panel_faint"), self.rect.topleft)
        box = self._box(ui)
        pygame.draw.rect(surface, look["panel"], box, border_radius=look.px(4))
        hot = ui.hover == self.key
        pygame.draw.rect(surface, look["panel_edge"], box, 3 if hot else 2, border_radius=look.px(4))
        draft = self._draft(ui)
        drawn = look.text(self.value if draft is None else f"{draft}|", "strong", "panel_ink")
        steppers = self.steppers(ui)
        self.cut = box.left + look.px(8) + drawn.get_width() > steppers[0].left
        surface.blit(drawn, (box.left + look.px(8), box.centery - drawn.get_height() // 2))
        arm = look.px(5)
        for place, upright in zip(steppers, (False, True), strict=True):
            x, y = place.center
            pygame.draw.line(surface, look["panel_ink"], (x - arm, y), (x + arm, y), 2)
            if upright:
                pygame.draw.line(surface, look["panel_ink"], (x, y - arm), (x, y + arm), 2)
        if ui.focus == self.key:
            ring, self.rect = self.rect, box
            draw_focus(ui, surface, self)
            self.rect = ring

    def commit(self, ui: Ui) -> None:
        """Take what has been typed, if anything that is a number."""
        draft = ui.memory.pop(f"draft/{self.key}", None)
        if draft is None:
            return
        try:
            number = float(str(draft).replace(",", "."))
        except ValueError:
            ui.refresh()
            return
        self.take(max(-200_000.0, min(200_000.0, round(number * 2) / 2)))

    def on_key(self, ui: Ui, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        slot = f"draft/{self.key}"
        typed = getattr(event, "unicode", "")
        if typed and typed in "0123456789.,-":
            draft = str(ui.memory.get(slot) or "")
            if len(draft) < 9:
                ui.memory[slot] = draft + typed
        elif event.key == pygame.K_BACKSPACE:
            ui.memory[slot] = str(ui.memory.get(slot) or f"{self.number:g}")[:-1]
        elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
            self.commit(ui)
            if self.enter:
                self.enter()
        elif event.key in {pygame.K_UP, pygame.K_DOWN}:
            self.commit(ui)
            step = self.nudge * (10 if event.mod & pygame.KMOD_SHIFT else 1)
            self.take(self.number + (step if event.key == pygame.K_UP else -step))
        elif event.key == pygame.K_ESCAPE and slot in ui.memory:
            ui.memory.pop(slot)
        else:
            return False
        ui.refresh()
        return True

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        return button == 1

    def on_release(self, ui: Ui, pos: tuple[int, int], button: int) -> None:
        less, more = self.steppers(ui)
        if button == 1 and (less.collidepoint(pos) or more.collidepoint(pos)):
            self._step(ui, 1 if more.collidepoint(pos) else -1)

    def on_wheel(self, ui: Ui, amount: float, pos: tuple[int, int]) -> bool:
        self._step(ui, 1 if amount > 0 else -1)
        return True

    def _step(self, ui: Ui, way: int) -> None:
        self.commit(ui)
        self.take(self.number + way * self.nudge)
        ui.refresh()
