"""What moves on the plan while a house is built: the truss in the hand, the tape, what is aimed at."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from trainer.board import bench as hand
from trainer.board.aim import ends, in_words
from trainer.board.bench import Bench
from trainer.board.spots import spots_of
from trainer.picture.as_built import Lying, body, end_sign, lying, tag_of
from trainer.picture.found import INKS, Found
from trainer.picture.measures import figure
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.trusses import strip
from trainer.plan import Point, Wall
from trainer.plan.points import half
from trainer.site.actions import AnyAction, Fit, Mark, Measure, Report, Restrain, Stand, String
from trainer.site.model import Site
from trainer.words import _

FIGURE_PX = 20.0
NOTE_PX = 16.0
TAPE_OUT = 90.0
"""How far outside the eaves the tape runs, mm: between them and the walls' letters."""


def live_items(bench: Bench, site: Site, hovered: str) -> list[Item]:
    """Return what is drawn over the still plan while work goes on."""
    items: list[Item] = []
    if bench.tool == "mark":
        items += _mark_aim(bench, site)
    elif bench.tool == "stand":
        items += _stand_aim(bench, site)
    elif bench.tool == "fit":
        items += _fit_aim(bench, site)
    elif hand.aims_at_wall(bench):
        items += _wall_aim(bench.wall, site)
    elif hand.between_points(bench):
        items += _between(bench)
    else:
        items += _truss_aim(bench, site, hovered)
    return items


def ghost_items(action: AnyAction, site: Site) -> list[Item]:
    """Return what a hint suggests, as a ghost: dashed, in the colour of nothing that stands."""
    if isinstance(action, Stand):
        member = site.layout.by_tag[action.tag]
        lies = Lying(action.start, action.finish)
        outline = strip(
            lies.at(min(0.0, member.top[0][0])), lies.at(max(lies.length, member.top[-1][0])), member.width + 60
        )
        return [
            Line((*outline, outline[0]), "ghost", 2.0, "px", (8.0, 5.0)),
            Text(lies.at(lies.length / 2), member.tag, "ink", NOTE_PX, "px", bold=True, ground="paper"),
        ]
    if isinstance(action, Mark) and action.wall:
        wall = site.layout.house.plan.by_name[action.wall]
        line = (_outside(wall, action.at, 160), _outside(wall, action.at, -site.layout.house.plan.plate_width - 160))
        return [
            Line(line, "ghost", 3.0, "px", (8.0, 5.0)),
            Text(line[1], figure(action.at), "ink", NOTE_PX, "px", ground="paper"),
        ]
    if isinstance(action, Mark | Fit):
        return _on_truss(action.on or "", action.at or 0.0, site, "")
    if isinstance(action, Restrain):
        return [Line((action.start, action.finish), "ghost", 4.0, "px", (8.0, 5.0))]
    if isinstance(action, Measure | Report) and action.wall:
        return _wall_aim(action.wall, site, "ghost")
    tags = (action.start, action.finish) if isinstance(action, String) else getattr(action, "tags", ())
    return [item for tag in (*tags, getattr(action, "tag", "") or "") for item in ring_round(site, tag, "ghost")]


def ring_round(site: Site, tag: str, role: str, stroke: float = 3.0) -> list[Item]:
    """Return a ring round a standing truss, its line ``stroke`` px thick; nothing for one that does not stand."""
    if tag not in site.stood:
        return []
    lies = lying(site.stood[tag])
    wide = site.layout.by_tag[tag].width + 190
    return [Polygon(strip(lies.at(-120), lies.at(lies.length + 120), wide), None, role, stroke)]


def named(site: Site, tag: str, ground: str = "select") -> list[Item]:
    """Return the tag of a standing truss on it, so that it can be read where the plan has no room for all of them."""
    if tag not in site.stood:
        return []
    return [replace(tag_of(site, tag), size=NOTE_PX, ground=ground, places=(), spare=False)]


def rings_of(site: Site, found: Iterable[Found]) -> list[Item]:
    """Return rings round the standing trusses that findings are about, the strong ones thicker, and their tags."""
    shown = list(found)
    rings = [ring_round(site, one.tag, INKS[one.severity], 4.0 if one.strong else 1.5) for one in shown]
    tags = [named(site, one.tag, "paper") for one in shown]
    return [item for items in (*rings, *tags) for item in items]


def _outside(wall: Wall, run: float, out: float) -> Point:
    (x, y), (nx, ny) = wall.at(run), wall.inward
    return (x - nx * out, y - ny * out)


