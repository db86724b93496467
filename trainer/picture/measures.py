"""Running measures along the walls: every station from the wall's first corner, as a tape shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.layout import Layout
from trainer.layout.marks import mark_run
from trainer.picture.house import grown
from trainer.picture.lettering import meet, text_box, text_width
from trainer.picture.model import Box, Group, Item, Line, Polygon, Text
from trainer.picture.trusses import along, body_runs
from trainer.plan import Point, Wall

GAP = 90.0
"""From the ends of the tails to the tape line, mm."""

_SHIFTS = sorted(
    ((aside * 0.4, out * 0.25) for aside in range(-4, 5) for out in range(30)),
    key=lambda shift: (2 * abs(shift[0]) + shift[1], shift),
)
"""Ways to move a figure along the wall and outwards, in heights of its lettering, the smallest first."""


def stations(layout: Layout, wall: Wall) -> list[float]:
    """Return what the tape shows at each truss on a wall, mm from the wall's first corner, corners left out.

    It runs to centre lines or, where the level says so, to the face nearer to the end of the wall.
    """
    found = {
        mark_run(layout, member, number)
        for member in layout.members
        for number, end in enumerate(member.ends, 1)
        if end.wall == wall.name
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

    def outside(self, run: float, out: float) -> Point:
        """Return the place ``run`` mm along the wall and ``out`` mm outside it."""
        (x, y), (nx, ny) = self.wall.at(run), self.wall.inward
        return (x - nx * out, y - ny * out)

    @property
    def ends(self) -> tuple[Point, Point]:
        """Where the tape begins and ends."""
        return self.outside(0, self.offset), self.outside(self.wall.length, self.offset)

    @property
    def reach(self) -> float:
        """The width of the longest figure."""
        return max((text_width(figure(run), self.size) for run in self.runs), default=0.0)


def measures(layout: Layout, size: float) -> Group:
    """Return the marks on the plates and the running figures outside the eaves, lettering ``size`` mm high."""
    plan = layout.house.plan
    offset, back = layout.house.roof.overhang + GAP, layout.house.set_back
    tapes = [_Tape(wall, tuple(stations(layout, wall)), offset + back.get(wall.name, 0.0), size) for wall in plan.walls]
    rim = grown(layout.house.roof_plan, layout.house.roof.overhang)
    taken = [_round_line(*tape.ends) for tape in tapes]
    taken += [_round_line(a, b) for a, b in zip(rim, rim[1:] + rim[:1], strict=True)]
    taken += [_round_line(*(along(member, run) for run in body_runs(layout, member))) for member in layout.members]
    names = {tape.wall.name: _name(tape, taken) for tape in tapes}
    return Group(
        "measures",
        tuple(
            Group(
                "measures",
                (*_marks(tape, plan.plate_width), *_line(tape), *_figures(tape, taken), names[tape.wall.name]),
                tape.wall.name,
            )
            for tape in tapes
        ),
    )


def _round_line(a: Point, b: Point) -> Box:
    return (min(a[0], b[0]) - 1, min(a[1], b[1]) - 1, max(a[0], b[0]) + 1, max(a[1], b[1]) + 1)


def _marks(tape: _Tape, plate: float) -> list[Item]:
    """Return a chalk line across the plate at each station."""
    return [Line((tape.outside(run, 40), tape.outside(run, -plate - 40)), "mark", 1.4) for run in tape.runs]


def _line(tape: _Tape) -> list[Item]:
    """Return the tape line: a bar at its zero, a tick at each station, and an arrow where it ends."""
    length, out, tick = tape.wall.length, tape.offset, 45.0
    items: list[Item] = [Line(tape.ends, "mark", 0.9)]
    items += [Line((tape.outside(run, out - tick), tape.outside(run, out + tick)), "mark", 1.2) for run in tape.runs]
    items.append(Line((tape.outside(0, out - 2 * tick), tape.outside(0, out + 2 * tick)), "mark", 2.2))
    back = length - 3 * tick
    items.append(
        Polygon((tape.outside(length, out), tape.outside(back, out + tick), tape.outside(back, out - tick)), "mark")
    )
    return items


def _name(tape: _Tape, taken: list[Box]) -> Text:
    """Return the wall's letter and whole length, beyond its figures, where nothing else is."""
    size, middle = tape.size * 1.15, tape.wall.length / 2
    text = f"{tape.wall.name}  {figure(tape.wall.length)}"
    turn = 90.0 if tape.wall.along[1] else 0.0
    out = tape.offset + tape.size * 1.4 + tape.reach
    asides = [0.0] + [side * step * middle / 5 for step in range(1, 5) for side in (-1, 1)]
    texts = [
        Text(tape.outside(middle + aside, out), text, "mark", size, "mm", "middle", turn, True) for aside in asides
    ]
    chosen = next((t for t in texts if _free(t, taken)), texts[0])
    taken.append(text_box(chosen, pad=0.15))
    # Larger figures on a screen push it outwards.
    farther = (tape.outside(middle, out + step * tape.size * 1.5) for step in range(1, 14))
    nx, ny = tape.wall.inward
    return replace(chosen, off=(-nx * 0.5, -ny * 0.5), places=tuple(farther), spare=True)


def _figures(tape: _Tape, taken: list[Box]) -> list[Item]:
    """Return the figures square to the wall, each joined to its tick where it had to move.

    Figures move along the wall where they would touch each other, and outwards where something else
    is; ``taken`` are the boxes of what has its place already.
    """
    items: list[Item] = []
    size, near = tape.size, tape.offset + tape.size * 0.35
    for run, place in zip(tape.runs, spread(tape.runs, size * 0.95), strict=True):
        texts = [
            _figure(tape, tape.outside(place + size * aside, near + size * out), figure(run)) for aside, out in _SHIFTS
        ]
        text = next((t for t in texts if _free(t, taken)), texts[0])
        taken.append(text_box(text, pad=0.05))
        items.append(text)
        if text is not texts[0] or abs(place - run) > 1:
            items.append(Line((tape.outside(run, tape.offset), text.at), "mark", 0.7))
    return items


def _free(text: Text, taken: list[Box]) -> bool:
    box = text_box(text, pad=0.05)
    return not any(meet(box, other) for other in taken)


def _figure(tape: _Tape, at: Point, text: str) -> Text:
    """Return one figure, square to the wall, reading from below or from the right."""
    nx, ny = tape.wall.inward
    turn = 90.0 if ny else 0.0
    starts = (ny < 0) if ny else (nx < 0)
    return Text(at, text, "mark", tape.size, "mm", "start" if starts else "end", turn, spare=True)


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
