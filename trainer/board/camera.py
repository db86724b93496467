"""Which part of the plan is looked at, and how large."""

from __future__ import annotations

from trainer.picture.model import Box, View, fit
from trainer.plan import Point

MOST_SCALE = 1.2
"""Px per mm of the nearest look."""


class Camera:
    """A view that can be fitted, moved and zoomed, on a viewport ``size`` px wide and high.

    What is fitted leaves ``foot`` px at the foot free.
    """

    def __init__(self) -> None:
        self.size = (1, 1)
        self.foot = 0
        self.view = View(0.1, 0.0, 0.0)
        self._box: Box = (0.0, 0.0, 1.0, 1.0)
        self._fitted = True

    @property
    def mm_per_px(self) -> float:
        """Plan millimetres that one px shows."""
        return 1 / self.view.scale

    def look_at(self, box: Box) -> None:
        """Show all of a box, and keep showing it while the window changes."""
        self._box = box
        self._fitted = True
        self.view = self._whole()

    def _whole(self) -> View:
        wide, high = self.size
        return fit(self._box, wide, max(1, high - self.foot))

    def fit(self) -> None:
        """Show everything again."""
        self.look_at(self._box)

    def resize(self, size: tuple[int, int], foot: int = 0) -> None:
        """Take a new size of viewport; what was fitted stays fitted, otherwise the middle stays the middle."""
        if (size, foot) == (self.size, self.foot):
            return
        middle = self.view.to_mm((self.size[0] / 2, self.size[1] / 2))
        self.size, self.foot = size, foot
        if self._fitted:
            self.fit()
        else:
            self._centre(middle)

    def _centre(self, middle: Point) -> None:
        scale = self.view.scale
        self.view = View(scale, middle[0] - self.size[0] / 2 / scale, middle[1] + self.size[1] / 2 / scale)

    def pan(self, dx: float, dy: float) -> None:
        """Move what is seen by so many px to the right and down."""
        scale = self.view.scale
        self._fitted = False
        self.view = View(scale, self.view.left - dx / scale, self.view.top + dy / scale)

    def zoom(self, by: float, about: tuple[float, float]) -> None:
        """Enlarge by a factor; the place under ``about`` px stays where it is."""
        least = self._whole().scale * 0.5
        scale = max(least, min(MOST_SCALE, self.view.scale * by))
        x, y = self.view.to_mm(about)
        self._fitted = False
        self.view = View(scale, x - about[0] / scale, y + about[1] / scale)

    def reveal(self, point: Point, margin_px: float = 60) -> None:
        """Move just so far that a place can be seen."""
        x, y = self.view.to_px(point)
        wide, high = self.size
        dx = max(0.0, margin_px - x) - max(0.0, x - (wide - margin_px))
        dy = max(0.0, margin_px - y) - max(0.0, y - (high - margin_px))
        if dx or dy:
            self.pan(dx, dy)
