"""Two pictures for somebody who never saw a roof truss: a finished roof, and one truss with its parts named."""

from __future__ import annotations

from dataclasses import replace

from trainer.layout import Member
from trainer.picture.angled import angled, scene_of
from trainer.picture.elevation import elevation
from trainer.picture.finished import box_of
from trainer.picture.frame import Framed, Part, TrussTimber
from trainer.picture.model import Box, Item, Line, Text
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.plan import Point
from trainer.plan.points import half
from trainer.roof.model import Point3
from trainer.site.model import Site
from trainer.words import _

TURN = Turn(yaw=28.0, tilt=30.0)
LETTERS_PX = 16.0
MARK_LOW = 900.0
"""How far below the plates the running measure is drawn, mm."""
PART_NAMES: dict[Part, str] = {"top chord": _("top chord"), "bottom chord": _("bottom chord"), "web": _("web")}
AWAY: dict[Part, Point] = {"top chord": (-1.0, 420.0), "bottom chord": (0.0, -330.0), "web": (0.0, 0.0)}
"""Where the name of a part stands from its middle, mm; -1 is a name that ends there."""


def finished_roof(site: Site, member: Member, scale: float = 0.1) -> tuple[list[Item], Box]:
    """Return a roof whose trusses all stand on ``site``, with one truss, its plate and its station named."""
    stander = Stander(site.layout)
    # Only the house itself: rails and yard would be one thing more to wonder at.
    items = angled(replace(scene_of(site, stander.solids(site)), site=None), TURN, scale)
    wall = site.layout.house.plan.by_name[member.ends[0].bears_on.removeprefix("plate ")]
    station = abs((member.start[0] - wall.a[0]) * wall.along[0] + (member.start[1] - wall.a[1]) * wall.along[1])
    first, last = _low(wall.a, MARK_LOW), _low(member.start, MARK_LOW)
    measure = TURN.all_flat((first, last))
    items.append(Line(measure, "mark", 2.0))
    items += [Line(TURN.all_flat(((*p[:2], 0.0), p)), "mark", 1.4) for p in (first, last)]
    middle = ((measure[0][0] + measure[1][0]) / 2, (measure[0][1] + measure[1][1]) / 2)
    items.append(_name(middle, _("station: {at} mm").format(at=f"{half(station):g}"), (0.0, -1.0)))
    end = _low(wall.b, 0.0)
    items.append(
        _name(TURN.flat((end[0], end[1], 0.0)), _("top plate of wall {wall}").format(wall=wall.name), (0.0, -1.6))
    )
    items.append(_name(TURN.flat(_apex(member)), _("truss {tag}").format(tag=member.tag), (0.0, 1.4)))
    left, bottom, right, top = box_of(site.layout.house, site.layout.roof, TURN, past=0.0)
    return items, (left, bottom, right, top + 400)


def hip_and_saddle(site: Site, scale: float = 0.1) -> tuple[list[Item], Box]:
    """Return a roof whose trusses all stand on ``site``, with the nearest hip and the largest saddle named."""
    layout = site.layout
    items = angled(replace(scene_of(site, Stander(layout).solids(site)), site=None), TURN, scale)
    hips = [member for member in layout.members if member.kind == "hip"]
    nearest = min(hips, key=lambda member: TURN.flat(_at(member, 0.5))[1])
    saddle = max((member for member in layout.members if member.kind == "saddle"), key=lambda member: member.span)
    items.append(_name(TURN.flat(_at(nearest, 0.5)), _("hip truss"), (0.0, -1.2)))
    items.append(_name(TURN.flat(_apex(saddle)), _("saddle truss"), (0.0, 1.4)))
    left, bottom, right, top = box_of(layout.house, layout.roof, TURN, past=0.0)
    return items, (left, bottom, right, top + 400)


def named_truss(framed: Framed) -> tuple[list[Item], Box]:
    """Return one truss from the side on its two plates, each part with its name."""
    items, box = elevation(framed, mirrored=False)
    items = [item for item in items if not isinstance(item, Text)]
    named: set[Part] = set()
    for timber in sorted(framed.timbers, key=_left):
        if timber.part in PART_NAMES and timber.part not in named:
            named.add(timber.part)
            items += _part_name(timber)
    first, last = framed.peaks
    items.append(_name(((first + last) / 2, framed.high), _("apex: the highest point"), (0.0, 2.4)))
    for run in (0.0, framed.member.span):
        items.append(_name((run, -70.0), _("plate"), (0.0, -1.0)))
    return items, (box[0] - 100, box[1] - 250, box[2] + 100, box[3] + 350)


def _part_name(timber: TrussTimber) -> list[Item]:
    """Return the name of a part, off its middle, with a thin line to it."""
    x = sum(p[0] for p in timber.outline) / len(timber.outline)
    z = sum(p[1] for p in timber.outline) / len(timber.outline)
    dx, dz = AWAY[timber.part]
    line: list[Item] = [Line(((x, z), (x, z + dz)), "mark", 1.2)] if dz else []
    at = (x, z + dz)
    return [
        *line,
        Text(
            at,
            PART_NAMES[timber.part],
            "ink",
            LETTERS_PX,
            "px",
            "end" if dx < 0 else "middle",
            bold=True,
            ground="paper",
        ),
    ]


def _left(timber: TrussTimber) -> float:
    return min(run for run, _z in timber.outline)


def _apex(member: Member) -> Point3:
    run, z = max(member.top, key=lambda place: place[1])
    return (*_along(member, run / member.span), z)


def _at(member: Member, part: float) -> Point3:
    """Return a place on the top of a truss that only rises, at a part of its span."""
    (run0, z0), (run1, z1) = member.top[0], member.top[-1]
    return (*_along(member, part), z0 + (z1 - z0) * (part * member.span - run0) / (run1 - run0))


def _along(member: Member, part: float) -> Point:
    (x0, y0), (x1, y1) = member.start, member.finish
    return x0 + (x1 - x0) * part, y0 + (y1 - y0) * part


def _low(place: Point, down: float) -> Point3:
    return place[0], place[1], -down


def _name(at: Point, words: str, off: Point) -> Text:
    return Text(at, words, "ink", LETTERS_PX, "px", bold=True, ground="paper", off=off)
