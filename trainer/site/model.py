"""The state of the site: what has been marked, fitted, stood, braced and fixed so far.

A :class:`Site` is never changed; :func:`trainer.site.act` returns the next one, which shares with it
all that the action did not touch. Undo is going back to an earlier one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

from trainer.layout import Layout
from trainer.layout.bays import Bay, bays
from trainer.layout.bracing import BracingSpec, Restraint, RestraintKind, bracing_plan
from trainer.layout.inner_walls import InnerWall, WallSpot, inner_walls, wall_spots
from trainer.layout.marks import along_bearing, mark_run
from trainer.layout.model import Crossing, Member
from trainer.layout.row_lines import RowLines, row_lines
from trainer.layout.shares import Load, loads
from trainer.level.as_found import Wind
from trainer.level.instructions import ADVICE, TieDown
from trainer.order import STAGES, Asked, Order, marks_end, needs_bracket, order_of
from trainer.order.inspection import sample
from trainer.order.verge import frames
from trainer.plan import Point
from trainer.site.actions import AnyAction
from trainer.site.conditions import Conditions, Flaw, Limits
from trainer.site.ground import Ground
from trainer.site.place import Places

How = Literal["solid", "batten", "fastened", "permanent", "put right", "given"]
"""What holds a truss: a brace to something solid; a batten to a truss that is held; both ends fastened;
permanent bracing that is tied down; others, who put it right after it was let go unheld; or work that counts
as done on this level."""


@dataclass(frozen=True, slots=True)
class Hung:
    """An end (1 or 2) of the place ``tag`` that hangs in a bracket ``part``, ``at`` mm from its carrier's ``from``."""

    tag: str
    end: int
    part: str
    at: float


@dataclass(frozen=True, eq=False)
class Job:
    """What does not change while a house is built: the reference layout, and the level's own limits.

    ``station_tolerance`` in mm; ``stages`` are those that the learner does (the others count as done);
    ``undo_allowed`` is false in assessment; ``seed`` feeds whatever is imperfect on this site, beside the
    ``conditions`` that it is found in; ``limits`` say how true a truss must stand; ``advice`` what this house
    asks to be stood first; ``tie_down`` how hard the wind lifts and what each connector holds; ``bracing`` the
    permanent bracing it asks for; ``gable_framing`` whether the learner frames its gables.
    """

    layout: Layout
    station_tolerance: float = 10.0
    stages: frozenset[str] = frozenset(STAGES)
    undo_allowed: bool = True
    seed: int = 0
    conditions: Conditions = field(default_factory=Conditions)
    limits: Limits = field(default_factory=Limits)
    advice: frozenset[str] = frozenset(ADVICE)
    tie_down: TieDown = field(default_factory=TieDown)
    bracing: BracingSpec = field(default_factory=BracingSpec)
    gable_framing: bool = False

    @cached_property
    def order(self) -> Order:
        """The one precedence graph of this job."""
        faults = tuple(
            (number, flaw.wall or flaw.tag)
            for number, flaw in enumerate(self.conditions.flaws)
            if self.limits.matters(flaw)
        )
        asked = Asked(
            self.conditions.checks,
            faults,
            self.advice,
            sample(self.layout),
            self.restraints,
            self.conditions.day,
            self.gable_frames,
        )
        return order_of(self.layout, self.stages, asked)

    @cached_property
    def gable_frames(self) -> tuple[tuple[str, int], ...]:
        """(gable truss, number of the part) for all framing of gables that is asked for."""
        return frames(self.layout) if self.gable_framing else ()

    @cached_property
    def restraints(self) -> tuple[Restraint, ...]:
        """The reference plan of permanent bracing."""
        return bracing_plan(self.layout, self.bracing)

    @cached_property
    def _restraints(self) -> Mapping[str, Restraint]:
        return {piece.name: piece for piece in self.restraints}

    def restraint(self, name: str) -> Restraint:
        """The piece of that plan with this name."""
        return self._restraints[name]

    @cached_property
    def rows(self) -> Mapping[str, RowLines]:
        """The rows of two or more parallel trusses, by name."""
        return {lines.row: lines for lines in row_lines(self.layout)}

    @cached_property
    def plates(self) -> tuple[tuple[float, float, float, float], ...]:
        """(least x, least y, greatest x, greatest y) of the top plate of each wall, mm."""
        plan = self.layout.house.plan
        found = []
        for wall in plan.walls:
            (ax, ay), (bx, by), (nx, ny) = wall.a, wall.b, wall.inward
            xs = (ax, bx, ax + nx * plan.plate_width)
            ys = (ay, by, ay + ny * plan.plate_width)
            found.append((min(xs), min(ys), max(xs), max(ys)))
        return tuple(found)

    @cached_property
    def girders(self) -> tuple[Member, ...]:
        """The girders of openings."""
        return tuple(member for member in self.layout.members if member.kind == "girder")

    @cached_property
    def places(self) -> Places:
        """Finds which place of the layout a truss takes."""
        return Places(self.layout)

    @cached_property
    def ground(self) -> Ground:
        """What an end can come down on."""
        return Ground(self.layout)

    @cached_property
    def bays(self) -> Mapping[str, tuple[Bay, ...]]:
        """The bays between neighbours under one roof plane, by the tags of both."""
        return bays(self.layout)

    @cached_property
    def stations(self) -> Mapping[str, tuple[Station, ...]]:
        """Where marks belong, by wall's name or tag, in order along it."""
        found: dict[str, list[Station]] = {}
        for member in self.layout.members:
            for end in (1, 2):
                if marks_end(member, end):
                    where = along_bearing(self.layout, member, end)[0]
                    found.setdefault(where, []).append(Station(mark_run(self.layout, member, end), member.tag, end))
        return {where: tuple(sorted(stations, key=lambda s: s.run)) for where, stations in found.items()}

    @cached_property
    def inner_walls(self) -> tuple[InnerWall, ...]:
        """The straight lengths of internal wall."""
        return inner_walls(self.layout)

    @cached_property
    def wall_spots(self) -> tuple[WallSpot, ...]:
        """Where slotted brackets go on them."""
        return wall_spots(self.layout)

    @cached_property
    def crossings(self) -> Mapping[str, tuple[Crossing, ...]]:
        """The crossings of extensions, by the places of both trusses."""
        found: dict[str, list[Crossing]] = {}
        for crossing in self.layout.crossings:
            if crossing.what == "extension":
                for tag in (crossing.over, crossing.under):
                    found.setdefault(tag, []).append(crossing)
        return {tag: tuple(crossings) for tag, crossings in found.items()}

    @cached_property
    def loads(self) -> Mapping[str, Load]:
        """The roof that each truss bears, and what reaches each of its ends."""
        return loads(self.layout)

    @cached_property
    def hung(self) -> Mapping[str, tuple[Hung, ...]]:
        """The ends that hang on each carrier."""
        found: dict[str, list[Hung]] = {}
        for member in self.layout.members:
            for end in (1, 2):
                if needs_bracket(member, end):
                    here = member.ends[end - 1]
                    run = run_along(self.layout.by_tag[here.bears_on], here.at)
                    found.setdefault(here.bears_on, []).append(Hung(member.tag, end, here.fixing, run))
        return {carrier: tuple(ends) for carrier, ends in found.items()}


