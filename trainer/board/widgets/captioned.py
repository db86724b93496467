"""What a control with its name over it has in common, whatever its box holds."""

from __future__ import annotations

import pygame

from trainer.board.widgets.base import Ui, Widget, control_height


class Captioned(Widget):
    """A box with an edge, and the control's name in small letters over it. It can be typed in or gone through."""

    focusable = True

    @property
    def inks(self) -> tuple[tuple[str, str], ...]:
        return (("panel_faint", "panel"), ("panel_ink", "panel"))

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        return (("panel_edge", "panel"), ("focus", "panel"))

    @property
    def caption_ink(self) -> str:
        """Colour role of the name."""
        return "faint" if self.ground == "paper" else "panel_faint"

    @property
    def _called(self) -> str:
        return f"{self.name}   {self.shortcut}" if self.shortcut else self.name

    def caption(self, ui: Ui, width: int) -> list[str]:
        """The lines of the name at a width in px."""
        return [self._called]

    def caption_wide(self, ui: Ui) -> int:
        """Width of the name in one line, px."""
        return ui.look.width(self._called, "small")

    def lines(self, ui: Ui, width: int) -> int:
        """Lines of text in the box, at a width in px."""
        return 1

    def high(self, ui: Ui, width: int) -> int:
        caption = ui.look.line("small") * len(self.caption(ui, width))
        return caption + control_height(ui, self.lines(ui, width))

    def box(self, ui: Ui) -> pygame.Rect:
        """The place of the box, under the name."""
        top = ui.look.line("small") * len(self.caption(ui, self.rect.width))
        return pygame.Rect(self.rect.left, self.rect.top + top, self.rect.width, self.rect.height - top)

    def draw_caption(self, ui: Ui, surface: pygame.Surface) -> None:
        """Draw the name."""
        top = self.rect.top
        for line in self.caption(ui, self.rect.width):
            surface.blit(ui.look.text(line, "small", self.caption_ink), (self.rect.left, top))
            top += ui.look.line("small")

    def on_press(self, ui: Ui, pos: tuple[int, int], button: int) -> bool:
        return button == 1