def tape(site: Site, wall: Wall, at: float, begin: float, note: str) -> list[Item]:
    """Return the tape along a wall from ``begin``, where it is hooked, to ``at``, with the running measure."""
    out = site.layout.house.roof.overhang + TAPE_OUT
    tick = 70.0
    hook, tip = _outside(wall, begin, out), _outside(wall, at, out)
    items: list[Item] = [
        Line((hook, tip), "mark", 2.0),
        Line((_outside(wall, begin, out - 2 * tick), _outside(wall, begin, out + tick)), "mark", 3.0),
        Line((_outside(wall, at, out - tick), _outside(wall, at, out + tick)), "mark", 2.0),
        Line((_outside(wall, at, -site.layout.house.plan.plate_width), tip), "mark", 1.0, "px", (6.0, 4.0)),
    ]
    items += _ticks(wall, begin, at, out)
    text = f"{figure(abs(at - begin))}"
    (nx, ny), label = wall.inward, text + (f"  {note}" if note else "")
    off = (-nx * 0.8, -ny * 0.8)
    items.append(Text(_outside(wall, at, out), label, "mark", FIGURE_PX, "px", bold=True, ground="paper", off=off))
    return items


def _ticks(wall: Wall, begin: float, at: float, out: float) -> list[Item]:
    """Return a tick at every whole metre from the hook."""
    sign = 1 if at >= begin else -1
    return [
        Line(
            (_outside(wall, begin + sign * metre * 1000, out), _outside(wall, begin + sign * metre * 1000, out + 45)),
            "mark",
            1.5,
        )
        for metre in range(1, int(abs(at - begin) / 1000) + 1)
    ]


def _mark_aim(bench: Bench, site: Site) -> list[Item]:
    walls = site.layout.house.plan.by_name
    if bench.mark_on in walls:
        wall = walls[bench.mark_on]
        width = site.layout.house.plan.plate_width
        cross = Line((_outside(wall, bench.mark_at, 110), _outside(wall, bench.mark_at, -width - 110)), "mark", 3.0)
        return [cross, *tape(site, wall, bench.mark_at, hand.hooked(bench, site, wall.name), bench.caught)]
    return _on_truss(bench.mark_on, bench.mark_at, site, bench.caught)


def _on_truss(tag: str, at: float, site: Site, note: str) -> list[Item]:
    """Return a tape along a standing truss from its ``from`` end."""
    if tag not in site.stood:
        return []
    lies = lying(site.stood[tag])
    face = site.layout.by_tag[tag].width / 2
    out = face + 130
    return [
        Line((lies.at(0, out), lies.at(at, out)), "mark", 2.0),
        Line((lies.at(0, face), lies.at(0, out + 90)), "mark", 3.0),
        Line((lies.at(at, -face - 110), lies.at(at, out + 60)), "mark", 3.0),
        Text(
            lies.at(at, out),
            figure(at) + (f"  {note}" if note else ""),
            "mark",
            FIGURE_PX,
            "px",
            bold=True,
            ground="paper",
            off=(-lies.unit[1] * 0.9, lies.unit[0] * 0.9),
        ),
    ]


def _wall_aim(name: str, site: Site, role: str = "mark") -> list[Item]:
    """Return a frame round the plate of a wall."""
    wall = site.layout.house.plan.by_name.get(name)
    if wall is None:
        return []
    width = site.layout.house.plan.plate_width
    (a, b), (c, d) = ((_outside(wall, at, 80), _outside(wall, at, -width - 80)) for at in (0.0, wall.length))
    return [Polygon((a, b, d, c), None, role, 3.0)]


def _between(bench: Bench) -> list[Item]:
    """Return the tape between two points, with its length and how far it goes along and up the plan."""
    x, y = bench.point
    arm = 120.0
    items: list[Item] = [
        Line(((x - arm, y), (x + arm, y)), "mark", 2.0),
        Line(((x, y - arm), (x, y + arm)), "mark", 2.0),
    ]
    if not bench.tape:
        return [
            *items,
            *([Text((x, y + 2.4 * arm), bench.caught, "mark", NOTE_PX, "px", ground="paper")] if bench.caught else []),
        ]
    a = bench.tape[0]
    b = bench.tape[1] if len(bench.tape) == 2 else bench.point
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    items += [
        Line((a, b), "mark", 2.5),
        Polygon(_round(a, 70), None, "mark", 2.5),
        Polygon(_round(b, 70), None, "mark", 2.5),
    ]
    items.append(Text(middle, between_in_words(a, b), "mark", FIGURE_PX, "px", bold=True, ground="paper"))
    return items


def between_in_words(a: Point, b: Point) -> str:
    """Say how far two points are apart, and if the line slants how far that is along the plan and up it."""
    across, up = abs(b[0] - a[0]), abs(b[1] - a[1])
    text = figure(half(math.dist(a, b)))
    return text if min(across, up) < 1 else f"{text}  ({figure(across)} × {figure(up)})"


def _round(at: Point, radius: float) -> tuple[Point, ...]:
    x, y = at
    return tuple(
        (x + radius * math.cos(math.tau * i / 20), y + radius * math.sin(math.tau * i / 20)) for i in range(20)
    )