def run_along(carrier: Member, at: Point) -> float:
    """Distance of a plan point along ``carrier`` from its ``from``, to 0.5 mm."""
    (x, y), (ux, uy) = carrier.start, carrier.direction
    return round(((at[0] - x) * ux + (at[1] - y) * uy) * 2) / 2


@dataclass(frozen=True, slots=True)
class Off:
    """How far an end stands from where it belongs, mm.

    ``along`` is towards its place's ``to``; ``across`` is to the left of that.
    """

    along: float
    across: float


NOT_OFF = (Off(0.0, 0.0), Off(0.0, 0.0))


@dataclass(frozen=True, slots=True)
class Stood:
    """A truss as it stands, its own ``from`` end at ``start``.

    ``place`` is the tag of the layout member whose place it takes, none where it stands in nobody's.
    ``flipped``: its ``from`` end stands where the place's ``to`` belongs. ``turned``: so that its two ends
    are the wrong way round, which flipping a truss with like ends never is. ``off`` is for the place's
    ``from`` and ``to``; where it takes no place, for those of its own tag's place. ``piece`` is the truss it
    really is, another where tags were swapped; ``turn`` counts how often it was stood before.
    """

    tag: str
    place: str | None
    start: Point
    finish: Point
    flipped: bool
    turned: bool
    off: tuple[Off, Off]
    piece: str
    turn: int = 0

    def own_end(self, place_end: int) -> int:
        """The truss's own end (1 or 2) that stands at the place's end 1 or 2."""
        return 3 - place_end if self.flipped else place_end


@dataclass(frozen=True, slots=True)
class Bracing:
    """One piece of temporary bracing."""

    kind: str
    tags: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Restrained:
    """One piece of permanent bracing on the trusses of ``row``: a straight line in plan.

    ``crosses`` are the trusses that it was put over, in order along the row: each one's tag, and how far along
    it, mm from the ``from`` end of the place that it stands in.
    """

    kind: RestraintKind
    row: str
    start: Point
    finish: Point
    crosses: tuple[tuple[str, float], ...]

    def without(self, tag: str) -> Restrained:
        """The same piece once the truss ``tag`` has been taken from under it."""
        return replace(self, crosses=tuple(cross for cross in self.crosses if cross[0] != tag))


@dataclass(frozen=True, slots=True)
class Fitted:
    """A part on a truss; ``at`` in mm from that truss's ``from`` end, none where it needs no place.

    On a gable truss a set of them: ``every`` so many mm, outriggers ``back`` so many mm in from it.
    """

    part: str
    at: float | None
    every: float | None = None
    back: float | None = None


@dataclass(frozen=True, slots=True)
class Marked:
    """A mark: the measure it is meant to be ``at``, where it really ``is``, mm, and how many tapes lie behind it.

    ``links`` is 1 for a mark measured from an end; one more than the mark that it was measured from, else.
    """

    at: float
    is_at: float
    links: int


