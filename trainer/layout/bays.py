"""The bays of a layout: which trusses stand next to each other under one roof plane, and how far apart."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from trainer.layout.model import Layout, Leg, Member, Plane


@dataclass(frozen=True, slots=True)
class Bay:
    """Two neighbours, ``first`` at the lower place along ``axis``; ``ends`` (1 or 2) are theirs under the plane."""

    axis: Literal["x", "y"]
    first: str
    second: str
    ends: tuple[int, int]
    gap: float


def bays(layout: Layout) -> Mapping[str, tuple[Bay, ...]]:
    """Return, for each tag, the bays that it closes on either side; across a court there is none."""
    by_plane: dict[Plane, list[tuple[float, Member, Leg]]] = {}
    for member in layout.members:
        for leg in member.legs:
            if leg.lean == 0:
                by_plane.setdefault(leg.plane, []).append((leg.spot, member, leg))
    found: dict[str, list[Bay]] = {member.tag: [] for member in layout.members}
    for plane, supports in by_plane.items():
        supports.sort(key=lambda support: support[0])
        for (low, first, leg), (high, second, other) in pairwise(supports):
            gap = high - low
            if 0 < gap <= layout.house.trusses.spacing:
                bay = Bay(plane[0], first.tag, second.tag, (_end(first, leg), _end(second, other)), gap)
                found[first.tag].append(bay)
                found[second.tag].append(bay)
    return {tag: tuple(own) for tag, own in found.items()}


def _end(member: Member, leg: Leg) -> int:
    """Which end of a truss is under the foot of its plane."""
    foot = leg.run + leg.per_h * leg.low
    return 1 if abs(foot) <= abs(foot - member.span) else 2
