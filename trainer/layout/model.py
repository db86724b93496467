"""What a layout is made of: wings, members, ends, crossings and parts."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from trainer.plan import PlatePlan, Point, Straightened, Wall, straightened
from trainer.plan.points import middle
from trainer.roof import Roof, RoofSpec, solve
from trainer.roof.rects import Rect
from trainer.terms import TrussKind

TAG_LETTERS: dict[TrussKind, str] = {
    "girder": "G", "truncated_girder": "TG", "hip": "H", "truncated": "T", "jack": "J",
    "creeper": "C", "gable": "GT", "saddle": "S", "standard": "ST", "half": "HF",
}  # fmt: skip
Plane = tuple[Literal["x", "y"], float, int]
"""A roof plane: the line its walls lie on (the axis it runs along, and where), and which way is inward."""


@dataclass(frozen=True, slots=True)
class TrussSpec:
    """A fabricator's habits, as the level gives them; whole mm."""

    spacing: int = 600
    setback: int = 1800
    thickness: int = 35
    girder_plies: int = 2
    stations_to: Literal["centre line", "near face"] = "centre line"
    smallest_saddle: int = 0
    outrigger_depth: int = 90
    gable_stands: Literal["inside plate", "flush"] = "inside plate"
    saddle_overrun: int = 300


@dataclass(frozen=True, slots=True)
class FixingSpec:
    """Which connector fastens an end, as the level gives it.

    A kind's own name is its end on a plate; ``hung`` and ``hung_girder`` hold an end on its carrier, ``crossing`` an
    extension on what it crosses. ``wall_brackets`` is the widest gap between slotted brackets, mm.
    """

    standard: str = "framing anchor"
    girder: str = "tie-down strap"
    truncated_girder: str = "tie-down strap"
    truncated: str = "framing anchor"
    hip: str = "framing anchor"
    jack: str = "framing anchor"
    creeper: str = "framing anchor"
    gable: str = "framing anchor"
    saddle: str = "framing anchor"
    half: str = "framing anchor"
    hung: str = "hanger"
    hung_girder: str = "heavy girder bracket"
    crossing: str = "framing anchor"
    wall_brackets: int = 1800

    def of(self, kind: TrussKind, on_plate: bool) -> str:
        """Return what fastens an end of a truss of this kind; a saddle's sit on top of what carries them."""
        if on_plate or kind == "saddle":
            return str(getattr(self, kind))
        return self.hung_girder if kind in ("girder", "truncated_girder") else self.hung


CONNECTORS = ("framing anchor", "tie-down strap")
"""What can hold an end on a plate, or a saddle on what is under it."""
BRACKETS = ("hanger", "heavy girder bracket")
"""What can hold an end on its carrier."""


@dataclass(frozen=True, slots=True)
class Change:
    """What a teacher fixes of one truss: its ``station``, mm, and the connectors of its two ends; None: as worked out.

    ``truss`` is its tag on the layout without any change.
    """

    truss: str
    station: float | None = None
    fixings: tuple[str | None, str | None] = (None, None)


@dataclass(frozen=True)
class House:
    """All that a layout is worked out from."""

    plan: PlatePlan
    roof: RoofSpec
    trusses: TrussSpec = field(default_factory=TrussSpec)
    fixings: FixingSpec = field(default_factory=FixingSpec)
    changes: tuple[Change, ...] = ()

    @cached_property
    def roof_plan(self) -> PlatePlan:
        """The outline that the roof rises from: the plates', with its fascia straightened."""
        return self.straightened.plan

    @cached_property
    def set_back(self) -> dict[str, float]:
        """How far each wall's plate stands back from the line of the fascia, mm; 0 of most."""
        return {plate.wall: plate.depth for plates in self.straightened.plates.values() for plate in plates}

    @cached_property
    def solved(self) -> Roof:
        """The roof over the plan."""
        return solve(self.plan, self.roof)

    @cached_property
    def straightened(self) -> Straightened:
        """The outline of the roof, and the plates under it."""
        return straightened(self.plan, self.roof.straight_fascia)


@dataclass(frozen=True, slots=True)
class Wing:
    """One rectangle of the house with a roof of its own.

    ``rect`` is the largest rectangle, over all of which the wing's roof is reckoned; ``bodies`` are
    what is left of it beside the wings that run through (none where only its valleys are seen).
    """

    id: str
    rect: Rect
    axis: Literal["x", "y"]
    span: float
    bodies: tuple[Rect, ...]


