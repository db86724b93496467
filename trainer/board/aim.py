"""Where a truss in the hand is to stand, as a tape measures it; and back to places on the plan.

An aim is a wall, a measure along it from its first corner, a measure in from its outside face, and how
the truss lies to it. Everything typed, dragged and snapped ends up here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from trainer.layout import Member
from trainer.plan import PlatePlan, Point, Wall
from trainer.plan.points import half, to_half
from trainer.site.model import Site
from trainer.words import _

Lies = Literal["square", "along", "on", "back"]
LIES: tuple[Lies, ...] = ("square", "along", "on", "back")
LIES_NAMES: dict[Lies, str] = {
    "square": _("square to it"),
    "along": _("along it"),
    "on": _("45° onwards"),
    "back": _("45° back"),
}


@dataclass(frozen=True, slots=True)
class Aim:
    """A place for a truss: ``at`` mm along ``wall``, ``off`` mm in from its outside face."""

    wall: str
    at: float
    off: float = 0.0
    lies: Lies = "square"
    turned: bool = False


def direction(wall: Wall, lies: Lies) -> tuple[float, float]:
    """Return the unit step in plan from the end at the wall to the other end."""
    (ax, ay), (nx, ny) = wall.along, wall.inward
    if lies == "square":
        return (nx, ny)
    if lies == "along":
        return (ax, ay)
    sign = 1 if lies == "on" else -1
    slant = math.sqrt(0.5)
    return ((sign * ax + nx) * slant, (sign * ay + ny) * slant)


def foot(plan: PlatePlan, aim: Aim) -> Point:
    """Return the place of the end at the wall."""
    wall = plan.by_name[aim.wall]
    (x, y), (nx, ny) = wall.at(aim.at), wall.inward
    return (x + nx * aim.off, y + ny * aim.off)


def ends(plan: PlatePlan, member: Member, aim: Aim) -> tuple[Point, Point]:
    """Return where the truss's ``from`` and ``to`` ends come, to 0.5 mm."""
    x, y = foot(plan, aim)
    dx, dy = direction(plan.by_name[aim.wall], aim.lies)
    near, far = to_half((x, y)), to_half((x + dx * member.span, y + dy * member.span))
    return (far, near) if aim.turned else (near, far)


def on_wall(wall: Wall, point: Point) -> tuple[float, float]:
    """Return (mm along the wall, mm in from it) of a place."""
    dx, dy = point[0] - wall.a[0], point[1] - wall.a[1]
    (ax, ay), (nx, ny) = wall.along, wall.inward
    return (dx * ax + dy * ay, dx * nx + dy * ny)


def nearest_wall(plan: PlatePlan, point: Point) -> Wall:
    """Return the wall that a place is nearest to."""
    return min(plan.walls, key=lambda wall: from_wall(wall, point))


def from_wall(wall: Wall, point: Point) -> float:
    """Return how far a place is from a wall, mm."""
    along, off = on_wall(wall, point)
    return math.hypot(along - min(max(along, 0.0), wall.length), off)


def bears_on_a_wall(member: Member) -> bool:
    """Whether either end is made to bear on a plate or a ledger."""
    return any(end.wall for end in member.ends)


def first_aim(plan: PlatePlan, member: Member, wall: str) -> Aim:
    """Return how a truss just taken from the yard is held: the way its kind usually lies."""
    turned = not member.ends[0].on_plate and member.ends[1].on_plate
    return pointing_inward(plan, member, Aim(wall, 0.0, 0.0, "on" if member.kind == "hip" else "square", turned))


def pointing_inward(plan: PlatePlan, member: Member, aim: Aim) -> Aim:
    """Return the aim with a hip pointing into the house from whichever half of the wall it starts at."""
    if member.kind == "hip" and aim.lies in {"on", "back"} and bears_on_a_wall(member):
        in_first_half = aim.at <= plan.by_name[aim.wall].length / 2
        return replace(aim, lies="on" if in_first_half else "back")
    return aim


def aims_of(plan: PlatePlan, member: Member, start: Point, finish: Point) -> list[Aim]:
    """Return every way of saying by tape that a truss stands from ``start`` to ``finish``, the plainest first."""
    found = []
    for wall in plan.walls:
        for turned in (False, True):
            along, off = on_wall(wall, finish if turned else start)
            for lies in LIES:
                aim = Aim(wall.name, half(along), half(off), lies, turned)
                near, far = ends(plan, member, aim)
                if math.dist(near, start) <= 1 and math.dist(far, finish) <= 1:
                    found.append(aim)
    walls = plan.by_name
    return sorted(found, key=lambda a: (a.off != 0, not 0 <= a.at <= walls[a.wall].length, a.turned))


def in_words(aim: Aim) -> str:
    """Say an aim: wall, running measure, how far in, how it lies."""
    parts = [_("wall {wall}").format(wall=aim.wall), f"{aim.at:g} mm"]
    if aim.off:
        parts.append(_("{off} mm in").format(off=f"{aim.off:g}"))
    parts.append(LIES_NAMES[aim.lies])
    if aim.turned:
        parts.append(_("turned end for end"))
    return ", ".join(parts)


def place_in_words(site: Site, point: Point) -> str:
    """Say a place on the plan as a tape would: the nearest wall that runs past it, and the measure along that."""
    wall, along, off = place_by_wall(site, point)
    # What rounds to nothing is 0 and not −0.
    return _("wall {wall} at {at}").format(wall=wall, at=f"{half(along) + 0.0:g}") + inward_in_words(off)


def inward_in_words(off: float) -> str:
    """Say how far a place is in from the wall that it is measured along, to go after that; nothing on it."""
    return _(", {off} in").format(off=f"{half(off):g}") if abs(off) > 0.5 else ""


def place_by_wall(site: Site, point: Point) -> tuple[str, float, float]:
    """Return the nearest wall that runs past a place, how far along it that is, and how far in from it, mm."""

    def aside(wall: Wall) -> tuple[bool, float, float]:
        along, off = on_wall(wall, point)
        return (not 0 <= along <= wall.length, abs(off), abs(along))

    best = min(site.layout.house.plan.walls, key=aside)
    return (best.name, *on_wall(best, point))
