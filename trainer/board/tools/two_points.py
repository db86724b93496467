"""The tape held to two points of the plan: to read between them, or for a piece of bracing from one to the other."""

from __future__ import annotations

import math

from trainer.board.overlay import FIGURE_PX, NOTE_PX, circle
from trainer.board.snap import REACH, tape_places, tape_point, whole_step
from trainer.board.tools.hand import Hand
from trainer.picture.measures import figure
from trainer.picture.model import Item, Line, Text
from trainer.plan import Point
from trainer.plan.points import half

ARM = 120.0
"""Half the size of the cross where the tape is held, mm."""


def point_at(hand: Hand, place: Point, mm_per_px: float) -> None:
    """Hold the tape at a place, or at what catches it near there."""
    hand.point, hand.caught = tape_point(hand.site, place, REACH * mm_per_px, whole_step(mm_per_px))


def move(hand: Hand, across: float, up: float) -> None:
    """Hold the tape so many mm across the plan and up it."""
    hand.caught = ""
    hand.point = (hand.point[0] + across, hand.point[1] + up)


def next_catch(hand: Hand) -> bool:
    """Hold the tape at the next place that catches it."""
    spots = sorted(spot for spot, _by in tape_places(hand.site))
    hand.point = next((spot for spot in spots if spot > hand.point), spots[0])
    return True


def in_words(hand: Hand) -> str:
    """Say what the tape reads, or where it is held."""
    ends = hand.points if len(hand.points) == 2 else (*hand.points, hand.point)
    return f"{between_in_words(*ends)} mm" if len(ends) == 2 else f"{hand.point[0]:g}, {hand.point[1]:g}"


def between_in_words(a: Point, b: Point) -> str:
    """Say how far two points are apart, and if the line slants how far that is along the plan and up it."""
    across, up = abs(b[0] - a[0]), abs(b[1] - a[1])
    text = figure(half(math.dist(a, b)))
    return text if min(across, up) < 1 else f"{text}  ({figure(across)} × {figure(up)})"


def drawn(hand: Hand) -> list[Item]:
    """Return the tape between two points, with its length and how far it goes along and up the plan."""
    x, y = hand.point
    items: list[Item] = [
        Line(((x - ARM, y), (x + ARM, y)), "mark", 2.0),
        Line(((x, y - ARM), (x, y + ARM)), "mark", 2.0),
    ]
    if not hand.points:
        if hand.caught:
            items.append(Text((x, y + 2.4 * ARM), hand.caught, "mark", NOTE_PX, "px", ground="paper"))
        return items
    a = hand.points[0]
    b = hand.points[1] if len(hand.points) == 2 else hand.point
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    words = Text(middle, between_in_words(a, b), "mark", FIGURE_PX, "px", bold=True, ground="paper")
    return [*items, Line((a, b), "mark", 2.5), circle(a, 70, 2.5), circle(b, 70, 2.5), words]
