"""A truss from the side with its measures: chords, webs, bearings, and which end is which."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from trainer.picture.frame import Framed
from trainer.picture.higher_walls import ledger_end
from trainer.picture.measures import figure
from trainer.picture.model import Anchor, Box, Item, Line, Polygon, Text
from trainer.picture.trusses import FILLS
from trainer.plan import Point

PLATE_WIDE, PLATE_HIGH = 90.0, 70.0
TICK_PX = 4.0
"""Half the length of a tick of the measures, px."""
FOOT_PX = 24.0
"""Room for the figures under their line, px."""
INSIDE = 300.0
"""A truss that is highest no further from its end than this, mm, has its height beside it."""


def elevation(framed: Framed, *, mirrored: bool, letters: float = 0.0) -> tuple[list[Item], Box]:
    """Return the truss with its ``from`` end at the left (at the right if ``mirrored``), and the box round it.

    Where lettering is ``letters`` mm a px, its span, tails, heel, rise and flat top are added as figures.
    """
    items = [*timbers(framed), *_bearings(framed)]
    runs = [run for run, _z in framed.frame.top] + [0.0, framed.member.span]
    low = min(_foot(framed, 1), _foot(framed, 2), *(z for _run, z in framed.frame.top))
    box = (min(runs) - 60, low - 60, max(runs) + 60, framed.high + 60)
    if letters:
        items += _measures(framed, low, letters)
        xs, zs = zip(*(p for item in items if not isinstance(item, Text) for p in item.points), strict=True)
        box = (min(*xs, box[0]), min(*zs, box[1]) - FOOT_PX * letters, max(*xs, box[2]), max(*zs, box[3]))
    if mirrored:
        items = [mirror(item) for item in items]
        box = (-box[2], box[1], -box[0], box[3])
    return items, box


def timbers(framed: Framed) -> list[Item]:
    """Return the timbers of a truss in its own (run, z)."""
    fill = FILLS.get(framed.member.kind, "timber")
    return [
        Polygon(timber.outline, "paper" if timber.part == "extension" else fill, "timber_edge", 1.2)
        for timber in framed.timbers
    ]


def _bearings(framed: Framed) -> list[Item]:
    """Return a plate or a bracket under each end, with the end's number."""
    items: list[Item] = []
    member, low = framed.member, framed.base
    for number, (end, run, inward) in enumerate(zip(member.ends, (0.0, member.span), (1, -1), strict=True), start=1):
        if end.on_plate:
            a, b = run, run + inward * PLATE_WIDE
            items.append(Polygon(((a, -PLATE_HIGH), (b, -PLATE_HIGH), (b, 0), (a, 0)), "plate", "plate_edge", 1.2))
        elif member.kind != "saddle":
            if end.on_ledger:
                items.append(ledger_end(run, inward, low))
                items.append(Line(((run, low - PLATE_HIGH), (run, framed.roof(run) + PLATE_HIGH)), "plate_edge", 3.0))
            hook = ((run + inward * 130, low - 30), (run - inward * 25, low - 30), (run - inward * 25, low + 200))
            items.append(Line(hook, "fastener", 2.5))
        foot = (run + inward * 45, _foot(framed, number))
        items.append(Text(foot, str(number), "ink", 15.0, "px", bold=True, off=(0.0, -0.75)))
    return items


def _foot(framed: Framed, number: int) -> float:
    """Return how low an end reaches with what it bears on, mm."""
    return min(framed.base, -PLATE_HIGH) if framed.member.ends[number - 1].on_plate else framed.base - 30


def _measures(framed: Framed, low: float, letters: float) -> list[Item]:
    """Return the figures: span and tails below, rise and heel beside, the flat top above."""
    member, top = framed.member, framed.frame.top
    line, tick = low - 30 * letters, TICK_PX * letters
    stops = sorted({top[0][0], 0.0, member.span, top[-1][0]})
    items: list[Item] = [Line(((stops[0], line), (stops[-1], line)), "mark", 0.9)]
    items += [Line(((run, line - tick), (run, line + tick)), "mark", 1.2) for run in stops]
    items += [_figure(((a + b) / 2, line), b - a, (0.0, -0.9), -1) for a, b in pairwise(stops) if b - a > 1]
    first, last = framed.peaks
    if last - first > 1:
        over = framed.high + 12 * letters
        items.append(Line(((first, over), (last, over)), "mark", 0.9))
        items.append(_figure(((first + last) / 2, over), last - first, (0.0, 0.8)))
        items += [Line(((run, over - tick), (run, over + tick)), "mark", 1.2) for run in (first, last)]
    items += _rise(framed, letters)
    for number, run in enumerate((0.0, member.span)):
        if member.ends[number].on_plate:
            out = -1.3 if number == 0 else 1.3
            items.append(_figure((run, framed.roof(run)), framed.roof(run), (out, 0.9), 1))
    return items


def _rise(framed: Framed, letters: float) -> list[Item]:
    """Return the height, in the middle of the truss; of one that is highest at its end, beyond that."""
    first, last = framed.peaks
    peak, low, high = (first + last) / 2, framed.base, framed.high
    runs = [run for run, _z in framed.frame.top]
    beyond = min(max(last, framed.member.span) if first > 1 else first, max(runs))
    if min(peak - runs[0], runs[-1] - peak) > INSIDE:
        places = tuple((peak, low + (high - low) * part) for part in (0.6, 0.3, 0.75))
        line = Line(((peak, low), (peak, high)), "mark", 0.9, "px", (5.0, 4.0))
        return [line, replace(_figure((peak, low + (high - low) * 0.45), high - low), places=places)]
    at, tick = beyond + 24 * letters, TICK_PX * letters
    ends = [Line(((at - tick, z), (at + tick, z)), "mark", 1.2) for z in (low, high)]
    return [Line(((at, low), (at, high)), "mark", 0.9), *ends, _figure((at, (low + high) / 2), high - low)]


def _figure(at: Point, value: float, off: Point = (0.0, 0.0), rows: int = 0) -> Text:
    return Text(at, figure(round(value)), "mark", 14.0, "px", bold=True, ground="paper", off=off, rows=rows)


def mirror(item: Item) -> Item:
    """Return an item with left and right changed over; lettering still reads from the left."""
    if isinstance(item, Text):
        anchors: dict[Anchor, Anchor] = {"start": "end", "end": "start", "middle": "middle"}
        places = tuple((-x, z) for x, z in item.places)
        off = (-item.off[0], item.off[1])
        return replace(item, at=(-item.at[0], item.at[1]), anchor=anchors[item.anchor], off=off, places=places)
    return replace(item, points=tuple((-x, z) for x, z in item.points))
