"""Mastery of a skill, which is the idea of a step: how far somebody has come with it, out of what was done and when.

A skill has been shown; done right with help; done right alone; again a week later; and on a house that nobody had seen.
The last two say most: what was only practised is soon forgotten, and a house known by heart asks for no judgement
(transfer; trade of teaching).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from trainer.course.finish import help_at
from trainer.course.model import Course, CourseStep
from trainer.course.sittings import FinishIt, Watch, new_house_id
from trainer.terms import TrussKind
from trainer.words import _

SkillState = Literal["shown", "helped", "alone", "later", "new"]
STATES: tuple[SkillState, ...] = ("shown", "helped", "alone", "later", "new")
"""As they come; all of them are trusses in the small roof of a skill."""
STATE_NAMES: Mapping[SkillState, str] = {
    "shown": _("shown"),
    "helped": _("with help"),
    "alone": _("alone"),
    "later": _("a week later"),
    "new": _("on a new house"),
}
WEEK = timedelta(days=7)
TIMES = 2
"""How often a house made new is asked for after each chapter."""


@dataclass(frozen=True, slots=True)
class TimeDone:
    """One time that something of the course came to its end, under the name of its drill or of its house.

    ``broken`` are all the rules that were broken in it, also those put right on the way; ``right`` says for a drill
    whether it was all right, and is not looked at for a house. Of a house, ``stood`` are the kinds of truss that were
    stood in it, and ``found_of`` those that something was found of.
    """

    name: str
    when: datetime
    right: bool
    hinted: bool
    broken: frozenset[str] = frozenset()
    stood: frozenset[TrussKind] = frozenset()
    found_of: frozenset[TrussKind] = frozenset()


def mastery(course: Course, times: Iterable[TimeDone]) -> dict[str, tuple[SkillState, ...]]:
    """Return the states that each step of a course has come to, by its id, in the order of :data:`STATES`."""
    ordered = sorted(times, key=lambda each: each.when)
    return {step.id: _states(_reached(course, step, ordered)) for step in course.steps}


def _states(reached: Iterable[tuple[SkillState, datetime]]) -> tuple[SkillState, ...]:
    found: set[SkillState] = set()
    first_alone: datetime | None = None
    for state, when in reached:
        # Who does more has done less as well.
        below = ("shown", "helped", "alone") if state == "new" else STATES[: STATES.index(state)]
        found |= {state, *below}
        if state in ("alone", "new"):
            first_alone = first_alone or when
            if when >= first_alone + WEEK:
                found.add("later")
    return tuple(state for state in STATES if state in found)


def _reached(course: Course, step: CourseStep, times: Sequence[TimeDone]) -> Iterator[tuple[SkillState, datetime]]:
    """Yield what each time says of one step."""
    new = {
        new_house_id(each.id, n)
        for each in course.steps
        if each.new_house and step.id in each.new_house.asks
        for n in range(1, TIMES + 1)
    }
    for done in times:
        if done.name == Watch(step).name:
            yield "shown", done.when
        elif number := _time_of(step, done.name):
            helped = help_at(step, number) == "shown" or done.hinted
            right: SkillState = "helped" if helped else "alone"
            yield (right if done.right else "shown"), done.when
        elif done.name == step.whole and _shows(step, done):
            yield ("helped" if done.hinted else "alone"), done.when
        elif done.name in new and _shows(step, done):
            yield "new", done.when


def _shows(step: CourseStep, house: TimeDone) -> bool:
    """Whether a house that was handed over shows a step's skill: it was done there, and nothing was found in it."""
    kinds = set(step.kinds)
    done = not kinds or bool(kinds & house.stood)
    return done and house.broken.isdisjoint((*step.rules, *step.judged_by)) and house.found_of.isdisjoint(kinds)


def _time_of(step: CourseStep, name: str) -> int:
    """Which time it was that a step's idea was finished, by the name of its drill; 0 where it is another drill's."""
    number = name.rpartition("-")[2]
    return int(number) if number.isdecimal() and FinishIt(step, int(number)).name == name else 0


def holding_back(
    course: Course, house: str, reached: Mapping[str, Collection[SkillState]]
) -> tuple[CourseStep, ...]:  # fmt: skip
    """Return the deciding steps of chapters before the one of a house that nobody has done alone yet.

    Until then the house does not count as done. Houses beside the course are held back by nothing.
    """
    chapters = course.chapters()
    ends = (n for n, steps in enumerate(chapters) if any(step.whole == house for step in steps))
    named = (
        n for n, steps in enumerate(chapters) if any(house in (step.watch, *step.finish) for step in steps)
    )  # fmt: skip
    chapter = next(ends, next(named, 0))
    before = (step for steps in chapters[:chapter] for step in steps)
    return tuple(step for step in before if step.deciding and "alone" not in reached.get(step.id, ()))


def states_in_words(states: Sequence[SkillState]) -> str:
    """Say which states a skill has come to; of the first three, each of which holds the one before it, the last."""
    first = [state for state in STATES[:3] if state in states][-1:]
    said = [STATE_NAMES[state] for state in (*first, *(state for state in STATES[3:] if state in states))]
    return ", ".join(said) or _("not met yet")
