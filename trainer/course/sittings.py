"""The course in sittings of one evening each: a return to what was met before, then something new or a part of a house.

A new idea is watched and finished once in its first sitting. It is finished again, with less help, in sittings after
that, between others (spaced and interleaved), and then comes back in its whole house, which is built in parts.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from trainer.course.finish import KIND, Help, help_at
from trainer.course.model import Course, CourseStep
from trainer.drill.registry import KINDS
from trainer.level import Level
from trainer.session import job_of

WATCH = "watch-{step}"
"""What a part of a film that was watched is called in the records."""
WATCH_MINUTES, FINISH_MINUTES = 1.5, 4
"""What these take at most."""
NEW_HOUSE = "new-house-{step}-{time}"
"""The id of the house made new after the chapter that a step ends, the first and the second time."""
BUILDING_MINUTES = 11
"""What a sitting takes, without what is due for review and the reasons asked after it."""
PART_MINUTES = 5
"""What one part of a whole house takes at most, so that a return has room beside it."""


@dataclass(frozen=True, slots=True)
class Watch:
    """The part of a film in which a step's idea is seen."""

    step: CourseStep
    minutes: float = WATCH_MINUTES

    @property
    def name(self) -> str:
        """What it is called in the records."""
        return WATCH.format(step=self.step.id)


@dataclass(frozen=True, slots=True)
class FinishIt:
    """A house built but for a step's idea, the time ``number``, from 1; after the last time of the course once more."""

    step: CourseStep
    number: int

    @property
    def minutes(self) -> float:
        """What it takes at most."""
        usual = KINDS[self.step.drill].minutes if self.step.drill else FINISH_MINUTES
        return self.step.finish_minutes or usual

    @property
    def name(self) -> str:
        """What it is called in the records."""
        return KIND.format(step=self.step.id, number=self.number)

    @property
    def house(self) -> str:
        """On which house of the course: once more on each in turn, unless one is made new for it."""
        return self.step.finish[(self.number - 1) % len(self.step.finish)]

    @property
    def once_more(self) -> bool:
        """Whether it comes after all of the course's own times."""
        return self.number > len(self.step.finish)

    @property
    def helped(self) -> Help:
        """How much help there is."""
        return help_at(self.step, self.number)


@dataclass(frozen=True, slots=True)
class Build:
    """The part ``number``, from 1, of ``parts`` of a whole house, in which the ideas of ``steps`` come back."""

    house: str
    number: int
    parts: int
    minutes: float
    steps: tuple[CourseStep, ...] = field(repr=False, default=())

    @property
    def new(self) -> bool:
        """Whether the house is made new, so that nobody has seen it before."""
        return is_new_house(self.house)


Part = Watch | FinishIt | Build


@dataclass(frozen=True, slots=True)
class Sitting:
    """What one evening holds of the course, in order."""

    parts: tuple[Part, ...]

    @property
    def minutes(self) -> float:
        """What it takes at most."""
        return sum(part.minutes for part in self.parts)

    @property
    def new(self) -> CourseStep | None:
        """The step whose idea is new in it."""
        return next((part.step for part in self.parts if isinstance(part, Watch)), None)


@dataclass(frozen=True)
class Done:
    """What somebody has done of the course, as the records say it.

    ``drills`` counts by their names those that came to their end, ``built`` are the houses that were handed over, and
    ``share`` says how far those have come that were begun, from 0 to 1. ``ended`` says when houses made new were first
    handed over (UTC).
    """

    drills: Mapping[str, int] = field(default_factory=dict)
    built: frozenset[str] = frozenset()
    share: Mapping[str, float] = field(default_factory=dict)
    ended: Mapping[str, datetime] = field(default_factory=dict)

    def has(self, part: Part) -> bool:
        """Whether a part is done. What was finished once need not be watched any more."""
        match part:
            case Watch():
                return any(self.drills.get(name, 0) for name in (part.name, FinishIt(part.step, 1).name))
            case FinishIt():
                return bool(self.drills.get(part.name, 0))
            case Build(house=house):
                reached = self.share.get(house, 0.0) * part.parts >= part.number
                return house in self.built or (reached and part.number < part.parts)

    def once_more(self, step: CourseStep) -> FinishIt | None:
        """Return the next time that a step's idea is finished once more; None until all of its own times are done."""
        number = 1
        while self.has(FinishIt(step, number)):
            number += 1
        part = FinishIt(step, number)
        return part if part.once_more else None

    def of_step(self, step: CourseStep) -> tuple[int, int]:
        """Return how many of a step's own parts are done, and of how many: watched, finished, built."""
        parts: list[Part] = [Watch(step), *(FinishIt(step, n + 1) for n in range(len(step.finish)))]
        done = [*map(self.has, parts), step.whole in self.built]
        return sum(done), len(done)


