"""What is round the house in space while it is built: the packs in the yard, edge protection, and who works there.

Where the packs lie and how far off the rails stand are a look only: common practice, no source.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator

from trainer.picture.ground import eave_wall, person
from trainer.picture.house import grown
from trainer.picture.model import Item, Line, Polygon
from trainer.picture.space import Turn
from trainer.picture.sun import prism
from trainer.picture.timbers import COLOURS, PLAIN
from trainer.plan import Point, Wall
from trainer.site import is_there
from trainer.site.delivery import Pack
from trainer.site.model import Site

DECK_OUT, DECK_WIDE, DECK_LONG, DECK_DOWN = 60.0, 640.0, 2400.0, 1000.0
"""The deck outside the eave: how far off it, its width and length, and how far under the plates, mm."""
RAIL_OUT, RAILS, POST = 760.0, (550.0, 1000.0), 2400.0
"""The rails: how far outside the eave, how high over the plates, and how far apart their posts stand, mm."""
YARD, ROW_GAP, BEARERS = 2600.0, 700.0, 100.0
"""The yard: how far from the eave packs lie, how far apart, and how high their bearers are, mm."""


def yard(site: Site, lying: Iterable[Pack], turn: Turn) -> Iterator[tuple[float, list[Item]]]:
    """Yield the packs that are ``lying`` in the yard, before wall A on their bearers, each with how far away it is.

    One that was landed on a wall lies there.
    """
    layout, plan = site.layout, site.layout.house.plan
    floor, thick = -plan.height, float(layout.house.trusses.thickness)
    x0, y0, x1, _y1 = plan.bounds
    edge = y0 - layout.house.roof.overhang - YARD
    x, y, deepest = float(x0), edge, 0.0
    for pack in lying:
        member = max((layout.by_tag[tag] for tag in pack.tags), key=lambda one: one.span)
        runs, high = [run for run, _z in member.top], max(z for _run, z in member.top)
        long, first = max(runs) - min(runs), min(runs)
        if x > x0 and x + long > x1 + YARD:
            x, y, deepest = float(x0), y - deepest - ROW_GAP, 0.0
        at, low = (x, y), floor
        if pack.on_wall:
            wall = plan.by_name[pack.on_wall]
            middle = wall.at(wall.length / 2)
            at, low = (middle[0] - long / 2, middle[1] + high / 2), 0.0
        outline = [(at[0] + run - first, at[1] - z) for run, z in member.top]
        outline += [(outline[-1][0], at[1]), (outline[0][0], at[1])]
        role = COLOURS.get(member.kind, PLAIN)
        top = low + BEARERS + sum(layout.by_tag[tag].plies for tag in pack.tags) * thick
        items: list[Item] = []
        for part in (0.2, 0.8):
            bearer = at[0] + long * part
            items += prism(
                _box(bearer - 50, at[1] - high * 0.5, bearer + 50, at[1]), low, low + BEARERS, role, turn, "wall_line"
            )
        items += prism(outline, low + BEARERS, top, role, turn, "timber_line")
        items += _open_web(outline, top, role, turn)
        items += [
            Line(turn.all_flat([(px, py, top) for px, py in _strap(outline, part)]), "steel", 1.4)
            for part in (0.3, 0.7)
        ]
        yield turn.depth((at[0] + long / 2, at[1] - high / 2, low)), items
        if not pack.on_wall:
            x, deepest = x + long + ROW_GAP, max(deepest, high)


def _open_web(outline: list[Point], top: float, role: str, turn: Turn) -> Iterator[Item]:
    """Yield what is seen between the chords of the truss on top, and its webs there."""
    count = len(outline)
    cx, cy = sum(x for x, _y in outline) / count, sum(y for _x, y in outline) / count
    inner = [(cx + (x - cx) * 0.82, cy + (y - cy) * 0.7) for x, y in outline]
    yield Polygon(turn.all_flat((x, y, top) for x, y in inner), f"{role} 4", "timber_line", 0.8)
    low, left, right = inner[-1][1], inner[-1][0], inner[-2][0]
    for k in range(1, 4):
        x = left + (right - left) * k / 4
        base, over = _strap(inner, k / 4)
        yield Line(turn.all_flat(((*base, top), (*over, top))), f"{role} 1", 2.0)
        yield Line(turn.all_flat(((*over, top), (x + (right - left) / 8, low, top))), f"{role} 1", 2.0)


def _strap(outline: list[Point], part: float) -> tuple[Point, Point]:
    """Where a strap runs over a pack, from its bottom chord to the top one."""
    left, right = min(x for x, _y in outline), max(x for x, _y in outline)
    x = left + (right - left) * part
    base = outline[-1][1]
    top = next(
        (a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0]) for a, b in itertools.pairwise(outline)
         if a[0] <= x <= b[0] and b[0] > a[0]), base,
    )  # fmt: skip
    return (x, base), (x, top)


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def protection(site: Site, turn: Turn, *, near: bool, fine: bool) -> Iterator[Item]:
    """Yield the rails round the eaves, with a deck and a person on it: those before the house, or those behind it.

    Where it is not ``fine`` they have posts at the corners alone.
    None where the level's look round does not speak of edge protection; what a danger says is missing is not there.
    """
    if "edge protection" not in site.job.conditions.checks:
        return
    plan, overhang = site.layout.house.plan, float(site.layout.house.roof.overhang)
    bare = {flaw.wall for flaw in site.flaws if flaw.what == "missing rail" and is_there(site, flaw)}
    corners, count = grown(plan, overhang + RAIL_OUT), len(plan.walls)
    for wall in plan.walls:
        if not wall.against and wall.name not in bare and _before(site, wall, turn) == near:
            yield from _rails(corners[wall.index], corners[(wall.index + 1) % count], -plan.height, turn, fine=fine)
    wall = eave_wall(site.layout.house.plan)
    if _before(site, wall, turn) == near:
        yield from _deck(site, wall, turn)


def _before(site: Site, wall: Wall, turn: Turn) -> bool:
    """Whether what is outside a wall lies before all of the house: it does at an outermost wall on the near side."""
    (nx, ny), away = wall.inward, turn.away
    x0, y0, x1, y1 = site.layout.house.plan.bounds
    outermost = (wall.a[0] in (x0, x1)) if nx else (wall.a[1] in (y0, y1))
    return outermost and nx * away[0] + ny * away[1] > 0


def _rails(a: Point, b: Point, floor: float, turn: Turn, *, fine: bool) -> Iterator[Item]:
    count = max(1, round(math.dist(a, b) / POST)) if fine else 1
    for k in range(count + 1):
        x, y = a[0] + (b[0] - a[0]) * k / count, a[1] + (b[1] - a[1]) * k / count
        yield Line(turn.all_flat(((x, y, floor), (x, y, RAILS[-1]))), "steel", 1.0)
    for z in RAILS:
        yield Line(turn.all_flat(((*a, z), (*b, z))), "steel", 1.4)


def _deck(site: Site, wall: Wall, turn: Turn) -> Iterator[Item]:
    (nx, ny), (dx, dy) = wall.inward, wall.along
    out = site.layout.house.roof.overhang + DECK_OUT
    x, y = wall.at(max(0.0, wall.length * 0.25 - DECK_LONG / 2))
    ends = [(x - nx * (out + by), y - ny * (out + by)) for by in (DECK_WIDE, 0.0)]
    other = [(px + dx * DECK_LONG, py + dy * DECK_LONG) for px, py in reversed(ends)]
    outline = (ends[0], other[1], other[0], ends[1])
    floor, level = -site.layout.house.plan.height, -DECK_DOWN
    middle = (sum(p[0] for p in outline) / 4, sum(p[1] for p in outline) / 4)
    if any(flaw.what == "missing platform" and is_there(site, flaw) for flaw in site.flaws):
        yield from person((middle[0] - nx * 900, middle[1] - ny * 900, floor), turn)
        return
    for px, py in outline:
        yield Line(turn.all_flat(((px, py, floor), (px, py, level))), "steel", 1.6)
    yield from prism(outline, level - 40, level, "timber", turn, "timber_line")
    yield from person((*middle, level), turn)
