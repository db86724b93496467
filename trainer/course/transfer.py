"""A house that nobody has seen: made new after each chapter, and another one made a week later.

Whether something was learnt shows on a new case, some time later, unaided (transfer; trade of teaching). So nothing of
it is shown before: no film, no drill, no hint; and what was found is said after the hand-over, not at once.
"""

from __future__ import annotations

from datetime import date, datetime

from trainer.chance import chance
from trainer.course.mastery import WEEK
from trainer.course.model import Course, CourseStep
from trainer.course.sittings import (
    BUILDING_MINUTES,
    Build,
    Done,
    FinishIt,
    Sitting,
    new_house_id,
    new_house_parts,
)
from trainer.generate import short_level
from trainer.level import Level

SEEDS = 1_000_000


def new_house(step: CourseStep, time: int, code: str, day: date) -> Level:
    """Return the house that is asked for after a step, the same for the same code name and day.

    KeyError where no chapter ends with the step.
    """
    new = step.new_house
    if new is None:
        raise KeyError(step.id)
    seed = int(chance(0, code, day.isoformat(), step.id, time) * SEEDS)
    level = short_level(seed, new.hard, new.shape, new.minutes)
    lesson = level.lesson.model_copy(update={"hints": False, "unseen": True, "minutes": new.minutes})
    return level.model_copy(update={"id": new_house_id(step.id, time), "lesson": lesson})


def once_more_house(course: Course, part: FinishIt, seed: int) -> Level | None:
    """Return the house made new on which an idea is finished once more, with other figures than the times before.

    None where it is one of its own times, or the chapter has no house that is sure to have the idea.
    """
    chapter = next(each for each in course.chapters() if part.step in each)
    new = chapter[-1].new_house
    if not part.once_more or new is None or part.step.id not in new.asks:
        return None
    return short_level(int(chance(seed, "once more", part.name) * SEEDS), new.hard, new.shape, new.minutes)


def house_of_part(course: Course, house: str, code: str, day: date) -> Level:
    """Return the house made new with this id; KeyError where the course has none."""
    for step in course.steps:
        for time in (1, 2):
            if step.new_house and new_house_id(step.id, time) == house:
                return new_house(step, time, code, day)
    raise KeyError(house)


def asked_again(course: Course, done: Done, now: datetime) -> Sitting | None:
    """Return what is left of a second new house, a week after the first one of its chapter; None where none is due."""
    for step in course.steps:
        first = done.ended.get(new_house_id(step.id, 1))
        if first is None or now < first + WEEK:
            continue
        left = [part for part in new_house_parts(course, step, 2) if not done.has(part)]
        if left:
            return Sitting(_fitting(left))
    return None


def _fitting(left: list[Build]) -> tuple[Build, ...]:
    fits = max(1, int(BUILDING_MINUTES / left[0].minutes))
    return tuple(left[:fits])