def sittings(course: Course, minutes: Mapping[str, int]) -> tuple[Sitting, ...]:
    """Return all sittings of a course, in order; ``minutes`` says by its id how long a whole house takes."""
    mains = deque(_mains(course, minutes))
    returns: deque[Part] = deque()
    found: list[Sitting] = []
    while mains or returns:
        parts: list[Part] = [returns.popleft()] if returns else []
        while returns and not mains and sum(part.minutes for part in (*parts, returns[0])) <= BUILDING_MINUTES:
            parts.append(returns.popleft())
        new: CourseStep | None = None
        while mains and sum(part.minutes for part in (*parts, *mains[0])) <= BUILDING_MINUTES:
            first = mains[0][0]
            building = any(isinstance(part, Build) for part in parts)
            if new is not None or (building and isinstance(first, Watch)):
                break  # a night between what is new and a whole house
            new = first.step if isinstance(first, Watch) else None
            parts += mains.popleft()
        found.append(Sitting(tuple(parts)))
        if new is not None:
            returns.extend(FinishIt(new, n) for n in range(2, len(new.finish) + 1))
    return tuple(found)


def _mains(course: Course, minutes: Mapping[str, int]) -> Iterator[tuple[Part, ...]]:
    """Yield what sittings are filled with, in the order of the course, each to be done in one go."""
    for number, step in enumerate(course.steps):
        yield Watch(step), FinishIt(step, 1)
        if all(step.whole != later.whole for later in course.steps[number + 1 :]):
            yield from ((part,) for part in _house(course, step.whole, minutes[step.whole]))
        yield from ((part,) for part in new_house_parts(course, step, 1))


def _house(course: Course, house: str, minutes: int) -> Iterator[Build]:
    yield from _in_parts(house, minutes, tuple(step for step in course.steps if step.whole == house))


def new_house_parts(course: Course, step: CourseStep, time: int) -> tuple[Build, ...]:
    """Return the parts of the house made new after a step, the first or the second time; none where it has none."""
    new = step.new_house
    if new is None:
        return ()
    return tuple(_in_parts(new_house_id(step.id, time), new.minutes, tuple(map(course.step, new.asks))))


def _in_parts(house: str, minutes: int, steps: tuple[CourseStep, ...]) -> Iterator[Build]:
    parts = -(-minutes // PART_MINUTES)
    yield from (Build(house, n, parts, minutes / parts, steps) for n in range(1, parts + 1))


def new_house_id(step: str, time: int) -> str:
    """Return the id of the house made new after a step, the first or the second time."""
    return NEW_HOUSE.format(step=step, time=time)


def is_new_house(house: str) -> bool:
    """Whether this is the id of a house made new after a chapter."""
    return house.startswith(NEW_HOUSE.partition("{")[0])


def steps_of(level: Level) -> int:
    """Return how many steps a whole house has: about as many acts as it takes.

    :raises LayoutRefused: where the house can't be laid out.
    """
    return len(job_of(level, 1).order.steps)


def next_sitting(course: Course, minutes: Mapping[str, int], done: Done) -> Sitting | None:
    """Return what is left of the next sitting that is not all done; None where the course is."""
    for sitting in sittings(course, minutes):
        left = tuple(part for part in sitting.parts if not done.has(part))
        if left:
            return Sitting(left)
    return None
