"""The house that questions are asked about: a level with its layout, loads and order worked out once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from trainer.layout import Layout, Member, Share, lay_out, loads
from trainer.layout.bays import Bay, bays
from trainer.layout.marks import centre_run
from trainer.level import Level
from trainer.order import LevelAsks, Order, Step, as_good, order_of
from trainer.plan import Point, Wall, hooked_at, taped
from trainer.session import job_of
from trainer.site import Job, Site, start
from trainer.terms import STAGES, TrussKind

WORK = frozenset({"stand", "brace", "fix"})
EXACT = 0.01
"""Measures of a layout that differ by less are the same, mm."""


@dataclass(frozen=True)
class Subject:
    """A level and its layout, with what questions need of them."""

    level: Level
    layout: Layout

    @cached_property
    def load(self) -> Mapping[str, Share]:
        """The load of each truss."""
        return loads(self.layout)

    @cached_property
    def site(self) -> Site:
        """The site before anything is done."""
        return start(self.job)

    @cached_property
    def job(self) -> Job:
        """The job that the level sets."""
        return job_of(self.level, 0, layout=self.layout)

    @cached_property
    def days(self) -> dict[int, Job]:
        """Jobs by their seed, as far as they have been wanted."""
        return {}

    @cached_property
    def nothing_on(self) -> set[tuple[str, int]]:
        """(rule, seed) of the days on which its mistake has no room, or can't be shown in a few lines."""
        return set()

    def day(self, seed: int) -> Job:
        """The job that the level sets under a seed; the same one each time, so that days drawn for it are kept."""
        if seed not in self.days:
            self.days[seed] = job_of(self.level, seed, layout=self.layout)
        return self.days[seed]

    @cached_property
    def work(self) -> Job:
        """The job as pages of a diary have it: standing, bracing and fixing, with all else done."""
        return Job(self.layout, station_tolerance=self.job.station_tolerance, stages=WORK)

    @cached_property
    def before(self) -> Mapping[str, Mapping[str, tuple[str, str]]]:
        """For each tag, the tags that must or should stand first, or that usually do, each with (strength, reason)."""
        asked = LevelAsks(advice=frozenset(self.level.order_advice))
        return standing_order(order_of(self.layout, frozenset(STAGES), asked), self.layout)

    @cached_property
    def bays(self) -> Mapping[str, tuple[Bay, ...]]:
        """The bays on either side of each truss."""
        return bays(self.layout)

    @property
    def slope(self) -> float:
        """Rise over run of the planes."""
        return self.layout.house.roof.slope

    @property
    def spacing(self) -> int:
        """The level's spacing, mm."""
        return self.layout.house.trusses.spacing

    def of_kind(self, *kinds: TrussKind) -> list[Member]:
        """The trusses of these kinds, in the layout's order."""
        return [member for member in self.layout.members if member.kind in kinds]

    def tape(self, member: Member, end: int) -> tuple[Wall, float]:
        """The wall that an end (1 or 2) bears on, and what the tape shows there at its centre line, mm."""
        plan = self.layout.house.plan
        wall = plan.by_name[member.ends[end - 1].wall]
        return wall, taped(plan, wall, centre_run(self.layout, member, end))

    def hooked_at(self, wall: Wall) -> str:
        """What the corner of a wall is called that the tape is hooked on, as on the drawings."""
        return hooked_at(self.layout.house.plan, wall)

    def tapes(self, wall: Wall) -> list[tuple[float, Member]]:
        """Every truss with a mark on a wall, by what the tape shows there, mm; corners left out."""
        bearing = f"plate {wall.name}"
        found = [
            (self.tape(member, end)[1], member)
            for member in self.layout.members
            for end in (1, 2)
            if member.ends[end - 1].bears_on == bearing and member.kind != "hip"
        ]
        return sorted(((at, member) for at, member in found if 0 < at < wall.length), key=lambda each: each[0])

    def walls_under(self, member: Member) -> list[tuple[int, Wall]]:
        """(end, wall) for each end on a plate."""
        walls = self.layout.house.plan.by_name
        return [(n, walls[e.wall]) for n, e in enumerate(member.ends, 1) if e.on_plate]

    def end_wall(self, member: Member) -> Wall | None:
        """The wall parallel to a truss from whose outside its station counts; none where there is no such wall."""
        across = 0 if member.start[0] == member.finish[0] else 1
        for wall in self.layout.house.plan.walls:
            if wall.a[across] != wall.b[across]:
                continue
            inward = (member.start[across] - wall.a[across]) * wall.inward[across]
            low, high = sorted((wall.a[1 - across], wall.b[1 - across]))
            first, last = sorted((member.start[1 - across], member.finish[1 - across]))
            if abs(inward - member.station) < EXACT and low < last and first < high:
                return wall
        return None

    def gable_wall(self, gable: Member) -> tuple[Wall, float] | None:
        """The gable wall that a gable truss stands at, and how far its middle is in from the wall's outside, mm."""
        across = 0 if gable.start[0] == gable.finish[0] else 1
        beside = [
            (abs(gable.start[across] - wall.a[across]), wall.index)
            for wall in self.layout.house.plan.walls
            if wall.gable and wall.a[across] == wall.b[across]
        ]
        near, index = min(beside, default=(math.inf, -1))
        return (self.layout.house.plan.walls[index], near) if near < self.spacing else None

    def corner_at(self, at: Point) -> tuple[Wall, Wall] | None:
        """The two walls that meet at a corner of the plates, the one that ends there first."""
        walls = self.layout.house.plan.walls
        for i, wall in enumerate(walls):
            if math.dist(wall.a, at) < EXACT:
                return walls[i - 1], wall
        return None


def subject_of(level: Level, layout: Layout | None = None) -> Subject:
    """Return the subject of a level; ``layout`` saves working it out again.

    :raises LayoutRefused: where the level's house can't be laid out.
    """
    return Subject(level, layout or lay_out(level.house()))


def standing_order(order: Order, layout: Layout) -> dict[str, dict[str, tuple[str, str]]]:
    """For each tag, the tags whose truss stands before it: tag to (strength, reason), must first.

    Strengths are ``must``, ``should``, and ``as good`` where the other way round is right as well.
    """
    found: dict[str, dict[str, tuple[str, str]]] = {}
    for member in layout.members:
        edges = order.into.get(Step("stand", member.tag), ())
        firsts: dict[str, tuple[str, str]] = {}
        for edge in sorted(edges, key=lambda e: e.strength != "must"):
            if edge.strength != "can" and edge.first.tag != member.tag:
                strength = "as good" if edge.first.verb == "stand" and as_good(layout, edge) else edge.strength
                firsts.setdefault(edge.first.tag, (strength, edge.why))
        found[member.tag] = firsts
    return found


def cosine(subject: Subject) -> float:
    """The cosine of the pitch: level run over length on the slope."""
    return math.cos(math.radians(subject.layout.house.roof.pitch))


def tags_of(members: Iterable[Member]) -> tuple[str, ...]:
    """The tags of some trusses."""
    return tuple(member.tag for member in members)
