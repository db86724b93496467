"""A drawing that stands still among words, as large as its room."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.camera import Camera
from trainer.board.paint import Brush
from trainer.board.widgets import Canvas, Ui
from trainer.picture.model import Box, Item
from trainer.picture.placing import lettered

Drawn = tuple[list[Item], Box]
"""Items with the place that they take."""


def picture(ui: Ui, name: str, drawn: Callable[[], Drawn], tall: float) -> Canvas:
    """Return a drawing as large as its room: what ``drawn`` returns, once there is something."""

    def paint(surface: pygame.Surface, rect: pygame.Rect) -> None:
        seen = rect.clip(surface.get_clip())
        if seen.width < 20 or seen.height < 20:
            return
        items, box = drawn()
        window = pygame.Surface(rect.size)
        window.fill(ui.look["paper"])
        camera = Camera(lambda scale: lettered(items, scale, ui.look.scale, box))
        camera.resize(rect.size)
        camera.look_at(box)
        Brush(window, ui.look.colours, camera.view, lettering=ui.look.scale).paint(items)
        surface.blit(window, rect)

    return Canvas(name, paint, tall=tall)