@dataclass(frozen=True, slots=True)
class Leg:
    """Where a truss holds up one plane of the roof.

    At distance ``h`` (mm, from ``low`` to ``high``) in from the plane's walls it supports the plane at
    ``spot + lean * h`` along the walls, and lies at ``run + per_h * h`` along the truss.
    """

    plane: Plane
    spot: float
    lean: Literal[-1, 0, 1]
    low: float
    high: float
    run: float
    per_h: float


@dataclass(frozen=True, slots=True)
class End:
    """One end of a truss. ``bears_on`` is ``plate X``, ``ledger X``, a tag, or ``trimmer N``; ``tail`` in mm."""

    at: Point
    bears_on: str
    tail: float
    fixing: str

    @property
    def on_plate(self) -> bool:
        """Whether this end bears on a wall's top plate."""
        return self.bears_on.startswith("plate ")

    @property
    def on_ledger(self) -> bool:
        """Whether this end hangs on the ledger along the face of a higher wall."""
        return self.bears_on.startswith("ledger ")

    @property
    def wall(self) -> str:
        """The wall whose plate or ledger this end bears on; none where it bears on a truss."""
        return self.bears_on.split(" ", 1)[1] if self.on_plate or self.on_ledger else ""


@dataclass(frozen=True)
class Member:
    """One truss where it belongs.

    ``top`` is the roof line along it as (run, z) pairs, run from ``ends[0]`` along the truss, tails and
    extensions included, z above the plate. ``row`` names the line of trusses it goes up with.
    """

    tag: str
    kind: TrussKind
    wing: str
    row: str
    station: float
    plies: int
    thickness: float
    ends: tuple[End, End]
    top: tuple[tuple[float, float], ...]
    carried_by: tuple[str, ...]
    legs: tuple[Leg, ...] = field(default=(), repr=False)
    half_of: TrussKind | None = None
    """Of a half truss: what it would be half of, a standard or a truncated truss."""

    @property
    def start(self) -> Point:
        """``from`` of the contract."""
        return self.ends[0].at

    @property
    def finish(self) -> Point:
        """``to`` of the contract."""
        return self.ends[1].at

    @property
    def span(self) -> float:
        """Length in plan between the two ends, mm."""
        (ax, ay), (bx, by) = self.start, self.finish
        return float(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5)

    @property
    def direction(self) -> tuple[float, float]:
        """Unit vector in plan from ``from`` to ``to``."""
        (ax, ay), (bx, by), span = self.start, self.finish, self.span
        return ((bx - ax) / span, (by - ay) / span)

    @property
    def middle(self) -> Point:
        """The place halfway between its ends, in plan."""
        return middle(self.start, self.finish)

    def run(self, at: Point) -> float:
        """Return how far along it, from its ``from``, the place nearest to ``at`` lies, mm."""
        (x, y), (ux, uy) = self.start, self.direction
        return (at[0] - x) * ux + (at[1] - y) * uy

    @property
    def width(self) -> float:
        """Thickness of all plies together, mm."""
        return self.plies * self.thickness

    @property
    def flat_topped(self) -> bool:
        """Whether it is a truncated truss, or half of one."""
        return "truncated" in (self.kind, self.half_of)

    @property
    def full_height(self) -> bool:
        """Whether it is a standard truss, or half of one."""
        return "standard" in (self.kind, self.half_of)

    @property
    def is_dutch(self) -> bool:
        """Whether it is the girder of a dutch gable: one that stands in a row of trusses; an opening's has its own."""
        return self.kind == "girder" and self.row != self.tag

    @cached_property
    def like(self) -> tuple[object, ...]:
        """What makes two trusses the same piece: kind, plies, roof line and how each end is made."""
        return (self.kind, self.plies, self.top, tuple((e.on_plate, e.on_ledger, e.tail) for e in self.ends))


@dataclass(frozen=True, slots=True)
class Crossing:
    """Where ``over`` (an extension or a saddle) passes over and is fixed to ``under``.

    ``bears`` is false where the tips of two extensions only meet: they hold each other in place, and neither carries;
    and where a truss that hangs on a dutch gable's girder has its top on the waling plate: its bracket carries.
    """

    over: str
    under: str
    at: Point
    what: Literal["extension", "saddle"]
    bears: bool = True


