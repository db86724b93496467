"""What a card model is made of: leaves of card with tabs to glue and slots that go into each other.

Places on a piece are (run, z), mm of the house, as in :attr:`Member.top`; what the card itself asks for is given in mm
of paper and enlarged by the scale. A truss is drawn up to the line of the roof: the card stands for its timber and for
what lies between it and the roof, so that what crosses it goes into slots and the tops come out flush. Below, it goes
on past the top of the plate, so that there is card to hold its tails.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from shapely.geometry import Polygon as Shape
from shapely.geometry import box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from trainer.layout import Member
from trainer.layout.slopes import height_on
from trainer.picture.trusses import along
from trainer.plan import Point

CARD, CLEAR = 0.5, 0.1
"""Thickness of the card and what a slot is wider, mm of paper."""
STRIP = 6.0
"""Depth of an extension, so that there is card left over a slot, mm of paper."""
TAIL = 2.5
"""Least depth of a tail, mm of paper."""
TONGUE = 8.0
"""Width of what of a saddle goes down into a slot, mm of paper."""
LEAST = 2.0
"""The least width that card is left with anywhere, mm of paper."""
SAME = 0.2
"""What meets within this, mm of paper, meets."""
RunZ = tuple[float, float]
Side = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Slot:
    """A slot in a piece at a crossing: its middle ``run``, how ``wide`` it is, and from where to where it goes.

    ``mouth`` is the height at which it opens, ``end`` where it ends, mm. ``other`` is the piece that goes into it.
    """

    other: str
    run: float
    wide: float
    mouth: float
    end: float


@dataclass(frozen=True, slots=True)
class Tab:
    """A tab, folded along ``fold`` to one ``side``; ``end`` is which end of the truss it is at."""

    end: int
    fold: tuple[RunZ, RunZ]
    outline: tuple[RunZ, ...]
    foot: bool
    side: Side = "left"


@dataclass(frozen=True, slots=True)
class Hung:
    """Where the tab of the piece ``tag`` is glued on a carrier's face: at a ``run``, printed side or ``back``."""

    tag: str
    run: float
    back: bool


@dataclass(frozen=True)
class Piece:
    """One thing to cut out: its outline with tabs and slots, where it is folded, the timbers printed on it.

    ``start`` and ``finish`` are the plan places of its bearings, between which runs are counted. ``low`` is its lower
    edge, without tabs and tails.
    """

    tag: str
    start: Point
    finish: Point
    low: float
    outline: tuple[RunZ, ...]
    tabs: tuple[Tab, ...]
    slots: tuple[Slot, ...]
    timbers: tuple[tuple[RunZ, ...], ...]
    hung: tuple[Hung, ...] = ()

    @property
    def box(self) -> tuple[float, float, float, float]:
        """(least run, least z, greatest run, greatest z), mm."""
        runs, zs = zip(*self.outline, strict=True)
        return min(runs), min(zs), max(runs), max(zs)

    @property
    def span(self) -> float:
        """Length between its bearings, mm."""
        return math.dist(self.start, self.finish)


@dataclass(frozen=True)
class Leaf:
    """A truss as card before it is slotted.

    ``low`` is the lower edge between its bearings, ``body`` from where to where that goes, ``card`` from where to where
    there is any card; ``tail`` and ``beyond`` are the plumb depths of what runs on past its two ends, and it stands
    ``aside`` of the truss's own line, to the left; all mm.
    """

    member: Member
    low: float
    body: tuple[float, float]
    card: tuple[float, float]
    tail: float
    beyond: float
    aside: float = 0.0
    shortened: bool = False
    """Whether a tail of it ends at another's."""

    @property
    def tag(self) -> str:
        """Its truss's."""
        return self.member.tag

    @property
    def direction(self) -> Point:
        """Unit vector in plan along it."""
        return self.member.direction

    def place(self, run: float) -> Point:
        """Return the plan point at a run."""
        (x, y), (ux, uy) = along(self.member, run), self.member.direction
        return x - uy * self.aside, y + ux * self.aside

    def up_and_down(self, run: float) -> RunZ | None:
        """Return from where to where there is card at a run, mm up; None where there is none."""
        top = height_on(self.member.top, run)
        if top is None or not self.card[0] <= run <= self.card[1]:
            return None
        if run < self.body[0]:
            return top - self.tail, top
        return (top - self.beyond, top) if run > self.body[1] else (self.low, top)

    def passes_over(self, run: float) -> bool:
        """Whether at a run it is an extension: what passes over other trusses."""
        return self.member.kind in ("hip", "jack") and run > self.body[1]

    def cut_short(self, run: float) -> Leaf:
        """Return it with no tail past a run before or after its bearings."""
        first, last = self.card
        return replace(self, card=(run, last) if run < self.body[0] else (first, run), shortened=True)

    def silhouette(self) -> BaseGeometry:
        """Return its outline without slots and tabs: what is over its lower edge, tails, extension."""
        top, (a, b), (first, last) = self.member.top, self.body, self.card
        under = Shape([*top, (top[-1][0], self.low - 1e5), (top[0][0], self.low - 1e5)])
        parts: list[BaseGeometry] = [under.intersection(box(a, self.low, b, 1e6))]
        for low, high, depth in ((first, a, self.tail), (b, last, self.beyond)):
            if high - low > 1:
                strip = Shape([*top, *reversed([(run, z - depth) for run, z in top])]).buffer(0)
                inner = (low, high + 1) if high == a else (low - 1, high)
                parts.append(strip.intersection(box(inner[0], -1e6, inner[1], 1e6)))
        return unary_union(parts)


def face(one: Point, other: Point, scale: int) -> float:
    """Return how far from the middle of a crossing card that runs ``one`` way ends clear of card that runs the other.

    Both are unit vectors in plan; mm.
    """
    sine, cosine = _angle(one, other)
    return CARD / 2 * scale * (1 + cosine) / sine


def slot_width(one: Point, other: Point, scale: int) -> float:
    """Return how wide a slot is, mm, for card that runs in one direction through card that runs in another."""
    sine, cosine = _angle(one, other)
    return (CARD + CLEAR) * scale / sine + CARD * scale * cosine / sine


def _angle(one: Point, other: Point) -> tuple[float, float]:
    """Sine and cosine of the angle between two lines in plan; of no sharper one than the model has."""
    (ax, ay), (bx, by) = one, other
    return max(abs(ax * by - ay * bx), 0.3), abs(ax * bx + ay * by)


def ring(shape: BaseGeometry) -> tuple[RunZ, ...]:
    """Return the outline of the largest part of a shape."""
    whole = max(getattr(shape, "geoms", [shape]), key=lambda part: part.area)
    return tuple((float(x), float(z)) for x, z in whole.exterior.coords[:-1])
