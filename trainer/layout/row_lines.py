"""A row of parallel trusses seen along and across: ``u`` runs along the row, ``v`` across it, along its trusses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from trainer.layout.model import Layout, Member
from trainer.plan import Point
from trainer.terms import TrussKind

Side = Literal[1, 2]
"""The slope at the lower ``v`` of a row, or at the higher."""
SHORT = 650.0
"""Trusses that end so far inside the edge of their roof end at a girder there; no fascia stands out so far, mm."""
PARALLEL: tuple[TrussKind, ...] = ("standard", "truncated", "truncated_girder", "gable", "half", "girder")


@dataclass(frozen=True)
class RowLines:
    """One row: its trusses in order along it, and where across it the outsides of its plates lie, mm."""

    row: str
    along: Literal[0, 1]
    low: float
    high: float
    members: tuple[Member, ...]
    face: float | None = None
    """Where across it the face of a higher wall is that its ridge runs along."""

    @cached_property
    def us(self) -> tuple[float, ...]:
        """Where along it its trusses stand, mm, in order."""
        return tuple(map(self.u, self.members))

    @cached_property
    def ridge(self) -> float:
        """Where across the row its ridge lies, mm."""
        return (self.low + self.high) / 2 if self.face is None else self.face

    @cached_property
    def half(self) -> float:
        """From eave to ridge, mm: half the span, or all of it beside a higher wall."""
        return max(self.ridge - self.low, self.high - self.ridge)

    @property
    def sides(self) -> tuple[Side, ...]:
        """The slopes that there are."""
        return (1, 2) if self.face is None else (1,) if self.face == self.high else (2,)

    @property
    def full_height(self) -> list[Member]:
        """The row's standard trusses, or halves of them, in order along it."""
        return [member for member in self.members if member.full_height]

    @property
    def at_ridge(self) -> list[Member]:
        """The same, with the girders of dutch gables."""
        return [member for member in self.members if member.full_height or member.kind == "girder"]

    @cached_property
    def reach(self) -> tuple[float, float]:
        """From where to where across it its trusses go: to the plates, but where a girder stands short of them."""
        ends = [end.at[1 - self.along] for member in self.members for end in member.ends]
        first, last = min(ends), max(ends)
        return (first if first - self.low > SHORT else self.low), (last if self.high - last > SHORT else self.high)

    def top(self, side: Side) -> float:
        """Where across the row one slope ends: at its ridge, or short of it at a girder."""
        return min(self.ridge, self.reach[1]) if side == 1 else max(self.ridge, self.reach[0])

    def of_kind(self, *kinds: TrussKind) -> list[Member]:
        """The row's trusses of these kinds, in order along it."""
        return [member for member in self.members if member.kind in kinds]

    def u(self, member: Member) -> float:
        """Where along the row a truss stands, mm."""
        return member.start[self.along]

    def run(self, member: Member, v: float) -> float:
        """How far from a truss's ``from`` end ``v`` lies along it, mm."""
        first, last = member.start[1 - self.along], member.finish[1 - self.along]
        return (v - first) * (1 if last > first else -1)

    def v(self, member: Member, run: float) -> float:
        """Where across the row ``run`` mm from a truss's ``from`` end lies."""
        first, last = member.start[1 - self.along], member.finish[1 - self.along]
        return first + run * (1 if last > first else -1)

    def spot(self, u: float, v: float) -> Point:
        """The plan point at ``u`` along and ``v`` across."""
        return (u, v) if self.along == 0 else (v, u)

    def eave(self, side: Side) -> float:
        """Where across the row the outside of one plate lies, mm."""
        return self.low if side == 1 else self.high

    def end(self, member: Member, side: Side) -> Literal[0, 1]:
        """Index of the end of a truss that is on that side of the row."""
        from_is_low = member.start[1 - self.along] < member.finish[1 - self.along]
        return 0 if from_is_low == (side == 1) else 1

    def between(self, member: Member, v1: float, v2: float) -> tuple[float, float]:
        """The runs along a truss between two places across the row, mm, the lesser first."""
        first, last = sorted((self.run(member, v1), self.run(member, v2)))
        return first, last


def row_lines(layout: Layout) -> Iterator[RowLines]:
    """Yield every row of two or more trusses that run straight across a wing."""
    rects = {wing.id: wing.rect for wing in layout.wings}
    for row, tags in layout.rows.items():
        members = [layout.by_tag[tag] for tag in tags if layout.by_tag[tag].kind in PARALLEL]
        if len(members) < 2:
            continue
        along: Literal[0, 1] = 0 if members[0].start[0] == members[0].finish[0] else 1
        rect = rects[members[0].wing]
        members.sort(key=lambda member: member.start[along])
        faces = (end.at[1 - along] for member in members for end in member.ends if end.on_ledger)
        yield RowLines(row, along, rect[1 - along], rect[3 - along], tuple(members), next(faces, None))
