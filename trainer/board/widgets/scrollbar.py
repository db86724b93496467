"""The bar beside what scrolls: drawn, and dragged by the mouse."""

from __future__ import annotations

import pygame

from trainer.board.widgets.base import Ui

WIDE, REACH = 8.0, 18.0
"""How wide the bar is drawn, and how near its edge it is taken hold of, px at 100 %."""


def thumb(ui: Ui, rect: pygame.Rect, whole: int, offset: int) -> pygame.Rect:
    """Return where the bar is in ``rect``, for ``whole`` px of content scrolled by ``offset``."""
    wide = ui.look.px(WIDE)
    tall = min(rect.height, max(ui.look.px(28), rect.height * rect.height // max(1, whole)))
    top = rect.top + (rect.height - tall) * offset // max(1, whole - rect.height)
    return pygame.Rect(rect.right - wide, top, wide, tall)


def draw_bar(ui: Ui, surface: pygame.Surface, rect: pygame.Rect, whole: int, offset: int) -> None:
    """Draw the bar."""
    bar = thumb(ui, rect, whole, offset)
    pygame.draw.rect(surface, ui.look["panel_edge"], bar, border_radius=bar.width // 2)


def take_hold(ui: Ui, key: str, rect: pygame.Rect, whole: int, offset: int, pos: tuple[int, int]) -> bool:
    """Take hold of the bar at a press, if it was on it: beside the bar, it is brought under the mouse first."""
    if whole <= rect.height or pos[0] < rect.right - ui.look.px(REACH):
        return False
    bar = thumb(ui, rect, whole, offset)
    inside = bar.top <= pos[1] < bar.bottom
    ui.memory[f"grip/{key}"] = pos[1] - bar.top if inside else bar.height // 2
    return True


def dragged(ui: Ui, key: str, rect: pygame.Rect, whole: int, pos: tuple[int, int]) -> int | None:
    """Return how far to scroll while the bar is held; None where it is not."""
    grip = ui.memory.get(f"grip/{key}")
    if grip is None:
        return None
    bar = thumb(ui, rect, whole, 0)
    room = max(1, rect.height - bar.height)
    part = max(0.0, min(1.0, (pos[1] - int(grip) - rect.top) / room))
    return round(part * (whole - rect.height))


def let_go(ui: Ui, key: str) -> bool:
    """Let go of the bar; return whether it was held."""
    return ui.memory.pop(f"grip/{key}", None) is not None
