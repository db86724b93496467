"""What can be pressed: buttons, tools and tabs."""

from __future__ import annotations

from collections.abc import Callable

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
    """Something to press. ``kind``: plain, primary, quiet, tool (icon over word) or tab.

    Where there is no room for its key beside its name it stands under it, without its picture: ``key_under``.
    """

    role = "button"
    focusable = True

    def __init__(
        self, name: str, press: Callable[[], None], *, key: str = "", kind: str = "plain", picture: str = "",
        shortcut: str = "", checked: bool | None = None, enabled: bool = True, ground: str = "panel",
        tight: bool = False, key_under: bool = False,
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
        self.key_under = key_under

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
        if self.picture and not self._stacked:
            wide += look.px(26)
        if self._stacked:
            wide = max(wide, look.width(self.shortcut, "small") + 2 * self._margin(ui))
        elif self.shortcut:
            wide += look.width(self.shortcut, "small") + look.px(12)
        return wide

    @property
    def _stacked(self) -> bool:
        return self.key_under and bool(self.shortcut)

    def _margin(self, ui: Ui) -> int:
        return ui.look.px((5 if self.tight else 10) if self.kind in {"quiet", "tab"} else 14)

    def high(self, ui: Ui, width: int) -> int:
        if self.kind == "tool":
            return self._icon_size(ui) + ui.look.line("small") + (10 if self.tight else ui.look.px(18))
        if self._stacked:
            return max(control_height(ui), ui.look.line("body") + ui.look.line("small") - ui.look.px(4))
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
        draw_focus(ui, surface, self, gap=self.ground if self.kind == "primary" else "")

    def _icon_size(self, ui: Ui) -> int:
        return 24 if self.tight else ui.look.px(28)

    def _draw_tool(self, ui: Ui, surface: pygame.Surface, ink: str) -> None:
        look, rect = ui.look, self.rect
        picture = icon(look, self.picture, self._icon_size(ui))
        left = rect.centerx - picture.get_width() // 2
        if self.shortcut:
            letter = look.text(self.shortcut, "small", "faint" if ink == "panel_ink" else ink)
            at = rect.right - letter.get_width() - look.px(9)
            surface.blit(letter, (at, rect.top + (2 if self.tight else look.px(4))))
            left = min(left, at - picture.get_width() - look.px(3))  # a long key: the icon makes room
        surface.blit(picture, (left, rect.top + (4 if self.tight else look.px(7))))
        word = look.text(self.name, "small", ink)
        self.cut = word.get_width() > rect.width
        surface.blit(
            word,
            (rect.centerx - word.get_width() // 2, rect.bottom - word.get_height() - (4 if self.tight else look.px(6))),
        )

    def _draw_stacked(self, ui: Ui, surface: pygame.Surface, ink: str) -> None:
        look, rect = ui.look, self.rect
        name, keys = look.text(self.name, "body", ink), look.text(self.shortcut, "small", ink)
        self.cut = name.get_width() > rect.width
        closer = look.px(4)  # both have room of their own above and below their letters
        top = rect.centery - (name.get_height() + keys.get_height() - closer + look.px(2)) // 2
        surface.blit(name, (rect.centerx - name.get_width() // 2, top))
        surface.blit(keys, (rect.centerx - keys.get_width() // 2, top + name.get_height() - closer))

    def _draw_line(self, ui: Ui, surface: pygame.Surface, ink: str) -> None:
        if self._stacked:
            self._draw_stacked(ui, surface, ink)
            return
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
            centred = self.kind == "tab" and not self.shortcut and not self.picture
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
