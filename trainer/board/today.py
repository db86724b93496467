"""Today on this seat: what the records say is done and due, and the plan that comes of it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import partial
from typing import TYPE_CHECKING

from trainer.board.library import entry_of
from trainer.board.quiz_start import reasons_of
from trainer.course import Build, Done, Part, Today, house_of_part, steps_of, today, with_done
from trainer.course.sittings import Sitting, is_new_house
from trainer.course.today import QUESTION_MINUTES
from trainer.level import parse_level
from trainer.quiz.history import Seen
from trainer.records.answers import history
from trainer.records.course import course_done
from trainer.records.errors import RecordsError
from trainer.records.practice import last_house
from trainer.shipped.course import course
from trainer.site.query import held

if TYPE_CHECKING:
    from collections.abc import Mapping

    from trainer.board.library import HouseEntry
    from trainer.board.services import Services
    from trainer.records.attempt import RecordedHouse
    from trainer.site import Site


def wanted_houses() -> frozenset[str]:
    """The houses that have to be read before a day can be planned and gone through."""
    return frozenset(house for step in course().steps for house in (step.watch, step.whole, *step.finish))


@dataclass
class Day:
    """One go at today: its plan, and what of it is done. It is planned anew each time that it is begun."""

    plan: Today
    planned: datetime
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
    def begun(self) -> bool:
        """Whether any of it is done."""
        return bool(self.done or (self.plan.review and self.reviewed))

    @property
    def minutes_left(self) -> float:
        """What the rest of it takes at most."""
        questions = (0 if self.reviewed else len(self.plan.review)) + (0 if self.asked_why else len(self.plan.why))
        return questions * QUESTION_MINUTES + sum(part.minutes for part in self.left)

    @property
    def over(self) -> bool:
        """Whether all of it is done."""
        return self.reviewed and self.asked_why and not self.left


def plan_day(services: Services, entries: Mapping[str, HouseEntry], done: Done) -> Day:
    """Plan what to do now, with what is done so far."""
    minutes = {step.whole: entries[step.whole].level.lesson.minutes or 0 for step in course().steps}
    seat, seen, now, last = services.records.seat(), list[Seen](), now_of(services), None
    if seat is not None:
        try:
            seen = history(seat.store, seat.code)
            last = last_house(seat.store, seat.code)
        except RecordsError as error:
            services.records.trouble = str(error)
    plan = today(course(), minutes, done, seen, now, services.seed(), last)
    if plan.built is not None and not plan.built.broken and reasons_of(plan.built, 1) is None:
        plan = replace(plan, built=None)  # a house in which nothing waits for anything else has no reasons
    return Day(plan, now, reviewed=not plan.review, asked_why=not plan.why)


def now_of(services: Services) -> datetime:
    """Return what time it is, by the clock of the records where there are any."""
    seat = services.records.seat()
    return datetime.fromtimestamp(seat.clock() / 1000, UTC) if seat is not None else datetime.now(UTC)


def so_far(services: Services, entries: Mapping[str, HouseEntry]) -> Done:
    """Return what is done of the course, by the records, and by memory where there are none."""
    seat = services.records.seat()
    if seat is not None:
        try:
            return course_done(seat, partial(_steps_of, entries))
        except RecordsError as error:
            services.records.trouble = str(error)
    return with_done(Done(), Sitting(tuple(services.ui.memory.get("today/done", ()))))


def _steps_of(entries: Mapping[str, HouseEntry], house: RecordedHouse) -> int:
    """How many steps a house of the course has; of one made new its own text says so."""
    if is_new_house(house.level):
        return steps_of(parse_level(house.text, house.level))
    return steps_of(entries[house.level].level) if house.level in wanted_houses() else 0


def new_entry(services: Services, house: str) -> HouseEntry:
    """Make the house that nobody has seen, for who works here today."""
    seat = services.records.seat()
    code = seat.code if seat is not None else ""
    return entry_of(house_of_part(course(), house, code, now_of(services).date()))


def reached(part: Build, acts: int, steps: int) -> bool:
    """Whether so many acts on a house of so many steps are all that a part of it wants."""
    return acts * part.parts >= part.number * steps


def safe(site: Site) -> bool:
    """Whether all that stands is held, so that the work can be left."""
    return all(held(site, tag) for tag in site.at_place.values())


def note_done(services: Services, day: Day, part: Part) -> None:
    """Note that a part of today is done."""
    day.done.append(part)
    services.ui.memory["today/done"] = (*services.ui.memory.get("today/done", ()), part)
