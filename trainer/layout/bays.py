"""The bays of a layout: which trusses stand next to each other under one roof plane, and how far apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from trainer.layout.model import Layout, Leg, Member, Plane

_Support = tuple[float, Member, Leg]


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
    by_plane: dict[Plane, list[_Support]] = {}
    for member in layout.members:
        for leg in member.legs:
            if leg.lean == 0 and leg.per_h:
                by_plane.setdefault(leg.plane, []).append((leg.spot, member, leg))
    trusses = layout.house.trusses
    # Half a thickness more than the spacing, where a truss or a truncated girder stands clear of a girder's end.
    widest = trusses.spacing + trusses.girder_plies * trusses.thickness / 2
    found: dict[str, list[Bay]] = {member.tag: [] for member in layout.members}
    for plane, supports in by_plane.items():
        supports.sort(key=lambda support: support[0])
        for bay in _between(plane, supports, widest):
            found[bay.first].append(bay)
            found[bay.second].append(bay)
    return {tag: tuple(own) for tag, own in found.items()}


def _between(plane: Plane, supports: list[_Support], widest: float) -> Iterator[Bay]:
    """Neighbours are two supports with none between them that holds up all they both do."""
    for i, (low, first, leg) in enumerate(supports):
        nearer: list[tuple[float, Leg]] = []
        for high, second, other in supports[i + 1 :]:
            if high - low > widest:
                break
            from_h, to_h = max(leg.low, other.low), min(leg.high, other.high)
            hidden = any(spot < high and near.low <= from_h and to_h <= near.high for spot, near in nearer)
            if high > low:
                nearer.append((high, other))
                if from_h < to_h and not hidden:
                    yield Bay(plane[0], first.tag, second.tag, (_end(first, leg), _end(second, other)), high - low)


def _end(member: Member, leg: Leg) -> int:
    """Which end of a truss is under the foot of its plane."""
    foot = leg.run + leg.per_h * leg.low
    return 1 if abs(foot) <= abs(foot - member.span) else 2
