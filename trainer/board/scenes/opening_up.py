"""What shows while the core's libraries are read: the window is there at once, the houses a moment later."""

from __future__ import annotations

import pygame

from trainer.board.scene import Scene
from trainer.board.services import Services
from trainer.board.widgets import Canvas, Column, Label, Pad, Widget
from trainer.words import _

_TRUSS = ((0.0, 0.0), (1.0, 0.0), (0.5, 0.42), (0.0, 0.0), (1 / 3, 0.0), (0.25, 0.21), (1 / 3, 0.0), (0.5, 0.42))
_OTHER = ((0.5, 0.42), (2 / 3, 0.0), (0.75, 0.21))
"""A truss in strokes, in parts of its span."""


class OpeningUp(Scene):
    """The name of the program and a truss, for as long as one frame."""

    name = _("Roof truss trainer")
    order = ("whole",)

    def __init__(self, services: Services) -> None:
        super().__init__(services)
        self._seen = False

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        return {"whole": pygame.Rect(0, 0, *size)}

    def make(self, region: str) -> Widget:
        title = Label(_("Roof truss trainer"), "title", "ink", ground="paper", role="heading")
        wait = Label(_("The houses are being read …"), "body", "faint", ground="paper")
        column = Column([title, wait, Canvas(_("A truss"), self._truss)])
        return Pad(column, pad=24, ground="paper", name=self.name)

    def tick(self, now_ms: int) -> None:
        if self._seen:
            self.services.go_home()
        self._seen = True

    def _truss(self, surface: pygame.Surface, rect: pygame.Rect) -> None:
        span = rect.width * 0.6
        left, foot = rect.centerx - span / 2, rect.centery + span * 0.15
        for strokes in (_TRUSS, _OTHER):
            points = [(left + x * span, foot - y * span) for x, y in strokes]
            pygame.draw.lines(surface, self.ui.look["timber_edge"], False, points, 3)
