"""Running measures along the walls: every station from the corner that a tape is hooked on there."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from trainer.layout import Layout
from trainer.layout.marks import mark_run
from trainer.layout.posts import free_posts
from trainer.picture.lettering import meet, text_box, text_width
from trainer.picture.model import HEAVY, MEDIUM, THIN, Box, Group, Item, Line, Polygon, Text
from trainer.plan import Beam, Point, Wall, read_back
from trainer.words import _

GAP = 90.0
"""From the ends of the tails to the tape line, mm."""

BARB = 135.0
"""How long the arrow at the end of a tape is, mm."""
NAMED = 1.6
"""How high a wall's letter is beside the measures of its tape."""
PACKED = 0.3
"""How near led measures stand at the end of a tape that stops short, heights of its lettering."""
_SHIFTS = sorted(
    ((aside * 0.4, out * 0.25) for aside in range(-4, 5) for out in range(30)),
    key=lambda shift: (2 * abs(shift[0]) + shift[1], shift),
)
"""Ways to move a figure along the wall and outwards, in heights of its lettering, the smallest first."""


def stations(layout: Layout, wall: Wall) -> list[float]:
    """Return what the tape shows at each truss on a wall, mm from the wall's first corner, corners left out.

    A girder whose thickness lies past an inside corner is among them. It runs to centre lines or, where the level says
    so, to the face nearer to the end of the wall.
    """
    plan, index = layout.house.plan, wall.index
    before, after = plan.convex(index), plan.convex((index + 1) % len(plan.walls))
    found = set()
    for member in layout.members:
        low = 0.0 if before else -member.width
        high = wall.length + (0.0 if after else member.width)
        for number, end in enumerate(member.ends, 1):
            if end.wall == wall.name and low < (run := mark_run(layout, member, number)) < high:
                found.add(run)
    return sorted(found - {0, wall.length})


def post_runs(layout: Layout, beam: Beam) -> list[float]:
    """Return how far from its wall's first corner the middle of each free post under a beam stands, mm."""
    wall = layout.house.plan.by_name[beam.wall]
    return sorted(wall.run(post.at) for post in free_posts(layout, beam.wall) if beam.low <= post.run <= beam.high)


def figure(value: float) -> str:
    """Return a measure as people write it: whole mm without a point, half ones with it."""
    return f"{value:.1f}".removesuffix(".0")


@dataclass(frozen=True)
class _Tape:
    """The tape along one wall: ``offset`` mm outside it, lettering ``size`` mm high.

    At an inside corner it stops short, so that it lies neither over the other wall's eave nor over its tape: it is
    drawn from ``low`` to ``high`` mm of run, and what lies beyond that is led to its end, in order, so that no line
    crosses another. ``back``: it is hooked on the wall's other corner, and its figures are from there.
    """

    wall: Wall
    runs: tuple[float, ...]
    offset: float
    size: float
    low: float = 0.0
    high: float = 0.0
    back: bool = False

    def read(self, run: float) -> str:
        """Return what the tape shows at a run from the wall's first corner."""
        return figure(self.wall.length - run if self.back else run)

    def outside(self, run: float, out: float) -> Point:
        """Return the place ``run`` mm along the wall and ``out`` mm outside it."""
        (x, y), (nx, ny) = self.wall.at(run), self.wall.inward
        return (x - nx * out, y - ny * out)

    @property
    def ends(self) -> tuple[Point, Point]:
        """Where the tape begins and ends."""
        return self.outside(self.low, self.offset), self.outside(self.high, self.offset)

    @property
    def reach(self) -> float:
        """The width of the longest figure."""
        return max((text_width(self.read(run), self.size) for run in self.runs), default=0.0)

    def places(self) -> list[float]:
        """Return where along the wall each figure stands, mm: at its own run, or as near as there is room."""
        ends = self.wall.length
        low = -self.offset if self.low == 0 else self.low + self.size * 0.6
        high = ends + self.offset if self.high == ends else self.high - self.size * 0.6
        return spread(self.runs, self.size * 1.15, (low, high))

    def ticks(self) -> list[float]:
        """Return where on the tape each run is shown, mm: there, or packed at the end of a tape that stops short."""
        step, many = self.size * PACKED, len(self.runs)
        low, high = self.low + BARB * self.back, self.high - BARB * (not self.back)  # the arrow is left free
        low = low if self.low else -math.inf
        high = high if self.high < self.wall.length else math.inf
        return [min(max(run, low + step * (i + 1)), high - step * (many - i)) for i, run in enumerate(self.runs)]


