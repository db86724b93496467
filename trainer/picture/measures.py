"""Running measures along the walls: every station from the wall's first corner, as a tape shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.layout import Layout
from trainer.picture.lettering import meet, text_box, text_width
from trainer.picture.model import Box, Group, Item, Line, Polygon, Text
from trainer.plan import Point, Wall

GAP = 90.0
"""From the ends of the tails to the tape line, mm."""


def stations(layout: Layout, wall: Wall) -> list[float]:
    """Return where truss centre lines meet the wall's outside face, mm from its first corner, corners left out."""
    bearing = f"plate {wall.name}"
    dx, dy = wall.along
    found = {
        round(((end.at[0] - wall.a[0]) * dx + (end.at[1] - wall.a[1]) * dy) * 2) / 2
        for member in layout.members
        for end in member.ends
        if end.bears_on == bearing
    }
    return sorted(run for run in found if 0 < run < wall.length)


def figure(value: float) -> str:
    """Return a measure as people write it: whole mm without a point, half ones with it."""
    return f"{value:.1f}".removesuffix(".0")


@dataclass(frozen=True)
class _Tape:
    """The tape along one wall: ``offset`` mm outside it, lettering ``size`` mm high."""

    wall: Wall
    runs: tuple[float, ...]
    offset: float
    size: float

    @property
    def stops(self) -> tuple[float, ...]:
        """Every figure to write: the nought, the stations and the wall's end."""
        return (0.0, *self.runs, self.wall.length)

    def outside(self, run: float, out: float) -> Point:
        """Return the place ``run`` mm along the wall and ``out`` mm outside it."""
        (x, y), (nx, ny) = self.wall.at(run), self.wall.inward
        return (x - nx * out, y - ny * out)


def measures(layout: Layout, size: float) -> Group:
    """Return the marks on the plates and the running figures outside the eaves, lettering ``size`` mm high."""
    boxes: list[Box] = []
    layers: list[Group] = []
    offset = layout.house.roof.overhang + GAP
    for wall in layout.house.plan.walls:
        tape = _Tape(wall, tuple(stations(layout, wall)), offset, size)
        marks = _marks(tape, layout.house.plan.plate_width)
        layers.append(Group("measures", (*marks, *_line(tape), *_badge(tape), *_figures(tape, boxes)), wall.name))
    return Group("measures", tuple(layers))


def _marks(tape: _Tape, plate: float) -> list[Item]:
    """Return a chalk line across the plate at each station."""
    return [Line((tape.outside(run, 40), tape.outside(run, -plate - 40)), "mark", 1.4) for run in tape.runs]


def _line(tape: _Tape) -> list[Item]:
    """Return the tape line with its nought, a tick at each station, and an arrow where it ends."""
    length, out, tick = tape.wall.length, tape.offset, 45.0
    items: list[Item] = [Line((tape.outside(0, out), tape.outside(length, out)), "mark", 0.9)]
    items += [Line((tape.outside(run, out - tick), tape.outside(run, out + tick)), "mark", 1.2) for run in tape.runs]
    items.append(Line((tape.outside(0, out - 2 * tick), tape.outside(0, out + 2 * tick)), "mark", 1.6))
    back = length - 3 * tick
    head = (tape.outside(length, out), tape.outside(back, out + tick), tape.outside(back, out - tick))
    items.append(Polygon(head, "mark"))
    return items


def _badge(tape: _Tape) -> list[Item]:
    """Return the wall's letter in a box on its tape, between the two stations nearest the middle."""
    middle, size = tape.wall.length / 2, tape.size
    gaps = [(a + b) / 2 for a, b in pairwise(tape.stops) if b - a > size * 2] or [middle]
    at = tape.outside(min(gaps, key=lambda gap: abs(gap - middle)), tape.offset)
    x, y = at
    high = size * 0.62
    wide = max(high, text_width(tape.wall.name, size) / 2 + size * 0.2)
    box = ((x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high))
    return [Polygon(box, "paper", "mark", 1.2), Text(at, tape.wall.name, "mark", size, bold=True)]


def _figures(tape: _Tape, boxes: list[Box]) -> list[Item]:
    """Return the figures square to the wall, each joined to its tick where it had to move.

    Figures move along the wall where they would touch each other, and outwards where another wall's
    are; ``boxes`` are the ones taken so far.
    """
    items: list[Item] = []
    size, near = tape.size, tape.offset + tape.size * 0.35
    step = max(text_width(figure(run), size) for run in tape.stops) + size * 0.5
    for run, place in zip(tape.stops, spread(tape.stops, size * 0.95), strict=True):
        bold = run == tape.wall.length
        texts = [_figure(tape, tape.outside(place, near + step * k), figure(run), bold=bold) for k in range(4)]
        text = next((t for t in texts if not any(meet(text_box(t, pad=0.05), box) for box in boxes)), texts[-1])
        boxes.append(text_box(text, pad=0.05))
        items.append(text)
        if text is not texts[0] or abs(place - run) > 1:
            items.append(Line((tape.outside(run, tape.offset), text.at), "mark", 0.7))
    return items


def _figure(tape: _Tape, at: Point, text: str, *, bold: bool) -> Text:
    """Return one figure, square to the wall, reading from below or from the right."""
    nx, ny = tape.wall.inward
    turn = 90.0 if ny else 0.0
    starts = (ny < 0) if ny else (nx < 0)
    return Text(at, text, "mark", tape.size, "mm", "start" if starts else "end", turn, bold)


def spread(places: Sequence[float], least: float) -> list[float]:
    """Return the ascending ``places`` moved as little as may be so that neighbours are ``least`` apart.

    Pools neighbours that push each other and keeps each pool about the mean of its own places.
    """
    pools: list[tuple[float, int]] = []
    for index, place in enumerate(places):
        pools.append((place - index * least, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (one, a), (other, b) = pools[-2:]
            pools[-2:] = [((one * a + other * b) / (a + b), a + b)]
    level = [value for value, count in pools for _ in range(count)]
    return [value + index * least for index, value in enumerate(level)]
