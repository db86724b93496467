"""The display list: what a drawing is made of, before anyone paints it.

Coordinates are plan millimetres, x to the right and y up, whatever paints them. Colours are roles
that a palette resolves. A stroke or a lettering size is either to scale (``mm``) or the same on every
zoom (``px``).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from trainer.plan import Point

Unit = Literal["mm", "px"]
Anchor = Literal["start", "middle", "end"]
SHEET_SCALE = 0.1
"""Scale of a drawing as a file, px per mm: strokes in px have their right weight at this scale."""
THIN, MEDIUM, HEAVY = 0.9, 1.8, 3.6
"""Strokes of the layout drawing, px, as 1 : 2 : 4: measures and outlines; roof lines and marks; walls and borders."""
Box = tuple[float, float, float, float]
"""(least x, least y, greatest x, greatest y), mm."""


@dataclass(frozen=True, slots=True)
class Line:
    """A polyline. ``dash`` alternates drawn and left-out lengths, in ``unit``; empty for a full line."""

    points: tuple[Point, ...]
    role: str
    width: float = 1.0
    unit: Unit = "px"
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Polygon:
    """A filled or outlined shape; ``fill`` or ``edge`` may be None for none. It closes itself."""

    points: tuple[Point, ...]
    fill: str | None
    edge: str | None = None
    width: float = 1.0
    unit: Unit = "px"


@dataclass(frozen=True, slots=True)
class Named:
    """The straight timber that a text names: where it lies in plan, and what stands beside it.

    Those of one ``row`` whose ``number`` follow each other, no more than ``reach`` mm apart, may share a text.
    """

    start: Point
    finish: Point
    row: str
    number: int
    reach: float


@dataclass(frozen=True, slots=True)
class Ring:
    """A ring round the timber that a text names, ``wide`` mm over all; it goes round a text on the timber as well."""

    role: str
    wide: float
    stroke: float = 3.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering: the middle of its height stands at ``at``, ``size`` is the height of its em.

    ``turn`` is in degrees anticlockwise. ``ground`` is the role of a box painted behind it.

    How large it is on a screen, and which of the places that would do it gets there, is for
    :func:`trainer.picture.lettering.place_texts`: ``off`` moves it from ``at`` by so many of its own ems, ``places``
    would do as well as ``at``, over ``rows`` lines it may move away (down, if negative), joined to ``at`` by a thin
    line. What is ``spare`` is left out where it has no room: nearer to, it has. One that ``names`` a timber is before
    that joined with its neighbours' or led to from where there is room; what it names may be ``ringed``. One with a
    ``ring`` has a circle round it in place of a box.
    """

    at: Point
    text: str
    role: str
    size: float
    unit: Unit = "mm"
    anchor: Anchor = "middle"
    turn: float = 0.0
    bold: bool = False
    ground: str | None = None
    off: Point = (0.0, 0.0)
    places: tuple[Point, ...] = ()
    rows: int = 0
    spare: bool = False
    ring: bool = False
    names: Named | None = None
    ringed: Ring | None = None


Item = Line | Polygon | Text


@dataclass(frozen=True, slots=True)
class Group:
    """A named layer of a drawing, or what belongs to one thing in it: ``of`` is a tag or a wall."""

    layer: str
    items: tuple[Item | Group, ...]
    of: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A whole drawing; ``box`` is what a sheet has to show, ``title`` and ``words`` say it without seeing it."""

    box: Box
    layers: tuple[Group, ...]
    title: str = ""
    words: str = ""

    def items(self) -> Iterator[Item]:
        """Every line, polygon and text, in the order in which they are painted."""
        for layer in self.layers:
            yield from flat(layer)


def flat(group: Group) -> Iterator[Item]:
    """Every item of a group and of the groups in it, in painting order."""
    for item in group.items:
        if isinstance(item, Group):
            yield from flat(item)
        else:
            yield item


def shifted(item: Item, by: Point) -> Item:
    """Return an item moved so many mm to the right and up."""
    if isinstance(item, Text):
        return shifted_text(item, by)
    return replace(item, points=tuple((x + by[0], y + by[1]) for x, y in item.points))


def shifted_text(text: Text, by: Point) -> Text:
    """Return a text moved with its places, and with what it names."""
    dx, dy = by
    at, *places = [(x + dx, y + dy) for x, y in (text.at, *text.places)]
    names = text.names
    if names is not None:
        start, finish = [(x + dx, y + dy) for x, y in (names.start, names.finish)]
        names = replace(names, start=start, finish=finish)
    return replace(text, at=at, places=tuple(places), names=names)


@dataclass(frozen=True, slots=True)
class View:
    """Where plan millimetres come out on a surface.

    ``scale`` is in px per mm; ``left, top`` is the plan place that falls on px (0, 0).
    """

    scale: float
    left: float
    top: float

    def to_px(self, at: Point) -> tuple[float, float]:
        """Plan mm to px, y downwards."""
        return ((at[0] - self.left) * self.scale, (self.top - at[1]) * self.scale)

    def to_mm(self, px: tuple[float, float]) -> Point:
        """Turn a place on the surface back into plan mm."""
        return (self.left + px[0] / self.scale, self.top - px[1] / self.scale)

    def px(self, size: float, unit: Unit) -> float:
        """Return a stroke or lettering size in px."""
        return size * self.scale if unit == "mm" else size


def fit(box: Box, width_px: float, height_px: float, margin_px: float = 0.0) -> View:
    """Return the view that shows all of ``box`` centred on a surface of this size."""
    wide, high = max(box[2] - box[0], 1.0), max(box[3] - box[1], 1.0)
    scale = min((width_px - 2 * margin_px) / wide, (height_px - 2 * margin_px) / high)
    return View(
        scale,
        (box[0] + box[2]) / 2 - width_px / 2 / scale,
        (box[1] + box[3]) / 2 + height_px / 2 / scale,
    )
