"""A truss from the side with its measures: chords, webs, bearings, and which end is which."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from trainer.picture.frame import Framed
from trainer.picture.measures import figure
from trainer.picture.model import Anchor, Box, Item, Line, Polygon, Text
from trainer.picture.trusses import FILLS
from trainer.plan import Point

PLATE_WIDE, PLATE_HIGH = 90.0, 70.0
TICK = 55.0


def elevation(framed: Framed, *, mirrored: bool, measured: bool = False) -> tuple[list[Item], Box]:
    """Return the truss with its ``from`` end at the left (at the right if ``mirrored``), and the box round it.

    ``measured`` adds its span, tails, heel, rise and flat top as figures.
    """
    items = [*timbers(framed), *_bearings(framed)]
    runs = [run for run, _z in framed.frame.top] + [0.0, framed.member.span]
    low = min(framed.base, *(z for _run, z in framed.frame.top))
    box = (min(runs) - 250, low - 380, max(runs) + 250, framed.high + 120)
    if measured:
        items += _measures(framed, low)
        box = (box[0] - 350, low - 900, box[2] + 350, box[3] + 420)
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
            hook = ((run + inward * 130, low - 30), (run - inward * 25, low - 30), (run - inward * 25, low + 200))
            items.append(Line(hook, "fastener", 2.5))
        items.append(Text((run + inward * 60, low - 210), str(number), "ink", 15.0, "px", bold=True))
    return items


def _measures(framed: Framed, low: float) -> list[Item]:
    """Return the figures: span and tails below, rise and heel beside, the flat top above."""
    member, top = framed.member, framed.frame.top
    line = low - 480
    stops = sorted({top[0][0], 0.0, member.span, top[-1][0]})
    items: list[Item] = [Line(((stops[0], line), (stops[-1], line)), "mark", 0.9)]
    items += [Line(((run, line - TICK), (run, line + TICK)), "mark", 1.2) for run in stops]
    for a, b in pairwise(stops):
        if b - a > 1:
            items.append(_figure(((a + b) / 2, line - 230), b - a))
    first, last = framed.peaks
    if last - first > 1:
        over = framed.high + 170
        items += [
            Line(((first, over), (last, over)), "mark", 0.9),
            _figure(((first + last) / 2, over + 150), last - first),
        ]
        items += [Line(((run, over - TICK), (run, over + TICK)), "mark", 1.2) for run in (first, last)]
    peak = (first + last) / 2
    items.append(Line(((peak, framed.base), (peak, framed.high)), "mark", 0.9, "px", (5.0, 4.0)))
    items.append(_figure((peak, framed.base + (framed.high - framed.base) * 0.45), framed.high - framed.base))
    for number, run in enumerate((0.0, member.span)):
        if member.ends[number].on_plate:
            out = -230 if number == 0 else 230
            items.append(_figure((run + out, framed.roof(run) + 190), framed.roof(run)))
    return items


def _figure(at: Point, value: float) -> Text:
    return Text(at, figure(round(value)), "mark", 14.0, "px", bold=True, ground="paper")


def mirror(item: Item) -> Item:
    """Return an item with left and right changed over; lettering still reads from the left."""
    if isinstance(item, Text):
        anchors: dict[Anchor, Anchor] = {"start": "end", "end": "start", "middle": "middle"}
        return replace(item, at=(-item.at[0], item.at[1]), anchor=anchors[item.anchor])
    return replace(item, points=tuple((-x, z) for x, z in item.points))
