"""A screen that is one column in the middle of the paper, with a bar over it that leads back to the houses."""

from __future__ import annotations

import pygame

from trainer.board.scene import Scene
from trainer.board.widgets import Pad, Widget, top_bar
from trainer.words import _

WIDEST = 820
"""Width of the column at 100 %, px."""


class Middle(Scene):
    """The base of such screens; ``name`` stands in the bar."""

    order = ("ground", "side", "bar")

    def side(self) -> Widget:
        """Return the column for the state as it is."""
        raise NotImplementedError

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        wide, high = size
        top = self._bar().high(self.ui, wide)
        side = min(self.ui.look.px(WIDEST), wide)
        return {
            "ground": pygame.Rect(0, top, wide, high - top),
            "bar": pygame.Rect(0, 0, wide, top),
            "side": pygame.Rect((wide - side) // 2, top, side, high - top),
        }

    def make(self, region: str) -> Widget:
        if region == "ground":
            return Pad(Widget(), ground="paper", name=_("Paper"), key="ground")
        return self._bar() if region == "bar" else self.side()

    def _bar(self) -> Widget:
        return top_bar(self.name, _("Houses"), self.services.go_home, self.services.help)
