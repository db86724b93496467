"""The still part of a drawing, painted once on a surface somewhat larger than the window on it.

A frame only copies it. While the view moves it is shifted, while it zooms it is stretched; it is painted
again when the view has come to rest.
"""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.picture.model import View

SETTLE_MS = 140
"""How long a view has been still before it is painted again."""
MARGIN = 0.2
"""How much is painted beyond each edge, as a part of the window's size."""
PaintAll = Callable[[pygame.Surface, View], None]


class StillLayer:
    """A cached painting of everything that does not move by itself."""

    def __init__(self, paint: PaintAll) -> None:
        self._paint = paint
        self._surface: pygame.Surface | None = None
        self._view = View(1.0, 0.0, 0.0)
        self._wanted = View(1.0, 0.0, 0.0)
        self._moved_at = 0
        self._stale = True
        self.paintings = 0

    def invalidate(self) -> None:
        """What is drawn has changed: paint it again at the next chance."""
        self._stale = True

    def waiting(self, view: View) -> bool:
        """Whether the painting is of another view than this."""
        return self._stale or view != self._view

    def show(self, target: pygame.Surface, rect: pygame.Rect, view: View, now_ms: int) -> None:
        """Copy the painting on the target's ``rect``, painting it first if it is stale or the view has settled."""
        size = (round(rect.width * (1 + 2 * MARGIN)), round(rect.height * (1 + 2 * MARGIN)))
        if view != self._wanted:
            self._wanted = view
            self._moved_at = now_ms
        new_size = self._surface is None or self._surface.get_size() != size
        if self._stale or new_size or (view != self._view and now_ms - self._moved_at >= SETTLE_MS):
            self._renew(size, rect, view)
        surface = self._surface
        if surface is None:
            return
        clip = target.get_clip()
        target.set_clip(rect.clip(clip))
        pad = (rect.width * MARGIN, rect.height * MARGIN)
        left, top = view.to_px(self._view.to_mm((-pad[0], -pad[1])))
        if view.scale == self._view.scale:
            target.blit(surface, (rect.left + round(left), rect.top + round(top)))
        else:
            self._stretch(target, rect, view.scale / self._view.scale, (left, top))
        target.set_clip(clip)

    def _renew(self, size: tuple[int, int], rect: pygame.Rect, view: View) -> None:
        if self._surface is None or self._surface.get_size() != size:
            self._surface = pygame.Surface(size)
        shift = View(
            view.scale, view.left - rect.width * MARGIN / view.scale, view.top + rect.height * MARGIN / view.scale
        )
        self._paint(self._surface, shift)
        self._view = view
        self._stale = False
        self.paintings += 1

    def _stretch(self, target: pygame.Surface, rect: pygame.Rect, by: float, at: tuple[float, float]) -> None:
        """Stretch only the part that is seen, quickly and roughly."""
        assert self._surface is not None
        seen = pygame.Rect(
            round(-at[0] / by), round(-at[1] / by), max(1, round(rect.width / by)), max(1, round(rect.height / by))
        ).clip(self._surface.get_rect())
        if not seen.width or not seen.height:
            return
        into = (max(1, round(seen.width * by)), max(1, round(seen.height * by)))
        piece = pygame.transform.scale(self._surface.subsurface(seen), into)
        target.blit(piece, (rect.left + round(at[0] + seen.left * by), rect.top + round(at[1] + seen.top * by)))
