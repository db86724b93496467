"""``trainer today``: what a quarter of an hour holds today, and what of the course is done."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from functools import partial
from typing import TYPE_CHECKING

from trainer.cli.data import DataFolder, folder_of, records_explained
from trainer.cli.given import given_level, show
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.course import Course, Done, Part, Today
    from trainer.level import Level
    from trainer.records.attempt import RecordedHouse


def today(data: DataFolder = None) -> None:
    """Print what today holds.

    Some minutes of what is due, ten of building, two of why: a quarter of an hour. On the board Today's work leads
    through it.
    """
    from trainer.course import today as plan_of
    from trainer.records.answers import history
    from trainer.records.course import course_done
    from trainer.records.practice import last_house
    from trainer.records.seat import Seat
    from trainer.shipped.course import course

    wholes = {step.whole: given_level(step.whole) for step in course().steps}
    minutes = {house: level.lesson.minutes or 0 for house, level in wholes.items()}
    with records_explained():
        seat = Seat.open(folder_of(data))
        try:
            done = course_done(seat, partial(_steps_of, wholes))
            now = datetime.fromtimestamp(seat.clock() / 1000, UTC)
            seen, last = history(seat.store, seat.code), last_house(seat.store, seat.code)
            plan = plan_of(course(), minutes, done, seen, now, 1, last)
        finally:
            seat.leave()
    show("\n".join(_in_words(plan, course(), done)))


def _steps_of(wholes: Mapping[str, Level], house: RecordedHouse) -> int:
    from trainer.course import steps_of
    from trainer.course.sittings import is_new_house
    from trainer.level import parse_level

    if is_new_house(house.level):
        return steps_of(parse_level(house.text, house.level))
    return steps_of(wholes[house.level]) if house.level in wholes else 0


def _in_words(plan: Today, course: Course, done: Done) -> list[str]:
    minutes = round(plan.minutes)
    lines = [ngettext("Today's work: about {n} minute.", "Today's work: about {n} minutes.", minutes).format(n=minutes)]
    if n := len(plan.review):
        lines.append(ngettext("{n} question on what is due", "{n} questions on what is due", n).format(n=n))
    lines += [_part(part) for part in (plan.building.parts if plan.building else ())]
    if n := len(plan.why):
        lines.append(ngettext("{n} question on why", "{n} questions on why", n).format(n=n))
    lines.append("")
    for number, step in enumerate(course.steps, 1):
        n, of = done.of_step(step)
        lines.append(_("{n} of {of} done: {number}. {what}").format(n=n, of=of, number=number, what=step.title))
    return lines


def _part(part: Part) -> str:
    from trainer.course import Build, FinishIt, Watch

    match part:
        case Watch():
            return _("Watch it: {what}, {house}").format(what=part.step.title, house=part.step.watch)
        case FinishIt(once_more=True):
            return _("Finish it once more: {what}").format(what=part.step.title)
        case FinishIt():
            return _("Finish it: {what}, {house}").format(what=part.step.title, house=part.house)
        case Build() if part.new:
            text = _("A new house, with no help, part {n} of {parts}")
            return text.format(n=part.number, parts=part.parts)
        case Build():
            text = _("Build {house}, part {n} of {parts}")
            return text.format(house=part.house, n=part.number, parts=part.parts)
