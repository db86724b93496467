"""The tape held to two points of the plan: to read between them, or for a piece of bracing from one to the other."""

from __future__ import annotations

import math
from dataclasses import dataclass

from trainer.board.overlay import FIGURE_PX, circle, cross
from trainer.board.snap import REACH, ends_of_trusses, tape_places, tape_point, whole_step
from trainer.board.tools.panel import Screen
from trainer.board.tools.tool import A, Tool
from trainer.picture.measures import figure
from trainer.picture.model import Item, Line, Text
from trainer.plan import Point
from trainer.plan.points import half
from trainer.site.model import Stood


@dataclass
class TwoPointsTool(Tool[A]):
    """A tool that the tape is put to two points for."""

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        self.hand.point, self.hand.caught = tape_point(self.site, place, REACH * mm_per_px, whole_step(mm_per_px))

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        self.enter(screen)

    def enter(self, screen: Screen) -> None:
        self.hand.put_tape()

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        self.hand.caught = ""
        self.hand.point = (self.hand.point[0] + across * step, self.hand.point[1] + up * step)

    def next_catch(self) -> bool:
        spots = sorted(spot for spot, _by in (*tape_places(self.site), *ends_of_trusses(self.site)))
        self.hand.point = next((spot for spot in spots if spot > self.hand.point), spots[0])
        return True

    @property
    def aimed_at(self) -> str:
        """What the tape reads, or where it is held."""
        points, (x, y) = self.hand.points, self.hand.point
        ends = points if len(points) == 2 else (*points, (x, y))
        return f"{between_in_words(*ends)} mm" if len(ends) == 2 else f"{x:g}, {y:g}"

    def drawn(self, hovered: str) -> list[Item]:
        """Return the tape between two points, with its length and how far it goes along and up the plan."""
        if not self.hand.points:
            return cross(self.hand.point, self.hand.caught)
        items = cross(self.hand.point, "")
        a = self.hand.points[0]
        b = self.hand.points[1] if len(self.hand.points) == 2 else self.hand.point
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        words = Text(middle, between_in_words(a, b), "mark", FIGURE_PX, "px", bold=True, ground="paper")
        return [*items, Line((a, b), "mark", 2.5), circle(a, 70, 2.5), circle(b, 70, 2.5), words]


def between_in_words(a: Point, b: Point) -> str:
    """Say how far two points are apart, and if the line slants how far that is along the plan and up it."""
    across, up = abs(b[0] - a[0]), abs(b[1] - a[1])
    text = figure(half(math.dist(a, b)))
    return text if min(across, up) < 1 else f"{text}  ({figure(across)} × {figure(up)})"
