"""Where a piece of permanent bracing goes, by walls, trusses and measures off the layout, as one would on site."""

from __future__ import annotations

from trainer.board.aim import on_wall, place_in_words
from trainer.layout.model import Layout, Member
from trainer.layout.row_lines import PARALLEL
from trainer.picture.measures import figure
from trainer.plan import Point
from trainer.site.actions import Restrain
from trainer.site.model import Site
from trainer.words import _

NEAR = 20.0
"""A place this near a truss's centre line is on that truss, and this near another measure is the same, mm."""


def from_where_to_where(site: Site, action: Restrain) -> str:
    """Say where a piece begins and ends."""
    layout = site.layout
    ends = (action.start, action.finish)
    on = [_truss_at(layout, end) for end in ends]
    if action.kind != "roof brace" and on[0] is not None and on[1] is not None and on[0] is not on[1]:
        along = _same_distance(layout, (on[0], on[1]), ends)
        if along:
            first, last = (_name(site, member) for member in (on[0], on[1]))
            return _("from {first} to {last}, {where}").format(first=first, last=last, where=along)
    first, last = (_place(site, action, end) for end in ends)
    return _("from {first}, to {last}").format(first=first, last=last)


def _place(site: Site, action: Restrain, at: Point) -> str:
    """Say one end: a place on a plate, on a truss, or anywhere."""
    layout = site.layout
    plate = _on_plate(layout, at)
    if plate is not None:
        wall, along = plate
        text = _("the plate of wall {wall}, {at} from its first corner")
        return text.format(wall=wall, at=figure(along))
    member = _truss_at(layout, at)
    if member is None:
        return place_in_words(site, at)
    if action.kind == "roof brace" and _at_top(member, at):
        return _("the top of {tag}").format(tag=_name(site, member))
    distances = _distances(layout, member, at)
    carrier, off = min(distances, key=lambda each: each[1])
    return _("{tag}, {where}").format(tag=_name(site, member), where=_in_from(layout, carrier, off))


def _same_distance(layout: Layout, members: tuple[Member, Member], ends: tuple[Point, Point]) -> str:
    """Say how far both ends lie in from the plate or girder that both trusses bear on; nothing where they differ."""
    first, last = (dict(_distances(layout, member, at)) for member, at in zip(members, ends, strict=True))
    same = [name for name in first if name in last and abs(first[name] - last[name]) < NEAR]
    if not same:
        return ""
    nearest = min(same, key=lambda name: first[name])
    return _in_from(layout, nearest, first[nearest])


def _in_from(layout: Layout, carrier: str, off: float) -> str:
    """Say how far in from a plate or from what else carries."""
    if not carrier.startswith("plate "):
        return _("{off} from {tag}").format(off=figure(off), tag=carrier)
    wall = carrier.removeprefix("plate ")
    if off <= layout.house.plan.plate_width:
        return _("over the plate of wall {wall}").format(wall=wall)
    return _("{off} in from wall {wall}").format(off=figure(off), wall=wall)


def _distances(layout: Layout, member: Member, at: Point) -> list[tuple[str, float]]:
    """What a truss bears on at either end, and how far from there a place on it lies, plates first."""
    run = member.run(at)
    found = [(member.ends[0].bears_on, run), (member.ends[1].bears_on, member.span - run)]
    return sorted(found, key=lambda each: not each[0].startswith("plate "))


def _at_top(member: Member, at: Point) -> bool:
    highest = max(z for _run_at, z in member.top)
    runs = [run for run, z in member.top if z >= highest - 1.0]
    return min(runs) - NEAR <= member.run(at) <= max(runs) + NEAR


def _truss_at(layout: Layout, at: Point) -> Member | None:
    """The truss of a row on whose centre line a place lies, or else the girder at which it lies."""
    girders = []
    for member in layout.members:
        dx, dy = member.direction
        aside = abs((at[0] - member.start[0]) * -dy + (at[1] - member.start[1]) * dx)
        if not -NEAR <= member.run(at) <= member.span + NEAR:
            continue
        if member.kind in PARALLEL and aside < NEAR:
            return member
        if member.kind == "girder" and aside < member.width / 2 + NEAR:
            girders.append(member)
    return next(iter(girders), None)


def _on_plate(layout: Layout, at: Point) -> tuple[str, float] | None:
    """The wall on whose plate a place lies, and how far it is from that wall's first corner."""
    plan = layout.house.plan
    for wall in plan.walls:
        along, off = on_wall(wall, at)
        if not wall.against and -NEAR <= off <= plan.plate_width and -NEAR <= along <= wall.length + NEAR:
            return wall.name, along
    return None


def _name(site: Site, member: Member) -> str:
    """Tag of the truss that stands in a place, or of the place where none does."""
    return site.at_place.get(member.tag, member.tag)
