"""Where trusses pass over internal walls, and where slotted brackets hold such a wall straight.

An internal wall never carries a truss: a slotted bracket steadies the wall's top and lets the truss move up and
down. Common practice, no source. How far apart brackets may be is the house's own value.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from trainer.layout.model import Layout, Member
from trainer.plan import Point
from trainer.plan.points import half

CLEAR = 150.0
"""A truss is over a wall where it passes at least this far from its own ends, mm."""
BESIDE = 1.5
"""A trimmer reaches to a wall from a truss within this many spacings."""
OVER = ("standard", "girder", "truncated_girder", "truncated", "jack", "creeper", "gable", "half")
"""Kinds whose bottom chords are fixed to walls; hips cross at an angle and saddles sit on top of others."""


@dataclass(frozen=True, slots=True)
class InnerWall:
    """One straight length of internal wall, along x (0) or y (1): from ``low`` to ``high`` at ``line``, mm."""

    along: int
    line: float
    low: float
    high: float

    def at(self, spot: float) -> Point:
        """Plan point at ``spot`` along the wall."""
        return (spot, self.line) if self.along == 0 else (self.line, spot)


@dataclass(frozen=True, slots=True)
class WallSpot:
    """A slotted bracket of the reference: on wall number ``wall``, at ``spot`` mm along it, to the truss ``tag``.

    ``run``: how far along the truss. ``trimmer``: the wall runs between two trusses; the bracket is fixed to a
    trimmer put in from ``tag`` to the truss ``other``.
    """

    wall: int
    spot: float
    tag: str
    at: Point
    run: float
    trimmer: bool = False
    other: str = ""


def inner_walls(layout: Layout) -> tuple[InnerWall, ...]:
    """Return the straight lengths of internal wall that run square to the house, in the order of the level."""
    found = []
    for wall in layout.house.plan.internal_walls:
        for (ax, ay), (bx, by) in pairwise(wall):
            if ay == by:
                found.append(InnerWall(0, ay, min(ax, bx), max(ax, bx)))
            elif ax == bx:
                found.append(InnerWall(1, ax, min(ay, by), max(ay, by)))
    return tuple(found)


def wall_spots(layout: Layout) -> tuple[WallSpot, ...]:
    """Return the fewest brackets that leave no gap wider than the house allows.

    A wall's ends are held by what they meet.
    """
    return tuple(spot for number, wall in enumerate(inner_walls(layout)) for spot in _on_wall(layout, number, wall))


def _on_wall(layout: Layout, number: int, wall: InnerWall) -> Iterator[WallSpot]:
    gap = float(layout.house.fixings.wall_brackets)
    across = sorted((m.start[wall.along], m.tag) for m in layout.members if _crosses(m, wall))
    here = wall.low
    while wall.high - here > gap:
        reached = [pair for pair in across if here < pair[0] <= here + gap]
        beside = None if reached else _beside(layout, number, wall, here + gap)
        beyond = [pair for pair in across if pair[0] > here]
        if beside:
            yield beside
            here = beside.spot
        elif beyond:
            spot, tag = reached[-1] if reached else beyond[0]
            at = wall.at(spot)
            yield WallSpot(number, spot, tag, at, half(layout.by_tag[tag].run(at)))
            here = spot
        else:
            return


def _crosses(member: Member, wall: InnerWall) -> bool:
    """Whether a truss runs across the wall, between the wall's ends and clear of its own."""
    along, across = wall.along, 1 - wall.along
    if member.kind not in OVER or member.start[along] != member.finish[along]:
        return False
    low, high = sorted((member.start[across], member.finish[across]))
    inside = wall.low + CLEAR <= member.start[along] <= wall.high - CLEAR
    return inside and low + CLEAR <= wall.line <= high - CLEAR


def _beside(layout: Layout, number: int, wall: InnerWall, spot: float) -> WallSpot | None:
    """A bracket where the wall runs along with the trusses: to the one right over it, or to a trimmer between two."""
    near: dict[bool, tuple[float, str]] = {}
    for member in layout.members:
        if _runs_along(member, wall, spot):
            off = member.start[1 - wall.along] - wall.line
            if abs(off) <= (member.width + layout.house.plan.plate_width) / 2:
                at = wall.at(spot)
                return WallSpot(number, spot, member.tag, at, half(member.run(at)))
            side = off > 0
            near[side] = min(near.get(side, (float("inf"), "")), (abs(off), member.tag))
    if len(near) < 2 or max(off for off, _ in near.values()) > BESIDE * layout.house.trusses.spacing:
        return None
    (_, tag), (_, other) = sorted(near.values())
    at = wall.at(spot)
    return WallSpot(number, spot, tag, at, half(layout.by_tag[tag].run(at)), True, other)


def _runs_along(member: Member, wall: InnerWall, spot: float) -> bool:
    along, across = wall.along, 1 - wall.along
    if member.kind not in OVER or member.start[across] != member.finish[across]:
        return False
    low, high = sorted((member.start[along], member.finish[along]))
    return low + CLEAR <= spot <= high - CLEAR