def measures(layout: Layout, size: float, back: Collection[str] | None = None) -> Group:
    """Return the marks on the plates and the running figures outside the eaves, lettering ``size`` mm high.

    Figures run from a wall's first corner, or from its other one on the walls that are named as run ``back``; None:
    from where a tape is hooked to begin with, see :func:`trainer.plan.read_back`.
    """
    plan = layout.house.plan
    back = read_back(plan) if back is None else back
    tapes = [replace(tape, back=tape.wall.name in back) for tape in _tapes(layout, size)]
    taken = [_round_line(*tape.ends) for tape in tapes if tape.high > tape.low] + _roofs(layout)
    lines = [[*_marks(tape, plan.plate_width), *_line(tape), *_figures(tape, taken)] for tape in tapes]
    by_wall = {tape.wall.name: (tape, items) for tape, items in zip(tapes, lines, strict=True)}
    for beam in plan.beams:
        tape, items = by_wall[beam.wall]
        items += _posts(layout, beam, tape, taken)
    return Group(
        "measures",
        tuple(Group("measures", (*items, _name(tape, taken)), name) for name, (tape, items) in by_wall.items()),
    )


def _posts(layout: Layout, beam: Beam, tape: _Tape, taken: list[Box]) -> list[Item]:
    """Return the tape of a beam's posts, outside that of its trusses: running measures to their middles."""
    runs = tuple(post_runs(layout, beam))
    if not runs:
        return []
    outside = tape.offset + tape.size * 1.4 + tape.reach
    posts = replace(tape, runs=runs, offset=outside, low=beam.low, high=beam.high)
    taken.append(_round_line(*posts.ends))
    middle, turn = posts.outside((beam.low + beam.high) / 2, outside), 90.0 if tape.wall.along[1] else 0.0
    words = Text(middle, _("posts, to their middles"), "mark", tape.size, turn=turn, ground="paper", spare=True)
    return [*_line(posts), *_figures(posts, taken), words]


def wall_letters(layout: Layout, size: float) -> Group:
    """Return the letter of each wall, ``size`` mm high, outside the eave before it."""
    texts = []
    for tape in _tapes(layout, size):
        (nx, ny), at = tape.wall.inward, tape.outside((tape.low + tape.high) / 2, tape.offset - GAP)
        texts.append(Text(at, tape.wall.name, "mark", size, bold=True, off=(-nx * 0.9, -ny * 0.9)))
    return Group("walls", tuple(texts))


def _roofs(layout: Layout) -> list[Box]:
    """Return boxes that cover the roof, eaves included."""
    by = float(layout.house.roof.overhang)
    return [(x0 - by, y0 - by, x1 + by, y1 + by) for x0, y0, x1, y1 in (wing.rect for wing in layout.wings)]


def _tapes(layout: Layout, size: float) -> list[_Tape]:
    """Return the tape of each wall, clear of the eave before it; at an inside corner the one with room gives way."""
    plan, overhang, back = layout.house.plan, float(layout.house.roof.overhang), layout.house.set_back

    def room(tape: _Tape) -> float:
        i = tape.wall.index
        inside = [not plan.convex(i), not plan.convex((i + 1) % len(plan.walls))]
        return tape.wall.length - sum(inside) * tape.offset - size * len(tape.runs)

    whole = [
        _Tape(wall, tuple(stations(layout, wall)), overhang + back.get(wall.name, 0.0) + GAP, size)
        for wall in plan.walls
    ]
    found = []
    for tape in whole:
        i, length = tape.wall.index, tape.wall.length
        short = []
        for corner, other in ((i, whole[i - 1]), ((i + 1) % len(whole), whole[(i + 1) % len(whole)])):
            if plan.convex(corner):
                short.append(0.0)
                continue
            gives_way = (room(tape), -i) > (room(other), -other.wall.index)
            past = other.reach + size * 1.2 if gives_way and other.runs else size * 0.3
            short.append((other.offset if gives_way else max(overhang, other.offset - GAP)) + past)
        low, high = short[0], length - short[1]
        if high - low < size and short[0] and short[1]:
            low = high = length / 2
        found.append(replace(tape, low=min(low, max(length, high)), high=max(low, high)))
    return found


def _round_line(a: Point, b: Point) -> Box:
    return (min(a[0], b[0]) - 1, min(a[1], b[1]) - 1, max(a[0], b[0]) + 1, max(a[1], b[1]) + 1)


def _marks(tape: _Tape, plate: float) -> list[Item]:
    """Return a chalk line across the plate at each station."""
    return [Line((tape.outside(run, 40), tape.outside(run, -plate - 40)), "mark", MEDIUM) for run in tape.runs]


