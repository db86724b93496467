"""A picture among the widgets: something draws itself into the room it is given."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.icons import icon
from trainer.board.widgets.base import Ui, Widget

Painter = Callable[[pygame.Surface, pygame.Rect], None]


class Canvas(Widget):
    """A picture with a name that says what it shows."""

    role = "image"

    def __init__(self, name: str, paint: Painter, *, tall: float = 0, broad: float = 0, ground: str = "paper") -> None:
        super().__init__(name)
        self.paint = paint
        self.tall = tall
        self.broad = broad
        self.ground = ground
        self.grows = tall == 0

    def wide(self, ui: Ui) -> int:
        return ui.look.px(self.broad)

    def high(self, ui: Ui, width: int) -> int:
        return ui.look.px(self.tall)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        before = surface.get_clip()
        surface.set_clip(self.rect.clip(before))
        self.paint(surface, self.rect)
        surface.set_clip(before)


SIGN = 26.0
"""Size of a sign, px at 100 %."""


class Sign(Widget):
    """An icon that means something; its name says what."""

    role = "image"

    def __init__(self, picture: str, name: str) -> None:
        super().__init__(name, key=f"sign:{picture}")
        self.picture = picture

    def wide(self, ui: Ui) -> int:
        return ui.look.px(SIGN)

    def high(self, ui: Ui, width: int) -> int:
        return ui.look.px(SIGN)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        surface.blit(icon(ui.look, self.picture, ui.look.px(SIGN)), self.rect)