@dataclass(frozen=True, slots=True)
class Part:
    """Framing that is not a truss: outrigger, verge rafter, gable stud, trimmer, batten, waling plate, verge ladder.

    ``on`` is the tag of the truss it belongs to; ``start`` and ``finish`` its centre line in plan.
    """

    part: str
    on: str
    start: Point
    finish: Point
    name: str = ""
    top: float | None = None
    """Height of its upper edge above the plate, mm, where the roof over it does not say so: a waling plate's."""


@dataclass(frozen=True)
class Layout:
    """The reference layout of one house."""

    house: House
    wings: tuple[Wing, ...]
    members: tuple[Member, ...]
    parts: tuple[Part, ...]
    crossings: tuple[Crossing, ...]

    @cached_property
    def roof(self) -> Roof:
        """The roof that the trusses carry."""
        return self.house.solved

    @cached_property
    def by_tag(self) -> dict[str, Member]:
        """The members by tag."""
        return {member.tag: member for member in self.members}

    @cached_property
    def carries(self) -> dict[str, tuple[str, ...]]:
        """For each tag, the tags of what it carries directly."""
        carried: dict[str, list[str]] = {member.tag: [] for member in self.members}
        for member in self.members:
            for carrier in member.carried_by:
                carried[carrier].append(member.tag)
        return {tag: tuple(tags) for tag, tags in carried.items()}

    @cached_property
    def runs_over(self) -> dict[str, tuple[str, ...]]:
        """For each truss whose extension crosses truncated trusses or lands on a waling plate past them, their tags."""
        found: dict[str, list[str]] = {}
        for crossing in self.crossings:
            under = self.by_tag[crossing.under]
            if crossing.what == "extension" and crossing.bears and (under.flat_topped or under.is_dutch):
                found.setdefault(crossing.over, []).append(crossing.under)
        return {tag: tuple(under) for tag, under in found.items()}

    @cached_property
    def ledgers(self) -> dict[str, str]:
        """The wall of each ledger that something hangs on, by what an end says that it bears on."""
        return {end.bears_on: end.wall for member in self.members for end in member.ends if end.on_ledger}

    @cached_property
    def at_wall(self) -> dict[str, str]:
        """The higher wall that each truss's top is tied to: of all that run to its ledger, and of what stands at it."""
        found: dict[str, str] = {}
        if not any(wall.against for wall in self.house.plan.walls):
            return found
        for member in self.members:
            hung = next((end.wall for end in member.ends if end.on_ledger), "")
            if wall := hung or next((wall.name for wall in self.house.plan.walls if _face_to(member, wall)), ""):
                found[member.tag] = wall
        return found

    @cached_property
    def rows(self) -> dict[str, tuple[str, ...]]:
        """The tags of each row, in order along it."""
        rows: dict[str, list[str]] = {}
        for member in self.members:
            rows.setdefault(member.row, []).append(member.tag)
        return {row: tuple(tags) for row, tags in rows.items()}

    @property
    def counts(self) -> dict[str, int]:
        """How many of each kind."""
        return dict(Counter(member.kind for member in self.members))


def _face_to(member: Member, wall: Wall) -> bool:
    """Whether a truss that runs across a wing stands with its face against a higher wall."""
    across = 0 if wall.inward[0] else 1
    off = {abs(at[across] - wall.a[across]) for at in (member.start, member.finish)}
    return wall.against and member.kind in ("standard", "half", "gable") and off == {member.width / 2}


@dataclass(frozen=True, slots=True)
class Refusal:
    """One reason why a plan can't be laid out: ``place`` in words, ``at`` on the plan, ``why`` and what to do.

    ``change`` is the index of the house's change that can't be made, where that is the reason.
    """

    place: str
    at: Point
    why: str
    change: int | None = None


class LayoutRefused(Exception):  # noqa: N818 - it is an answer about a plan, not a fault of the program
    """Raised instead of a layout that would be wrong; ``reasons`` holds every one found."""

    def __init__(self, reasons: tuple[Refusal, ...]) -> None:
        super().__init__("; ".join(f"{r.place}: {r.why}" for r in reasons))
        self.reasons = reasons
