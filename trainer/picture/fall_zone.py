"""Where a row that went over comes down, lit on the ground, and who would have stood there: on the plan and in space.

It is as deep as what fell is high: a look only, and no measure of how far to keep away.
"""

from __future__ import annotations

import math

from trainer.picture.falling import way_over
from trainer.picture.ground import figure
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.space import Turn
from trainer.plan import Point
from trainer.site.model import Lying, Site
from trainer.site.shape import height
from trainer.words import _

DASH = (9.0, 5.0)
APART = 900.0
"""How far apart the two stand who would have been there, mm."""
WORDS_PX = 14.0


def zones(site: Site) -> tuple[tuple[Point, ...], ...]:
    """Return what each truss that fell comes down on, as corners in plan; nothing where none lies."""
    fell = [lying for lying in site.fall.lying.values() if not lying.struck] if site.fall else []
    return tuple(_zone(site, lying) for lying in fell)


def _zone(site: Site, lying: Lying) -> tuple[Point, ...]:
    (ax, ay), (bx, by), (wx, wy) = lying.start, lying.finish, way_over(lying)
    deep = height(site.layout.by_tag[lying.tag])
    return (ax, ay), (bx, by), (bx + wx * deep, by + wy * deep), (ax + wx * deep, ay + wy * deep)


def _people(site: Site) -> tuple[Point, ...]:
    """Where two would have stood: under the middle of what fell last."""
    corners = zones(site)[-1]
    x, y = sum(p[0] for p in corners) / 4, sum(p[1] for p in corners) / 4
    (ax, ay), (bx, by) = corners[:2]
    long = math.dist(corners[0], corners[1]) or 1.0
    dx, dy = (bx - ax) / long * APART / 2, (by - ay) / long * APART / 2
    return (x - dx, y - dy), (x + dx, y + dy)


def on_plan(site: Site) -> list[Item]:
    """Return the zone on the plan, with two who would have stood in it from above: a head over shoulders each."""
    found = zones(site)
    if not found:
        return []
    items: list[Item] = [Polygon(zone, "zone", "stop", 3.0) for zone in found]
    items += [Polygon(zone, "zone") for zone in found]
    for x, y in _people(site):
        items += [Polygon(_oval(x, y, 260.0, 140.0), "paper", "stop", 2.0), Polygon(_oval(x, y, 105.0, 105.0), "stop")]
    return items


def words_on_plan(site: Site) -> list[Item]:
    """Return what is said of it."""
    if not zones(site):
        return []
    (x, y), (bx, by) = _people(site)
    at = ((x + bx) / 2, (y + by) / 2)
    words = _("Somebody could have stood here.")
    return [Text(at, words, "stop", WORDS_PX, "px", bold=True, ground="paper", off=(0.0, -2.0), rows=-4)]


def in_space(site: Site, turn: Turn, floor: float) -> list[Item]:
    """Return the zone on the slab at ``floor``, mm."""
    flat = [turn.all_flat((x, y, floor) for x, y in zone) for zone in zones(site)]
    items: list[Item] = [Polygon(zone, "zone", "stop", 3.0) for zone in flat]
    return [*items, *(Polygon(zone, "zone") for zone in flat)]


def people_in_space(site: Site, turn: Turn, floor: float) -> list[Item]:
    """Return the outlines of two who would have stood in it: a sign, and so before all walls."""
    items: list[Item] = []
    for place in _people(site) if zones(site) else ():
        for shape in figure((*place, floor), turn):
            items += [Polygon(shape, "paper"), Line((*shape, shape[0]), "stop", 1.6, "px", DASH)]
    return items


def _oval(x: float, y: float, wide: float, deep: float) -> tuple[Point, ...]:
    turns = (math.tau * k / 16 for k in range(16))
    return tuple((x + wide * math.cos(turn), y + deep * math.sin(turn)) for turn in turns)
