"""Skills for teachers: how far people have come with each idea of the course, and who can't do a deciding one alone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from trainer.course import Course, SkillState, mastery, states_in_words
from trainer.course.mastery import STATE_NAMES, STATES
from trainer.records.attempt import Attempt
from trainer.records.practice import times_in
from trainer.words import _

Table = tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]
"""The head of a table, and its rows."""
NOTE = _(
    "How many people have come so far with each skill: shown, done right with help, alone and without hints, again a "
    "week later, and on a new house that nobody had seen. A skill in which something was found does not count."
)


def skills_of_class(course: Course, attempts: Sequence[Attempt]) -> Table:
    """Return a row for each skill that anybody has met: how many have come to each state, and who is not there yet."""
    whole = [each for each in attempts if not each.silent]
    codes = sorted({each.code for each in whole})
    of_each = {code: mastery(course, times_in(course, [each for each in whole if each.code == code])) for code in codes}
    rows = []
    for step in course.steps:
        reached = {code: of_each[code][step.id] for code in codes}
        if any(reached.values()):
            rows.append((step.title, *_counts(reached.values()), _wanting(reached) if step.deciding else ""))
    head = (_("Skill"), *(name.capitalize() for name in STATE_NAMES.values()), _("Deciding, and not alone yet"))
    return head, tuple(rows)


def _counts(reached: Iterable[Sequence[SkillState]]) -> list[str]:
    every = list(reached)
    return [str(sum(state in each for each in every)) for state in STATES]


def _wanting(reached: dict[str, tuple[SkillState, ...]]) -> str:
    return ", ".join(code for code, states in reached.items() if states and "alone" not in states)


def skills_in(course: Course, attempt: Attempt) -> tuple[tuple[str, str], ...]:
    """Return the skills that one attempt by itself shows, each with how far it goes."""
    reached = mastery(course, times_in(course, [] if attempt.silent else [attempt]))
    return tuple((step.title, states_in_words(reached[step.id])) for step in course.steps if reached[step.id])
