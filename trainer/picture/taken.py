"""The room that lettering fills already, kept by squares of the paper so that little of it has to be asked."""

from __future__ import annotations

import math

from trainer.picture.lettering import meet
from trainer.picture.model import Box
from trainer.plan import Point


class Taken:
    """Level boxes and leader lines, mm; ``square`` is about the size of a box."""

    def __init__(self, square: float) -> None:
        self._square = square
        self._boxes: dict[tuple[int, int], list[Box]] = {}
        self._lines: dict[tuple[int, int], list[tuple[Point, Point]]] = {}

    def _squares(self, box: Box) -> list[tuple[int, int]]:
        size, floor = self._square, math.floor
        left, low, right, high = floor(box[0] / size), floor(box[1] / size), floor(box[2] / size), floor(box[3] / size)
        if left == right and low == high:
            return [(left, low)]
        return [(x, y) for x in range(left, right + 1) for y in range(low, high + 1)]

    def add(self, box: Box) -> None:
        """Take the room of a box."""
        for square in self._squares(box):
            self._boxes.setdefault(square, []).append(box)

    def drop(self, box: Box) -> None:
        """Give the room of a box back."""
        for square in self._squares(box):
            self._boxes[square].remove(box)

    def add_line(self, a: Point, b: Point) -> None:
        """Take the room of a leader line."""
        for square in self._squares(_around(a, b)):
            self._lines.setdefault(square, []).append((a, b))

    def free(self, box: Box) -> bool:
        """Whether nothing lies in a box."""
        for square in self._squares(box):
            for other in self._boxes.get(square, ()):
                if meet(box, other):
                    return False
            for line in self._lines.get(square, ()):
                if crosses(line, box):
                    return False
        return True

    def clear(self, a: Point, b: Point) -> bool:
        """Whether a line passes through no box, and over no other line."""
        for square in self._squares(_around(a, b)):
            for box in self._boxes.get(square, ()):
                if crosses((a, b), box):
                    return False
            for line in self._lines.get(square, ()):
                if _cross(a, b, *line):
                    return False
        return True


def _around(a: Point, b: Point) -> Box:
    return (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))


def crosses(line: tuple[Point, Point], box: Box) -> bool:
    """Whether a straight line passes through a box (Liang and Barsky's method)."""
    (x, y), (bx, by) = line
    left, low, right, high = box
    if (
        (x <= left and bx <= left)
        or (x >= right and bx >= right)
        or (y <= low and by <= low)
        or (y >= high and by >= high)
    ):
        return False
    begin, end = 0.0, 1.0
    for way, near, far in ((bx - x, left - x, right - x), (by - y, low - y, high - y)):
        if way == 0.0:
            if near >= 0.0 or far <= 0.0:
                return False
            continue
        first, last = sorted((near / way, far / way))
        begin, end = max(begin, first), min(end, last)
    return begin < end


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
