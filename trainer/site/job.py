"""What does not change while a house is built: the layout, the level's limits, and what follows from both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from trainer.layout import Layout
from trainer.layout.bays import Bay, bays
from trainer.layout.bracing import BracingSpec, Restraint, Want, bracing_plan
from trainer.layout.hip_ends import HipEndTags, hip_ends
from trainer.layout.inner_walls import InnerWall, WallSpot, inner_walls, wall_spots
from trainer.layout.marks import along_bearing, centre_run, mark_run
from trainer.layout.model import Crossing, Member
from trainer.layout.row_lines import RowLines, row_lines
from trainer.layout.shares import Share, loads
from trainer.level.dangers import Lifting
from trainer.level.instructions import ADVICE, TieDown
from trainer.order import Late, LevelAsks, Order, Step, marks_end, needs_bracket, order_of
from trainer.order.inspection import sample
from trainer.order.pre_start import fault_step
from trainer.order.verge import frames
from trainer.site.conditions import Conditions, Flaw, Limits
from trainer.site.ground import Ground
from trainer.site.lifting import Lift, lifts
from trainer.site.next_places import next_places
from trainer.site.place import Places
from trainer.terms import STAGES, TrussKind

BAY = 1.5
"""A tie holds a truss to a neighbour no further off than this many spacings: a bay, not two.

The half lets a truss stand as far off its station as somebody may put it.
"""


@dataclass(frozen=True, slots=True)
class Hung:
    """An end (1 or 2) of the place ``tag`` that hangs in a bracket ``part``, ``at`` mm from its carrier's ``from``."""

    tag: str
    end: int
    part: str
    at: float


@dataclass(frozen=True, slots=True)
class Station:
    """Where a mark belongs, mm along what it is on: for an end (1 or 2) of the place ``tag``."""

    run: float
    tag: str
    end: int


@dataclass(frozen=True)
class Job:
    """What does not change while a house is built: the reference layout, and the level's own limits.

    ``station_tolerance`` in mm; ``stages`` are those that the learner does (the others count as done);
    ``undo_allowed`` is false in assessment; ``seed`` feeds whatever is imperfect on this site, beside the
    ``conditions`` that it is found in; ``limits`` say how true a truss must stand; ``advice`` what this house
    asks to be stood first; ``tie_down`` how hard the wind lifts and what each connector holds; ``bracing`` the
    bracing it asks for; ``gable_framing`` whether the learner frames its gables.
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

    def __hash__(self) -> int:
        """Of little of it, so that it costs nothing to look up what was kept of a job."""
        return hash((self.seed, self.stages, len(self.layout.members)))

    @cached_property
    def order(self) -> Order:
        """The one precedence graph of this job."""
        flaws = [(i, flaw) for i, flaw in enumerate(self.conditions.flaws) if self.limits.matters(flaw)]
        faults = tuple((number, flaw.where or flaw.what) for number, flaw in flaws if not flaw.after)
        asked = LevelAsks(
            self.conditions.checks,
            faults,
            self.advice,
            sample(self.layout),
            self.restraints,
            self.conditions.day,
            self.gable_frames,
            tuple(sorted(Late(flaw.after, _late_step(number, flaw)) for number, flaw in flaws if flaw.after)),
            tuple(self.lifts) if self.conditions.lifting else (),
            self.conditions.loading,
        )
        return order_of(self.layout, self.stages, asked)

    @cached_property
    def lifts(self) -> Mapping[TrussKind, Lift]:
        """What there is to lift of each kind of truss."""
        return lifts(self.layout, (self.conditions.lifting or Lifting()).density)

    @cached_property
    def gable_frames(self) -> tuple[tuple[str, int], ...]:
        """(gable truss, number of the part) for all framing of gables that is asked for."""
        return frames(self.layout, self.gable_framing)

    @cached_property
    def restraints(self) -> tuple[Restraint, ...]:
        """The reference plan of permanent bracing."""
        return bracing_plan(self.layout, self.bracing)

    @cached_property
    def _restraints(self) -> Mapping[str, Restraint]:
        return {piece.name: piece for piece in self.restraints}

    @cached_property
    def brace_wants(self) -> Mapping[str, tuple[Want, ...]]:
        """What the roof braces of each row are wanted for."""
        found: dict[str, dict[Want, None]] = {}
        for piece in self.restraints:
            if piece.kind == "roof brace":
                found.setdefault(piece.row, {}).update(dict.fromkeys(piece.wants))
        return {row: tuple(wants) for row, wants in found.items()}

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
        for wall in (wall for wall in plan.walls if not wall.against):
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
    def next_places(self) -> Mapping[str, frozenset[str]]:
        """The places a bay away on either side of each that tips, as the row is drawn."""
        return next_places(self.layout, BAY * self.layout.house.trusses.spacing)

    @cached_property
    def hip_ends(self) -> tuple[HipEndTags, ...]:
        """The hip ends with a truncated girder."""
        return hip_ends(self.layout)

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
    def marks(self) -> Mapping[tuple[str, int], tuple[str, float]]:
        """(wall's name or tag, mm along it) of the mark for each end of a place that has one."""
        stations = self.stations.items()
        return {(each.tag, each.end): (where, each.run) for where, row in stations for each in row}

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
    def loads(self) -> Mapping[str, Share]:
        """The roof that each truss bears, and what reaches each of its ends."""
        return loads(self.layout)

    @cached_property
    def hung(self) -> Mapping[str, tuple[Hung, ...]]:
        """The ends that hang on each carrier, or on each ledger."""
        found: dict[str, list[Hung]] = {}
        for member in self.layout.members:
            for end in (1, 2):
                if needs_bracket(member, end):
                    here = member.ends[end - 1]
                    run = centre_run(self.layout, member, end)
                    found.setdefault(here.bears_on, []).append(Hung(member.tag, end, here.fixing, run))
        return {carrier: tuple(ends) for carrier, ends in found.items()}


def _late_step(number: int, flaw: Flaw) -> Step:
    """What a danger that comes up on the day asks for: lifting stops for wind; anything else is reported."""
    return Step("stop", "", number) if flaw.what == "gust at noon" else fault_step(flaw.where or flaw.what, number)
