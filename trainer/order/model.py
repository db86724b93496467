"""The steps of a job and what comes before what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from trainer.layout.bracing import Restraint
from trainer.layout.model import Member
from trainer.level.instructions import ADVICE
from trainer.terms import StepVerb, TrussKind

Strength = Literal["can", "must", "should"]
"""``can``: the other way round can't be done, or is no use. ``must``: someone gets hurt, or it falls.
``should``: it goes together straight and safe this way."""

TIED: frozenset[TrussKind] = frozenset({"standard", "girder", "truncated_girder", "truncated", "gable", "half"})
"""Kinds that tip over unless braced; the others are held once both their ends are fastened."""
TALL_SADDLE = 900.0
"""A saddle higher than this is tied at its apex as well, mm; common practice, no source."""


def is_tied(member: Member) -> bool:
    """Whether a truss has its top tied as it goes up: all that tip, and tall saddles."""
    return member.kind in TIED or (member.kind == "saddle" and _height(member) > TALL_SADDLE)


def _height(member: Member) -> float:
    """How high the truss's top rises over its own lowest point, mm."""
    heights = [z for _run, z in member.top]
    return max(heights) - min(heights)


class Step(NamedTuple):
    """One thing to be done for the truss whose place is ``tag``, whichever truss stands there.

    ``end`` is the place's end, 1 or 2, for ``mark``, ``fit`` (the bracket for that end, on its carrier)
    and ``fix``; 0 otherwise. For ``check``, ``tag`` is the item; for ``report``, it is the wall or truss
    with the fault, and ``end`` tells several apart: the fault's number, from 0. For ``string``, ``tag`` is
    the first truss of the row that it lines up. ``read`` measures a truss for the inspection: 1 for plumb, 2
    for bow; ``inspect`` accepts or rejects it; of both, ``tag`` is the truss itself, wherever it stands.

    ``join`` joins a truss's plies; ``seat`` puts the batten under a saddle, ``trim`` a trimmer; ``prop`` holds up an
    extension, ``cross`` fixes it at a crossing; ``slot`` puts a slotted bracket between a truss and an internal wall,
    ``bridge`` the trimmer for one. For ``trim``, ``cross``, ``bridge`` and ``slot``, ``end`` is a number from 0: of the
    layout's part, of its crossing, of its wall spot. For ``restrain``, ``tag`` is the name of a piece of the plan of
    permanent bracing. ``frame`` fits a part of a gable, by its number in :data:`trainer.order.verge.FRAMED`.
    ``secure`` makes a row safe for the night; its ``tag`` is the row. ``strike`` takes out temporary bracing that is
    needed no more, and ``clear`` clears a fall; both have no ``tag``. These three are no steps of an order, but come
    between the steps of one: where a day ends, before hand-over, and where something fell. Nor is ``stop``, or a
    ``report`` of what comes up while trusses are lifted. For ``plan``, ``tag`` is the kind of truss; for ``load``,
    which says where the first packs land, it is empty.

    A tuple, since orders and draws look steps up by the hundred thousand, and a tuple's hash is the quickest.
    """

    verb: StepVerb
    tag: str
    end: int = 0


class Late(NamedTuple):
    """What is to be done once so many trusses have been lifted, and before the next is."""

    after: int
    step: Step


@dataclass(frozen=True, slots=True)
class LevelAsks:
    """What a level asks for beside what follows from the layout.

    ``checks`` are pre-start items; ``faults`` the wall or truss of each fault that the site is found with,
    by its number among all of them. ``advice`` are the reasons why something should come first that this
    house goes by; ``inspect`` are the trusses that are inspected; ``restraints`` the permanent bracing; ``day`` how
    many trusses are stood in a day; ``frames`` the framing of gables: gable truss and number of the part. ``late`` is
    what the dangers that come up on the day ask for. ``plans`` are the kinds of truss whose lifting is planned;
    ``loading`` says whether it is asked where the first packs land.
    """

    checks: tuple[str, ...] = ()
    faults: tuple[tuple[int, str], ...] = ()
    advice: frozenset[str] = frozenset(ADVICE)
    inspect: tuple[str, ...] = ()
    restraints: tuple[Restraint, ...] = ()
    day: int | None = None
    frames: tuple[tuple[str, int], ...] = ()
    late: tuple[Late, ...] = ()
    plans: tuple[TrussKind, ...] = ()
    loading: bool = False


NOTHING = LevelAsks()


class Edge(NamedTuple):
    """``first`` comes before ``then``; ``why`` is a short key for the reason."""

    first: Step
    then: Step
    strength: Strength
    why: str


@dataclass(frozen=True)
class Order:
    """The partial order of one job: every step, and the edges into and out of each.

    ``day`` is how many trusses are stood before a night, where there are nights: then all is left tied and steady.
    ``late`` is done between two lifts, with all that stands held.
    """

    steps: tuple[Step, ...]
    into: Mapping[Step, tuple[Edge, ...]]
    out_of: Mapping[Step, tuple[Edge, ...]]
    day: int | None = None
    late: tuple[Late, ...] = ()


def spot(member: Member) -> float:
    """Return where along its row a truss stands, mm; trusses of a row run straight across it."""
    (ax, ay), (bx, _) = member.start, member.finish
    return ax if ax == bx else ay
