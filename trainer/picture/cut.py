"""The line of a section, and what it finds under the roof: plates on studs, and verandah beams on posts.

On the paper x runs along the line from its first place, y is the height above the plates.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from trainer.layout import Layout
from trainer.layout.posts import WIDEST, free_posts
from trainer.picture import higher_walls
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.verandah import FOOT, in_section
from trainer.picture.wall_frames import walled
from trainer.plan import Point, Wall
from trainer.roof.model import Point3

PLATE, STUD = 90.0, 420.0
"""Depth of the two plates, and how much of the stud under them is drawn, mm."""
ON_LINE = 45.0
"""A post that is no further from the line than this, mm, stands on it."""


@dataclass(frozen=True)
class SectionLine:
    """A line on the plan from ``a`` to ``b``; one looks from its right-hand side."""

    a: Point
    b: Point

    @cached_property
    def unit(self) -> tuple[float, float]:
        """The unit step along it."""
        length = math.dist(self.a, self.b) or 1.0
        return ((self.b[0] - self.a[0]) / length, (self.b[1] - self.a[1]) / length)

    @property
    def length(self) -> float:
        """Its length, mm."""
        return math.dist(self.a, self.b)

    @property
    def words(self) -> str:
        """Its two ends in words."""
        return " – ".join(f"{x:g}, {y:g}" for x, y in (self.a, self.b))

    def place(self, at: Point | Point3) -> Point:
        """Return (along, aside) of a place: along the line from ``a``, and off it to the left; mm."""
        (ux, uy), dx, dy = self.unit, at[0] - self.a[0], at[1] - self.a[1]
        return dx * ux + dy * uy, dy * ux - dx * uy

    def paper(self, at: Point3) -> Point:
        """Return where a place in space comes on the paper."""
        return self.place(at)[0], at[2]

    def point(self, along: float) -> Point:
        """Return the place of the plan so far along it."""
        return self.a[0] + self.unit[0] * along, self.a[1] + self.unit[1] * along


def ground(layout: Layout, cut: SectionLine) -> Iterator[Item]:
    """Return the plates that the line crosses, and what it runs along, on short studs."""
    plan = layout.house.plan
    for wall in plan.walls:
        (ax, ay), (bx, by) = cut.place(wall.a), cut.place(wall.b)
        nx, ny = wall.inward
        if wall.against:
            yield from _higher_wall(layout, wall, cut)
        elif (ay > 0) != (by > 0):
            along = ax + (bx - ax) * ay / (ay - by)
            turn = nx * cut.unit[0] + ny * cut.unit[1]
            wide = plan.plate_width / (turn if abs(turn) > 0.2 else math.copysign(0.2, turn))
            if -plan.plate_width <= along <= cut.length + plan.plate_width:
                left, right = min(along, along + wide), max(along, along + wide)
                on = next((beam for beam in plan.beams if beam.holds(wall, cut.point(along))), None)
                yield from _beam_cut(layout, wall, cut, left, right) if on else _plate(left, right, wall.name)
        elif max(abs(ay), abs(by)) <= plan.plate_width:
            for p, q in walled(plan, wall):
                yield from _along(cut, p, q, wall.name)
            yield from _beams_along(layout, wall, cut)


def _higher_wall(layout: Layout, wall: Wall, cut: SectionLine) -> Iterator[Item]:
    """Yield a higher wall where the line cuts it."""
    (ax, ay), (bx, by) = cut.place(wall.a), cut.place(wall.b)
    if (ay > 0) != (by > 0):
        along = ax + (bx - ax) * ay / (ay - by)
        if 0 <= along <= cut.length:
            turn = wall.inward[0] * cut.unit[0] + wall.inward[1] * cut.unit[1]
            yield higher_walls.in_section(layout, along, 1.0 if turn > 0 else -1.0, -STUD)
            yield _name(along, wall.name)


def _along(cut: SectionLine, p: Point, q: Point, name: str) -> Iterator[Item]:
    """Yield the plate of a wall that the line runs along, from one place to another."""
    ends = cut.place(p)[0], cut.place(q)[0]
    left, right = max(0.0, min(ends)), min(cut.length, max(ends))
    if left < right:
        yield from _plate(left, right, name)


def _beam_cut(layout: Layout, wall: Wall, cut: SectionLine, left: float, right: float) -> Iterator[Item]:
    """Yield a verandah beam where the line cuts it, and the post that stands there, or is the next behind it."""
    places = sorted((aside, x) for x, aside in (cut.place(post.at) for post in free_posts(layout, wall.name)))
    yield from in_section(left, right, tuple(x for aside, x in places if -ON_LINE <= aside <= WIDEST)[:1])
    yield _name((left + right) / 2, wall.name, FOOT)


def _beams_along(layout: Layout, wall: Wall, cut: SectionLine) -> Iterator[Item]:
    """Yield the verandah beams of a wall that the line runs along, on their posts."""
    for beam in (beam for beam in layout.house.plan.beams if beam.wall == wall.name):
        ends = cut.place(wall.at(beam.low))[0], cut.place(wall.at(beam.high))[0]
        left, right = max(0.0, min(ends)), min(cut.length, max(ends))
        if left < right:
            places = (cut.place(post.at)[0] for post in free_posts(layout, wall.name))
            yield from in_section(left, right, tuple(x for x in places if left <= x <= right))
            yield _name((left + right) / 2, wall.name, FOOT)


def _plate(left: float, right: float, name: str) -> Iterator[Item]:
    for z in (0.0, -PLATE / 2):
        low = z - PLATE / 2
        yield Polygon(((left, low), (right, low), (right, z), (left, z)), "plate", "plate_edge", 1.2)
    yield Line(((left, -PLATE), (left, -STUD)), "plate_edge", 1.0)
    yield Line(((right, -PLATE), (right, -STUD)), "plate_edge", 1.0)
    yield _name((left + right) / 2, name)


def _name(x: float, name: str, z: float = -STUD) -> Text:
    """Return a wall's letter under it, where that ends."""
    return Text((x, z), name, "faint", 16.0, "px", bold=True, off=(0.0, -0.8))
