"""Which part of the plan is looked at, and how large."""

from __future__ import annotations

from collections.abc import Callable

from trainer.picture.model import Box, View, fit
from trainer.plan import Point

MOST_SCALE = 1.2
"""Px per mm of the nearest look."""
EDGE = 12
"""What is kept free along the edges of the window, px, where it is not very small."""
TRIES = 3
"""So many times the room for lettering is reckoned before a fitted view is shown."""
LEAST_PART = 0.3
"""Lettering leaves the drawing no less than this part of the room."""
Lettering = Callable[[float], tuple[float, float, float, float]]


class Camera:
    """A view that can be fitted, moved and zoomed, on a viewport ``size`` px wide and high.

    What is fitted leaves ``foot`` px at the foot free, and room for the ``lettering`` that stands out of its box:
    that says, for a scale in px per mm, by how many px on the left, below, on the right and above.
    """

    def __init__(self, lettering: Lettering = lambda _scale: (0.0, 0.0, 0.0, 0.0)) -> None:
        self._lettering = lettering
        self._least = 0.01
        self.size = (1, 1)
        self.foot = 0
        self.letters = 0.0
        self.view = View(0.1, 0.0, 0.0)
        self._box: Box = (0.0, 0.0, 1.0, 1.0)
        self._fitted = True

    @property
    def box(self) -> Box:
        """What is shown when all is shown."""
        return self._box

    @property
    def mm_per_px(self) -> float:
        """Plan millimetres that one px shows."""
        return 1 / self.view.scale

    @property
    def fitted(self) -> bool:
        """Whether all is shown, and stays so while the window changes."""
        return self._fitted

    def look_at(self, box: Box) -> None:
        """Show all of a box, and keep showing it while the window changes."""
        self._box = box
        self._fitted = True
        self.view = self._whole()
        self._least = self.view.scale * 0.5

    def _whole(self) -> View:
        edge = min(EDGE, self.size[0] / 10, self.size[1] / 10)
        wide, high = self.size[0] - 2 * edge, max(1, self.size[1] - self.foot - 2 * edge)
        view = self.view = fit(self._box, wide, high)  # what is drawn meanwhile is drawn for this window
        for _try in range(TRIES):
            # How far lettering stands out comes of the scale, and the scale of the room that it takes.
            left, below, right, above = self._lettering(view.scale)
            left, right = _shared(left, right, wide * (1 - LEAST_PART))
            below, above = _shared(below, above, high * (1 - LEAST_PART))
            drawn = fit(self._box, wide - left - right, high - below - above)
            aside, down = (left + edge) / drawn.scale, (above + edge) / drawn.scale
            view = View(drawn.scale, drawn.left - aside, drawn.top + down)
        return view

    def hold(self) -> None:
        """Keep the view as it is, whatever room the lettering takes."""
        self._fitted = False

    def fit(self) -> None:
        """Show everything again."""
        self.look_at(self._box)

    def resize(self, size: tuple[int, int], foot: int = 0, letters: float = 1.0) -> None:
        """Take a new size of viewport or of text; what was fitted stays so, otherwise the middle stays the middle."""
        if (size, foot, letters) == (self.size, self.foot, self.letters):
            return
        middle = self.view.to_mm((self.size[0] / 2, self.size[1] / 2))
        self.size, self.foot, self.letters = size, foot, letters
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
        scale = max(self._least, min(MOST_SCALE, self.view.scale * by))
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


def _shared(one: float, other: float, most: float) -> tuple[float, float]:
    """Return the room for lettering on two sides, less on both where together they would take more than there is."""
    part = min(1.0, most / (one + other)) if one + other else 1.0
    return one * part, other * part