def _fit_aim(bench: Bench, site: Site) -> list[Item]:
    return _on_truss(bench.fit_on, bench.fit_at, site, bench.caught)


def _stand_aim(bench: Bench, site: Site) -> list[Item]:
    member = hand.member_in_hand(bench, site)
    if member is None:
        return []
    plan = site.layout.house.plan
    start, finish = ends(plan, member, bench.aim)
    lies = Lying(start, finish)
    items: list[Item] = []
    for item in body(member, lies):
        if isinstance(item, Polygon):
            items.append(Polygon(item.points, item.fill, "mark", 2.0))
        else:
            items.append(item)
    tag_at, *others = [lies.at(lies.length * part) for part in (0.5, 0.4, 0.6, 0.3, 0.7)]
    items.append(Text(tag_at, member.tag, "ink", NOTE_PX, "px", bold=True, ground="select", places=tuple(others)))
    items += [
        Text(lies.at(run), str(number), "ink", NOTE_PX, "px", bold=True, ground="paper", off=off, spare=True)
        for number, run, off in _end_numbers(lies)
    ]
    wall = plan.by_name[bench.aim.wall]
    items += tape(site, wall, bench.aim.at, hand.hooked(bench, site, wall.name), bench.caught)
    if bench.aim.off:
        items += _measure_in(wall, bench.aim.at, bench.aim.off)
    return items


def _end_numbers(lies: Lying) -> tuple[tuple[int, float, Point], ...]:
    """Return each end's number, its run, and how far in from it the number is written, in ems."""
    ux, uy = lies.unit
    return (1, 0.0, (ux * 0.9, uy * 0.9)), (2, lies.length, (-ux * 0.9, -uy * 0.9))


def _measure_in(wall: Wall, at: float, off: float) -> list[Item]:
    """Return the measure in from a wall to the near end."""
    a, b = _outside(wall, at, 0), _outside(wall, at, -off)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    return [
        Line((a, b), "mark", 1.5, "px", (6.0, 4.0)),
        Text(middle, figure(off), "mark", NOTE_PX, "px", bold=True, ground="paper"),
    ]


def _truss_aim(bench: Bench, site: Site, hovered: str) -> list[Item]:
    """Return rings round what is chosen, picked and under the mouse; with Fix, round the end as well."""
    items: list[Item] = []
    chosen = set(bench.picked) if hand.picks(bench) else {bench.truss}
    if bench.tool == "unbrace":
        piece = hand.bracing_at(bench, site)
        chosen = set(piece.tags) if piece else set()
    for tag in chosen - {""}:
        items += ring_round(site, tag, "mark")
    if hovered and hovered not in chosen:
        items += [*ring_round(site, hovered, "ghost"), *named(site, hovered)]
    elif len(chosen) == 1:
        items += named(site, *chosen)
    if bench.tool == "fix" and bench.truss in site.stood:
        items += [Polygon(_round(at, 110), None, "mark", 3.0) for at in _fixed_at(bench, site)]
    return items


def _fixed_at(bench: Bench, site: Site) -> list[Point]:
    """Return where what is chosen of a truss will be fixed."""
    stood = site.stood[bench.truss]
    if bench.end >= hand.SPOTS:
        return [c.at for n, c in enumerate(spots_of(site, bench.truss), hand.SPOTS) if n == bench.end]
    return [end_sign(stood, n) for n in ((1, 2) if bench.end == hand.BOTH else (bench.end,))]


def told(bench: Bench, site: Site) -> str:
    """Say what is aimed at, for the tree and the status line."""
    if bench.tool == "mark":
        return f"{bench.mark_on} {figure(bench.mark_at)} mm"
    if bench.tool == "stand":
        member = hand.member_in_hand(bench, site)
        return f"{member.tag}: {in_words(bench.aim)}" if member else ""
    if bench.tool == "fit":
        return f"{bench.fit_on} {figure(bench.fit_at)} mm" if bench.fit_on else ""
    if hand.aims_at_wall(bench):
        return _("wall {wall}").format(wall=bench.wall)
    if hand.between_points(bench):
        ends = bench.tape if len(bench.tape) == 2 else (*bench.tape, bench.point)
        return f"{between_in_words(*ends)} mm" if len(ends) == 2 else f"{bench.point[0]:g}, {bench.point[1]:g}"
    return " – ".join(bench.picked) if hand.picks(bench) else bench.truss


def nearest_end(site: Site, tag: str, point: Point, *, crossing: bool = False) -> int:
    """Return which end of a standing truss a place is nearest to, 1 or 2; or which ``crossing``, from 3 on."""
    stood = site.stood[tag]
    crossings = spots_of(site, tag) if crossing else ()
    places = dict(enumerate((c.at for c in crossings), 3)) or {1: stood.start, 2: stood.finish}
    return min(places, key=lambda number: math.dist(places[number], point))
