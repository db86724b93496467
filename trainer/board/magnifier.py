"""A magnifying glass over a drawing: what lies under the pointer, larger, with all its tags."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from trainer.board.paint import Brush
from trainer.board.widgets import Ui
from trainer.picture.lettering import text_box
from trainer.picture.model import Box, Item, Polygon, Text, View
from trainer.picture.placing import Lettering, letter
from trainer.plan import Point

Live = Callable[[Brush], None]
Still = Callable[[float], list[Item]]
TIMES = 2.6
"""How much larger than the drawing under it the glass shows it."""
SIZE = (340, 250)
"""Width and height of the glass, px at 100 %."""
MOST = 0.6
"""It takes no more than this part of the view."""
EDGE = 3
"""Width of its frame, px."""


class Magnifier:
    """Letters a drawing once for its own scale, and then paints only what lies under the glass."""

    def __init__(self) -> None:
        self._of: object = None
        self._lettered: Lettering | None = None
        self._boxes: list[tuple[Box, Item]] = []

    def paint(
        self, ui: Ui, window: pygame.Surface, view: View, place: Point, drawing: tuple[object, Still], live: Live | None
    ) -> None:
        """Hold the glass over a place of a view. ``drawing`` is what that depends on, and gives it for a scale."""
        size = [min(ui.look.px(side), round(room * MOST)) for side, room in zip(SIZE, window.get_size(), strict=True)]
        x, y = view.to_px(place)
        rect = pygame.Rect(0, 0, *size).move(round(x) - size[0] // 2, round(y) - size[1] // 2)
        rect.clamp_ip(window.get_rect())
        scale = view.scale * TIMES
        # The place stays where it is.
        through = View(scale, place[0] - (x - rect.left) / scale, place[1] + (y - rect.top) / scale)
        of, still = drawing
        if self._lettered is None or self._of != (of, scale, ui.look.scale):
            self._of = (of, scale, ui.look.scale)
            self._lettered = letter(still(scale), scale, ui.look.scale)
            self._boxes = [(_box(item, scale), item) for item in self._lettered.items]
        glass = pygame.Surface(rect.size)
        glass.fill(ui.look["paper"])
        brush = Brush(glass, ui.look.colours, through, lettering=ui.look.scale, among=self._lettered)
        brush.paint_sheet(self._under(through.to_mm((0, 0)), through.to_mm(rect.size)))
        if live is not None:
            live(brush)
        window.blit(glass, rect)
        pygame.draw.rect(window, ui.look["focus"], rect, EDGE)

    def _under(self, upper_left: Point, lower_right: Point) -> list[Item]:
        (left, high), (right, low) = upper_left, lower_right
        return [item for (x0, y0, x1, y1), item in self._boxes if x0 < right and x1 > left and y0 < high and y1 > low]


def _box(item: Item, scale: float) -> Box:
    if isinstance(item, Text):
        return text_box(item, scale, 0.5)
    xs, ys = zip(*item.points, strict=True)
    stroke = item.width / scale if isinstance(item, Polygon) or item.unit == "px" else item.width
    return (min(xs) - stroke, min(ys) - stroke, max(xs) + stroke, max(ys) + stroke)
