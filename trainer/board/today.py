"""Today on this seat: what the records say is done and due, and the plan that comes of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import lru_cache
from typing import TYPE_CHECKING

from trainer.course import Build, Course, Done, Part, Today, parse_course, today, with_done
from trainer.course.sittings import Sitting
from trainer.layout import lay_out
from trainer.records.answers import history
from trainer.records.drills import times_done
from trainer.records.errors import RecordsError
from trainer.session import job_of
from trainer.shipped import course_path, level_paths
from trainer.site.query import held

if TYPE_CHECKING:
    from trainer.board.library import HouseEntry
    from trainer.board.services import Services
    from trainer.level import Level
    from trainer.site import Site


@lru_cache(1)
def course() -> Course:
    """Read the shipped course, once; a faulty shipped file is a fault of the program."""
    path = course_path()
    return parse_course(path.read_bytes(), str(path), [each.stem for each in level_paths()])


def wanted_houses() -> frozenset[str]:
    """The houses that have to be read before a day can be planned."""
    return frozenset(step.whole for step in course().steps)


@dataclass
class Day:
    """One go at today: its plan, and what of it is done. It is planned anew each time that it is begun."""

    plan: Today
    reviewed: bool = False
    asked_why: bool = False
    done: list[Part] = field(default_factory=list)
    """What was done since it was planned; also where nothing is recorded."""

    @property
    def left(self) -> tuple[Part, ...]:
        """What is still to be built of it."""
        parts = self.plan.building.parts if self.plan.building else ()
        return tuple(part for part in parts if part not in self.done)

    @property
    def over(self) -> bool:
        """Whether all of it is done."""
        return self.reviewed and self.asked_why and not self.left


def plan_day(services: Services) -> Day:
    """Plan what to do now."""
    entries = {entry.id: entry for entry in services.library.entries} if services.library else {}
    minutes = {house: entries[house].level.lesson.minutes or 0 for house in wanted_houses() if house in entries}
    seat = services.records.seat()
    now, seen = datetime.now(UTC), []
    if seat is not None:
        now = datetime.fromtimestamp(seat.clock() / 1000, UTC)
        try:
            seen = history(seat.store, seat.code)
        except RecordsError as error:
            services.records.trouble = str(error)
    plan = today(course(), minutes, so_far(services, entries), seen, now, services.seed())
    return Day(plan, reviewed=not plan.review, asked_why=not plan.why)


def so_far(services: Services, entries: Mapping[str, HouseEntry]) -> Done:
    """Return what is done of the course, by the records, and by memory where there are none."""
    seat, path = services.records.seat(), services.path
    drills: Mapping[str, int] = {}
    if seat is not None:
        try:
            drills = times_done(seat.store, seat.code)
        except RecordsError as error:
            services.records.trouble = str(error)
    path.look()
    built = frozenset(house for house, done in path.done.items() if done.tries)
    begun = {house: attempt.houses[-1].acts for house, attempt in path.begun.items() if house in wanted_houses()}
    share = {house: len(acts) / steps_of(entries[house].level) for house, acts in begun.items() if house in entries}
    done = Done(drills, built, share)
    if seat is None:
        done = with_done(done, Sitting(tuple(services.ui.memory.get("today/done", ()))))
    return done


def steps_of(level: Level) -> int:
    """How many steps a whole house has."""
    return len(job_of(level, 1, layout=lay_out(level.house())).order.steps)


def reached(part: Build, acts: int, steps: int) -> bool:
    """Whether so many acts on a house of so many steps are all that a part of it wants."""
    return acts * part.parts >= part.number * steps


def note_done(services: Services, day: Day, part: Part) -> None:
    """Note that a part of today is done."""
    day.done.append(part)
    services.ui.memory["today/done"] = (*services.ui.memory.get("today/done", ()), part)


def safe(site: Site) -> bool:
    """Whether all that stands is held, so that the work can be left."""
    return all(held(site, tag) for tag in site.at_place.values())
