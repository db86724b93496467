"""An icon with a name."""

from __future__ import annotations

import pygame

from trainer.board.icons import icon
from trainer.board.widgets.base import Ui, Widget


class Sign(Widget):
    """An icon that means something; its name says what."""

    role = "image"

    def __init__(self, picture: str, name: str, *, size: float = 26) -> None:
        super().__init__(name, key=f"sign:{picture}")
        self.picture = picture
        self.size = size

    def wide(self, ui: Ui) -> int:
        return ui.look.px(self.size)

    def high(self, ui: Ui, width: int) -> int:
        return ui.look.px(self.size)

    def draw(self, ui: Ui, surface: pygame.Surface) -> None:
        surface.blit(icon(ui.look, self.picture, ui.look.px(self.size)), self.rect)
