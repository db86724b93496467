"""A window smaller than the least that a screen has room in: the screen keeps its least size, and the window moves on.

It goes where the mouse is, so that every place can be pressed on, and to what has the focus, for the keyboard.
"""

from __future__ import annotations

import pygame

LEAST = (800, 500)
"""The least size of a screen at 100 %, px; it grows with the text."""
MOST = (1280, 700)
"""The least size of a screen never is more than this, px; a window opens no lower."""
ROOM = 12
"""How far within the window what is shown comes, px."""
BAR = 4
"""Thickness of the bars that say where on the screen the window is, px."""


def least(scale: float) -> tuple[int, int]:
    """Return the least size of a screen at a text size, px."""
    wide, high = (min(most, round(size * scale)) for size, most in zip(LEAST, MOST, strict=True))
    return wide, high


class SmallWindow:
    """What is drawn on: the ``window`` itself, or a larger ``canvas`` of which it shows a part."""

    def __init__(self, window: pygame.Surface, scale: float) -> None:
        self.window = window
        self.shift = (0, 0)
        self.canvas = window
        self.fit(window, scale)

    @property
    def small(self) -> bool:
        """Whether the window shows only a part."""
        return self.canvas is not self.window

    def fit(self, window: pygame.Surface, scale: float) -> pygame.Surface:
        """Take another window or text size; return what is to be drawn on."""
        self.window = window
        (wide, high), (least_wide, least_high) = window.get_size(), least(scale)
        size = (max(wide, least_wide), max(high, least_high))
        if size == (wide, high):
            self.canvas, self.shift = window, (0, 0)
        elif not self.small or self.canvas.get_size() != size:
            self.canvas = pygame.Surface(size)
        self._go(*self.shift)
        return self.canvas

    def _go(self, x: int, y: int) -> None:
        spare = [max(0, c - w) for c, w in zip(self.canvas.get_size(), self.window.get_size(), strict=True)]
        self.shift = (max(0, min(spare[0], x)), max(0, min(spare[1], y)))

    def under(self, pos: tuple[int, int]) -> tuple[int, int]:
        """Return the place of the screen that the mouse is on, and move the window on with it."""
        if not self.small:
            return pos
        shares = [at / max(1, size - 1) for at, size in zip(pos, self.window.get_size(), strict=True)]
        spare = [c - w for c, w in zip(self.canvas.get_size(), self.window.get_size(), strict=True)]
        self._go(round(shares[0] * spare[0]), round(shares[1] * spare[1]))
        return pos[0] + self.shift[0], pos[1] + self.shift[1]

    def reveal(self, rect: pygame.Rect) -> None:
        """Move the window so far that a part of the screen is seen in it, its beginning first."""
        wide, high = self.window.get_size()
        x, y = self.shift
        x = min(max(x, rect.right + ROOM - wide), rect.left - ROOM)
        y = min(max(y, rect.bottom + ROOM - high), rect.top - ROOM)
        self._go(x, y)

    def show(self, colour: tuple[int, int, int]) -> pygame.Rect:
        """Put the part that is seen on the window, with bars that say where it is; return what has changed."""
        self.window.blit(self.canvas, (-self.shift[0], -self.shift[1]))
        wide, high = self.window.get_size()
        whole_wide, whole_high = self.canvas.get_size()
        if whole_wide > wide:
            bar = (wide * self.shift[0] // whole_wide, high - BAR, wide * wide // whole_wide, BAR)
            self.window.fill(colour, bar)
        if whole_high > high:
            self.window.fill(colour, (wide - BAR, high * self.shift[1] // whole_high, BAR, high * high // whole_high))
        return self.window.get_rect()
