"""From the mouse and the arrow keys to the bench: what is under the mouse, what catches, what comes next."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from trainer.board import bench as hand
from trainer.board.aim import Aim, bears_on_a_wall, from_wall, nearest_wall, on_wall, settle
from trainer.board.bench import Bench
from trainer.board.snap import (
    BEYOND,
    Caught,
    aim_for,
    along_truss,
    carrier_places,
    catch,
    drop_in_places,
    mark_places,
    nearest_truss,
    tape_places,
    tape_point,
    wall_places,
    whole_step,
)
from trainer.layout import Member
from trainer.plan import Point, Wall
from trainer.plan.points import half
from trainer.site.marking import ROUND_THE_CORNER
from trainer.site.model import Site, Stood

REACH_PX = 22.0
"""How near the mouse must be to a truss to mean it, px."""


class Pointer:
    """Aims a bench at places of the plan, and keeps the places that catch while nothing changes."""

    def __init__(self) -> None:
        self._drop_key: tuple[object, ...] = ()
        self._drops: list[Point] = []

    def drops(self, bench: Bench, site: Site, member: Member) -> list[Point]:
        """Return the places at which both ends of a truss held by its middle come on lines."""
        key = (site.done, len(site.stood), member.tag, bench.aim.lies, bench.aim.wall)
        if key != self._drop_key:
            self._drop_key = key
            self._drops = [] if bears_on_a_wall(member) else drop_in_places(site, member, bench.aim)
        return self._drops

    def point(self, bench: Bench, site: Site, place: Point, mm_per_px: float) -> str:
        """Aim the bench at a place; return the tag of the standing truss that is meant, if any."""
        reach, step = 9 * mm_per_px, whole_step(mm_per_px)
        truss = nearest_truss(site.stood.values(), place, REACH_PX * mm_per_px, bench.truss)
        if bench.tool == "stand":
            member = hand.member_in_hand(bench, site)
            if member is not None:
                bench.aim, bench.caught = aim_for(
                    site, member, place, bench.aim, mm_per_px, self.drops(bench, site, member)
                )
        elif bench.tool == "mark":
            wall = _wall_meant(bench, site, place)
            along, _off = on_wall(wall, place)
            if truss is not None and _truss_meant(bench, truss, place, from_wall(wall, place), REACH_PX * mm_per_px):
                run, _aside = along_truss(truss, place)
                caught = catch(_within(run, site, truss.tag), carrier_places(site, truss), reach, step)
                bench.mark_on, bench.mark_at, bench.caught = truss.tag, caught.value, caught.by
            else:
                caught = catch(_within(along, site, wall.name), mark_places(site, wall), reach, step)
                bench.mark_on, bench.mark_at, bench.caught = wall.name, caught.value, caught.by
        elif hand.aims_at_wall(bench):
            bench.wall = nearest_wall(site.layout.house.plan, place).name
        elif hand.between_points(bench):
            bench.point, bench.caught = tape_point(site, place, reach, step)
        elif bench.tool == "fit" and truss is not None:
            run, _aside = along_truss(truss, place)
            caught = catch(_within(run, site, truss.tag), carrier_places(site, truss), reach, step)
            bench.fit_on, bench.fit_at, bench.caught = truss.tag, caught.value, caught.by
        return truss.tag if truss is not None else ""


def _truss_meant(bench: Bench, truss: Stood, place: Point, from_plate: float, reach: float) -> bool:
    """Whether a mark goes on the truss under the mouse, and not on the wall that is ``from_plate`` mm away.

    A girder lies in line with walls: past their ends it is the truss that is meant; near an end, if it is held already.
    """
    _run, aside = along_truss(truss, place)
    return from_plate > reach or (bench.mark_on == truss.tag and abs(aside) < from_plate)


def _wall_meant(bench: Bench, site: Site, place: Point) -> Wall:
    """Return the wall nearest to a place; where two are as near, as at a corner, the one that is held already."""
    plan = site.layout.house.plan
    nearest, held = nearest_wall(plan, place), plan.by_name.get(bench.mark_on)
    return held if held and from_wall(held, place) <= from_wall(nearest, place) + 1 else nearest


def _within(value: float, site: Site, where: str) -> float:
    beyond = ROUND_THE_CORNER if where in site.layout.house.plan.by_name else 0.0
    return min(max(value, -beyond), hand.length_of(site, where) + beyond)


def next_catch(bench: Bench, site: Site, drops: list[Point]) -> bool:
    """Go on to the next place that catches, in the order along the wall or truss; return whether there is one."""
    member = hand.member_in_hand(bench, site)
    if bench.tool == "stand" and member is not None:
        return _next_aim(bench, site, member, drops)
    if bench.tool == "mark" and bench.mark_on in site.layout.house.plan.by_name:
        places = list(mark_places(site, site.layout.house.plan.by_name[bench.mark_on]))
        bench.mark_at, bench.caught = _following(places, bench.mark_at)
        return True
    if hand.between_points(bench):
        spots = sorted(spot for spot, _by in tape_places(site))
        bench.point = next((spot for spot in spots if spot > bench.point), spots[0])
        return True
    if bench.tool in {"mark", "fit"}:
        tag = bench.mark_on if bench.tool == "mark" else bench.fit_on
        places = list(carrier_places(site, site.stood[tag])) if tag in site.stood else []
        if not places:
            return False
        if bench.tool == "mark":
            bench.mark_at, bench.caught = _following(places, bench.mark_at)
        else:
            bench.fit_at, bench.caught = _following(places, bench.fit_at)
        return True
    return False


def _following(places: list[Caught], now: float) -> tuple[float, str]:
    ordered = sorted(places, key=lambda place: place.value)
    later = next((place for place in ordered if place.value > now + 0.25), ordered[0])
    return later.value, later.by


def _next_aim(bench: Bench, site: Site, member: Member, drops: list[Point]) -> bool:
    plan = site.layout.house.plan
    wall = plan.by_name[bench.aim.wall]
    if bears_on_a_wall(member):
        places = [p for p in wall_places(site, wall, member.width) if -BEYOND <= p.value <= wall.length + BEYOND]
        at, bench.caught = _following(places, bench.aim.at) if places else (bench.aim.at, "")
        bench.aim = settle(plan, member, replace(bench.aim, at=at))
        return bool(places)
    aims = sorted(_aims_at(bench.aim, drops, wall.along, wall.inward, wall.a))
    if not aims:
        return False
    now = (bench.aim.at, bench.aim.off)
    at, off = next(
        (
            aim
            for aim in aims
            if aim > (now[0] + 0.25, -math.inf) or (abs(aim[0] - now[0]) < 0.3 and aim[1] > now[1] + 0.25)
        ),
        aims[0],
    )
    bench.aim = replace(bench.aim, at=at, off=off)
    return True


def _aims_at(
    aim: Aim, drops: list[Point], along: tuple[int, int], inward: tuple[int, int], corner: Point
) -> Iterator[tuple[float, float]]:
    for x, y in drops:
        dx, dy = x - corner[0], y - corner[1]
        at, off = dx * along[0] + dy * along[1], dx * inward[0] + dy * inward[1]
        yield (half(at), half(off))


def nudge(bench: Bench, site: Site, along: float, inward: float) -> None:
    """Move what is aimed at by so many mm."""
    bench.caught = ""
    if bench.tool == "stand":
        member = hand.member_in_hand(bench, site)
        if member is not None:
            aim = replace(bench.aim, at=bench.aim.at + along, off=bench.aim.off + inward)
            bench.aim = settle(site.layout.house.plan, member, aim)
    elif bench.tool == "mark":
        bench.mark_at = _within(bench.mark_at + along, site, bench.mark_on)
    elif bench.tool == "fit" and bench.fit_on:
        bench.fit_at = _within(bench.fit_at + along, site, bench.fit_on)
    elif hand.between_points(bench):
        bench.point = (bench.point[0] + along, bench.point[1] + inward)


def neighbour(site: Site, tag: str, way: tuple[int, int]) -> str:
    """Return the standing truss next to ``tag`` in a direction of the plan; the first there is if none is chosen."""
    if not site.stood:
        return ""
    if tag not in site.stood:
        return next(iter(site.stood))
    here = _middle(site, tag)

    def cost(other: str) -> float:
        x, y = _middle(site, other)
        ahead = (x - here[0]) * way[0] + (y - here[1]) * way[1]
        aside = abs((x - here[0]) * way[1]) + abs((y - here[1]) * way[0])
        return ahead + 2 * aside if ahead > 1 else math.inf

    best = min((t for t in site.stood if t != tag), key=cost, default=tag)
    return best if cost(best) < math.inf else tag


def _middle(site: Site, tag: str) -> Point:
    stood = site.stood[tag]
    return ((stood.start[0] + stood.finish[0]) / 2, (stood.start[1] + stood.finish[1]) / 2)
