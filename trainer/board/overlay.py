"""What is drawn over the plan while a house is built: rings round trusses, tapes, frames of walls."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from trainer.picture.as_built import lying
from trainer.picture.found import DASHES, INKS, FoundMark, named_on_plan
from trainer.picture.measures import figure
from trainer.picture.model import Item, Line, Polygon, Ring, Text
from trainer.plan import Point, Wall
from trainer.site.model import Site

RING_WIDE = 190.0
"""How much wider than a truss the ring round it is, mm."""
FIGURE_PX = 20.0
NOTE_PX = 16.0
PLACE_PX = 24.0
"""Radius of the ring round a place of an answer, px."""
TAPE_OUT = 90.0
"""How far outside the eaves the tape runs, mm: between them and the walls' letters."""
ARM = 120.0
"""Half the size of the cross at a place that is aimed at, mm."""


def ring_round(
    site: Site, tag: str, role: str, stroke: float = 3.0, dash: tuple[float, ...] = (), ground: str = "select"
) -> list[Item]:
    """Return a ring round a standing truss, its line ``stroke`` px thick, and round the tag on it, on a ``ground``.

    So it can be read where the plan has no room for all of them. At hand-over the place of one that is missing has its
    ring too; before it, nothing has one that does not stand.
    """
    named = named_on_plan(site, tag)
    if named is None:
        return []
    ring = Ring(role, site.layout.by_tag[tag].width + RING_WIDE, stroke, dash)
    return [replace(named, ground=ground, spare=False, ringed=ring)]


def rings_of(site: Site, found: Iterable[FoundMark]) -> list[Item]:
    """Return rings round the trusses that findings are about, the strong ones thicker, and their tags."""
    shown = list(found)
    strokes = [(one, 4.0 if one.strong else 1.5) for one in shown]
    rings = [ring_round(site, a.tag, INKS[a.severity], wide, DASHES[a.severity], "paper") for a, wide in strokes]
    return [item for items in rings for item in items]


def outside(wall: Wall, run: float, out: float) -> Point:
    """Return the place so many mm along a wall and out from it."""
    (x, y), (nx, ny) = wall.at(run), wall.inward
    return (x - nx * out, y - ny * out)


def wall_line(site: Site, wall: Wall, run: float, beyond: float) -> tuple[Point, Point]:
    """Return the line across a wall's plate at a measure along it, so many mm longer on either side."""
    return outside(wall, run, beyond), outside(wall, run, -site.layout.house.plan.plate_width - beyond)


def tape_along_wall(site: Site, wall: Wall, at: float, begin: float, note: str) -> list[Item]:
    """Return the tape along a wall from ``begin``, where it is hooked, to ``at``, with the running measure."""
    out = site.layout.house.roof.overhang + TAPE_OUT
    tick = 70.0
    hook, tip = outside(wall, begin, out), outside(wall, at, out)
    items: list[Item] = [
        Line((hook, tip), "mark", 2.0),
        Line((outside(wall, begin, out - 2 * tick), outside(wall, begin, out + tick)), "mark", 3.0),
        Line((outside(wall, at, out - tick), outside(wall, at, out + tick)), "mark", 2.0),
        Line((outside(wall, at, -site.layout.house.plan.plate_width), tip), "mark", 1.0, "px", (6.0, 4.0)),
    ]
    items += _ticks(wall, begin, at, out)
    text = f"{figure(abs(at - begin))}"
    (nx, ny), label = wall.inward, text + (f"  {note}" if note else "")
    off = (-nx * 0.8, -ny * 0.8)
    items.append(Text(outside(wall, at, out), label, "mark", FIGURE_PX, "px", bold=True, ground="paper", off=off))
    return items


def _ticks(wall: Wall, begin: float, at: float, out: float) -> list[Item]:
    """Return a tick at every whole metre from the hook."""
    metre = 1000 if at >= begin else -1000
    runs = (begin + metre * number for number in range(1, int(abs(at - begin) / 1000) + 1))
    return [Line((outside(wall, run, out), outside(wall, run, out + 45)), "mark", 1.5) for run in runs]


def tape_along_truss(site: Site, tag: str, at: float, note: str) -> list[Item]:
    """Return a tape along a standing truss from its ``from`` end."""
    if tag not in site.stood:
        return []
    lies = lying(site.stood[tag])
    face = site.layout.by_tag[tag].width / 2
    out = face + 130
    label = figure(at) + (f"  {note}" if note else "")
    off = (-lies.unit[1] * 0.9, lies.unit[0] * 0.9)
    return [
        Line((lies.at(0, out), lies.at(at, out)), "mark", 2.0),
        Line((lies.at(0, face), lies.at(0, out + 90)), "mark", 3.0),
        Line((lies.at(at, -face - 110), lies.at(at, out + 60)), "mark", 3.0),
        Text(lies.at(at, out), label, "mark", FIGURE_PX, "px", bold=True, ground="paper", off=off),
    ]


def frame_of_wall(name: str, site: Site, role: str = "mark") -> list[Item]:
    """Return a frame round the plate of a wall."""
    wall = site.layout.house.plan.by_name.get(name)
    if wall is None:
        return []
    width = site.layout.house.plan.plate_width
    (a, b), (c, d) = ((outside(wall, at, 80), outside(wall, at, -width - 80)) for at in (0.0, wall.length))
    return [Polygon((a, b, d, c), None, role, 3.0)]


def cross(at: Point, note: str, role: str = "mark") -> list[Item]:
    """Return a cross at a place of the plan, and over it what is there in words, if anything."""
    x, y = at
    arms: list[Item] = [
        Line(((x - ARM, y), (x + ARM, y)), role, 2.0),
        Line(((x, y - ARM), (x, y + ARM)), role, 2.0),
    ]
    return [*arms, Text((x, y + 2.4 * ARM), note, role, NOTE_PX, "px", ground="paper")] if note else arms


def place_marked(at: Point, words: str, mm_per_px: float, *, dashed: bool = False) -> list[Item]:
    """Return a ring round a place with words over it; ``dashed`` for one that was meant instead."""
    ring = circle(at, PLACE_PX * mm_per_px, 3.0)
    line = Line((*ring.points, ring.points[0]), "mark", 3.0, "px", (6.0, 5.0) if dashed else ())
    over = (at[0], at[1] + PLACE_PX * mm_per_px)
    return [line, Text(over, words, "ink", NOTE_PX, "px", bold=True, ground="paper", off=(0.0, 0.7), rows=3)]


def circle(at: Point, radius: float, stroke: float) -> Polygon:
    """Return a circle of so many mm round a place, its line ``stroke`` px thick."""
    turns = (math.tau * i / 20 for i in range(20))
    points = tuple((at[0] + radius * math.cos(turn), at[1] + radius * math.sin(turn)) for turn in turns)
    return Polygon(points, None, "mark", stroke)