def _line(tape: _Tape) -> list[Item]:
    """Return the tape line: a bar at its zero, a tick at each station, and an arrow where it ends."""
    out, tick = tape.offset, BARB / 3
    items: list[Item] = []
    if tape.high > tape.low:
        items.append(Line(tape.ends, "mark", THIN))
    for run, shown in zip(tape.runs, tape.ticks(), strict=True):
        if run == shown:
            items.append(Line((tape.outside(run, out - tick), tape.outside(run, out + tick)), "mark", THIN))
    zero, tip, barb = (tape.high, tape.low, BARB) if tape.back else (tape.low, tape.high, -BARB)
    items.append(Line((tape.outside(zero, out - 2 * tick), tape.outside(zero, out + 2 * tick)), "mark", HEAVY))
    sides = (tape.outside(tip + barb, out + tick), tape.outside(tip + barb, out - tick))
    items.append(Polygon((tape.outside(tip, out), *sides), "mark"))
    return items


def _name(tape: _Tape, taken: list[Box]) -> Text:
    """Return the wall's letter and whole length, beyond its figures, where nothing else is."""
    size, middle, half = tape.size * NAMED, (tape.low + tape.high) / 2, (tape.high - tape.low) / 2
    text = f"{tape.wall.name}  {figure(tape.wall.length)}"
    turn = 90.0 if tape.wall.along[1] else 0.0
    nearest = tape.offset + tape.size * 1.4 + tape.reach
    asides = [0.0] + [side * step * half / 5 for step in range(1, 5) for side in (-1, 1)]
    texts = [
        Text(tape.outside(middle + aside, nearest + row * size * 1.2), text, "mark", size, "mm", "middle", turn, True)
        for row in range(12)
        for aside in asides
    ]
    # A short wall under a widened eave has roof before it as far as one sees: past its ends then.
    texts += [
        Text(
            tape.outside(middle + side * (half + step * size), nearest), text, "mark", size, "mm", "middle", turn, True
        )
        for step in range(1, 24)
        for side in (-1, 1)
    ]
    chosen = next((t for t in texts if _free(t, taken)), texts[0])
    taken.append(text_box(chosen, pad=0.5))
    # Larger figures on a screen push it outwards.
    farther = (tape.outside(middle, nearest + step * tape.size * 1.5) for step in range(1, 14))
    nx, ny = tape.wall.inward
    return replace(chosen, off=(-nx * 0.5, -ny * 0.5), places=tuple(farther), spare=True)


def _figures(tape: _Tape, taken: list[Box]) -> list[Item]:
    """Return the figures square to the wall, joined to the tick, or the mark on the plate, where one had to move.

    Figures move along the wall where they would touch each other, and outwards where something else
    is; ``taken`` are the boxes of what has its place already.
    """
    items: list[Item] = []
    size, near = tape.size, tape.offset + tape.size * 0.35
    for run, place, shown in zip(tape.runs, tape.places(), tape.ticks(), strict=True):
        # One that had to move stands farther out, so that its line shows and it is not read at another's tick.
        row = near + (size * 0.8 if abs(place - run) > 1 else 0.0)
        texts = [
            _figure(tape, tape.outside(place + size * aside, row + size * out), tape.read(run))
            for aside, out in _SHIFTS
        ]
        text = next((t for t in texts if _free(t, taken)), texts[0])
        taken.append(text_box(text, pad=0.05))
        items.append(text)
        if run != shown:
            items.append(Line((tape.outside(run, 40), tape.outside(shown, tape.offset), text.at), "mark", THIN))
        elif text is not texts[0] or abs(place - run) > 1:
            items.append(Line((tape.outside(run, tape.offset), text.at), "mark", THIN))
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


def spread(places: Sequence[float], least: float, within: tuple[float, float] | None = None) -> list[float]:
    """Return the ascending ``places`` moved as little as may be so that neighbours are ``least`` apart.

    Pools neighbours that push each other and keeps each pool about the mean of its own places. All of them stay
    ``within`` two places, where there is room between these.
    """
    pools: list[tuple[float, int]] = []
    for index, place in enumerate(places):
        pools.append((place - index * least, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (one, a), (other, b) = pools[-2:]
            pools[-2:] = [((one * a + other * b) / (a + b), a + b)]
    level = [value for value, count in pools for _ in range(count)]
    if within is not None:
        low, high = within[0], within[1] - (len(level) - 1) * least
        level = [min(max(value, low), max(low, high)) for value in level]
    return [value + index * least for index, value in enumerate(level)]