@dataclass(frozen=True, slots=True)
class Station:
    """Where a mark belongs, mm along what it is on: for an end (1 or 2) of the place ``tag``."""

    run: float
    tag: str
    end: int


@dataclass(frozen=True, slots=True)
class Fastened:
    """A connector, and how many of it, at one end or crossing."""

    with_: str
    count: int


@dataclass(frozen=True, slots=True)
class Trued:
    """How a straightened truss was lined up: by a line that is itself ``line`` mm off, a string's or the plates'."""

    line: float
    by_string: bool


@dataclass(frozen=True, slots=True)
class Site:
    """The state after ``done`` actions that could be done; ``before`` is the one that undo goes back to.

    All by tag of the truss itself, except ``at_place``: tag of the place to tag of the truss in it.
    ``set_out`` are the marks by wall's name or tag. ``fitted`` by tag of the carrier. ``fixed`` by the
    truss's own end (1, 2) or by the place of a crossing. ``holds`` says how each truss that is held is held.
    ``last_in_row`` is the truss stood last in each row, while it has not been let go. ``astray`` are
    trusses that stand in nobody's place; ``ties`` the trusses that each is tied to. ``readings`` counts
    those taken, by what and of what; ``turns`` how often each truss was stood. ``restrained`` are the trusses
    that permanent bracing holds, so that the temporary bracing may come off them; ``permanent`` its pieces. ``today``
    counts the trusses stood today for the first time, and ``nights`` the nights gone by.
    """

    job: Job
    before: Site | None = field(default=None, repr=False, compare=False)
    done: int = 0
    set_out: Mapping[str, tuple[Marked, ...]] = field(default_factory=dict)
    fitted: Mapping[str, tuple[Fitted, ...]] = field(default_factory=dict)
    stood: Mapping[str, Stood] = field(default_factory=dict)
    at_place: Mapping[str, str] = field(default_factory=dict)
    astray: frozenset[str] = frozenset()
    bracing: tuple[Bracing, ...] = ()
    ties: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    fixed: Mapping[tuple[str, int | Point], tuple[Fastened, ...]] = field(default_factory=dict)
    holds: Mapping[str, How] = field(default_factory=dict)
    permanent: tuple[Restrained, ...] = ()
    restrained: frozenset[str] = frozenset()
    last_in_row: Mapping[str, str] = field(default_factory=dict)
    checked: frozenset[str] = frozenset()
    readings: Mapping[tuple[str, str], int] = field(default_factory=dict)
    put_right: frozenset[Flaw] = frozenset()
    strings: tuple[tuple[str, str], ...] = ()
    plumbed: Mapping[str, Trued] = field(default_factory=dict)
    cuts: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    turns: Mapping[str, int] = field(default_factory=dict)
    today: int = 0
    nights: int = 0
    loads: tuple[str, ...] = ()
    inspected: Mapping[str, bool] = field(default_factory=dict)
    handed_over: bool = False

    @property
    def marks(self) -> Mapping[str, tuple[float, ...]]:
        """Where the marks on each wall and truss really are, mm along it."""
        return {where: tuple(mark.is_at for mark in marks) for where, marks in self.set_out.items()}

    @property
    def flaws(self) -> tuple[Flaw, ...]:
        """What is still wrong of what the site was found with."""
        return tuple(flaw for flaw in self.job.conditions.flaws if flaw not in self.put_right)

    @property
    def layout(self) -> Layout:
        """The reference layout."""
        return self.job.layout


@dataclass(frozen=True, slots=True)
class Refused:
    """An action that nobody could do there, why, and what to do instead; it changes nothing."""

    why: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What a measurement showed, and what it should show, mm."""

    got: float
    want: float


@dataclass(frozen=True, slots=True)
class Night:
    """One night, counted from 1, and its ``wind``; ``let_go`` are the trusses that hands left when the day ended.

    ``unsafe`` are the rows that could rack in a wind, each with its standing trusses that tip; ``fell`` all that lay
    over in the morning.
    """

    number: int
    wind: Wind
    let_go: tuple[str, ...]
    unsafe: tuple[tuple[str, tuple[str, ...]], ...]
    fell: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Event:
    """One accepted action and what came of it. ``index`` counts the diary's actions from 0.

    ``let_go`` are the trusses that this action lets go of: at a ``stand`` the one stood before in its row;
    at hand-over the last of every row; at a ``remove`` those that nothing holds any longer. Whether each
    was held is for :func:`trainer.site.held` on the state before. ``fell`` are the tags of a row that went
    over; after it they stand braced again, as does a truss let go unheld. ``reading`` is what a measurement
    showed, or where a mark really is and where it is meant to be; ``seen`` the flaws that it, or a check,
    brought to light; ``put_right`` those that a report had put right. ``night`` is the one before this action,
    where the day had ended.
    """

    index: int
    action: AnyAction
    let_go: tuple[str, ...] = ()
    fell: tuple[str, ...] = ()
    reading: Reading | None = None
    seen: tuple[Flaw, ...] = ()
    put_right: tuple[Flaw, ...] = ()
    night: Night | None = None
