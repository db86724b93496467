"""Trusses while a layout is being worked out: before they have tags."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from trainer.layout.model import Leg
from trainer.plan import Point
from trainer.terms import TrussKind


@dataclass(slots=True)
class DraftEnd:
    """One end: on the plate of ``wall`` or the ``ledger`` on its face, on the truss ``carrier``, or on a trimmer."""

    at: Point
    tail: float = 0.0
    wall: str = ""
    carrier: Draft | None = None
    trimmer: str = ""
    ledger: bool = False

    @property
    def bears_on(self) -> str:
        """What it bears on, as the layout says it."""
        if self.carrier:
            return self.carrier.tag
        return self.trimmer or f"{'ledger' if self.ledger else 'plate'} {self.wall}"


@dataclass(eq=False)
class Draft:
    """A truss without a tag. ``sort`` is (row group, along, across) within its wing."""

    kind: TrussKind
    wing: str
    row: str
    sort: tuple[float, ...]
    station: float
    ends: tuple[DraftEnd, DraftEnd]
    top: tuple[tuple[float, float], ...]
    legs: tuple[Leg, ...]
    plies: int = 1
    sits_on: list[Draft] = field(default_factory=list)
    tag: str = ""

    @property
    def carriers(self) -> list[Draft]:
        """What carries it, each once."""
        found: list[Draft] = []
        for carrier in (self.ends[0].carrier, self.ends[1].carrier, *self.sits_on):
            if carrier is not None and carrier not in found:
                found.append(carrier)
        return found

    @property
    def line(self) -> tuple[Point, Point]:
        """Its centre line in plan from its ``from`` end to the end of its extension."""
        (ax, ay), (bx, by) = self.ends[0].at, self.ends[1].at
        span = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        reach = max(span, self.top[-1][0]) if self.kind in ("hip", "jack") else span
        return (ax, ay), (ax + (bx - ax) * reach / span, ay + (by - ay) * reach / span)


@dataclass(frozen=True, slots=True)
class DraftCrossing:
    """Where ``over`` passes over ``under``, and whether it ``bears`` on it."""

    over: Draft
    under: Draft
    at: Point
    what: Literal["extension", "saddle"]
    bears: bool = True


@dataclass(frozen=True, slots=True)
class LooseRafter:
    """A rafter that is no truss: ``on`` is the truss that it is fixed to."""

    on: Draft
    start: Point
    finish: Point
