"""What a family of worked questions is, and how its draft becomes a question.

A family is a function of a house and a draw: it picks a truss, a wall or a line, reads the answer off the
layout, the order, the rules or the level, and drafts the question with the answer first and what real
mistakes lead to after it. Everything that all families share happens here: wrong answers that are not
wrong, or alike, are left out; numbers are rounded; choices are put in an order that gives nothing away.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from trainer.chance import chance, pick, shuffled
from trainer.quiz.measure import Unit, amount
from trainer.quiz.question import Amount, Asked, Drawing, OneOf, Slip, SomeOf, Task
from trainer.quiz.unit import Topic, UnitItem
from trainer.quiz.worked.subject import Subject
from trainer.words import _

T = TypeVar("T")
ARITHMETIC = _("arithmetic on this house's layout")
MOST_WRONG = 3
"""Wrong choices beside a right number."""
SHARE_TO_CHOOSE = 0.7
"""Share of numbers that are chosen, where there are real mistakes on the sides drawn; the others are typed."""


class NothingToAsk(Exception):  # noqa: N818 - it is an answer about a house, not a fault of the program
    """Raised where a house has nothing that a family asks about."""


def needs(*there: object) -> None:
    """Go on only where all of it is there; else the house has nothing to ask about."""
    if not all(there):
        raise NothingToAsk


@dataclass(frozen=True, slots=True)
class QuestionChance:
    """Chance for one question: a hash of the seed, the house and the family, and of what is being decided."""

    seed: int
    house: str
    family: str

    def pick(self, choices: Sequence[T], *names: Hashable) -> T:
        """Return one of ``choices``; where there are none, the house has nothing to ask about."""
        needs(choices)
        return pick(choices, self.seed, self.house, self.family, *names)

    def shuffled(self, choices: Sequence[T], *names: Hashable) -> list[T]:
        """Return ``choices`` in an order of chance."""
        return shuffled(choices, self.seed, self.house, self.family, *names)

    def chance(self, *names: Hashable) -> float:
        """Return a number from 0 up to 1."""
        return chance(self.seed, self.house, self.family, *names)


@dataclass(frozen=True, slots=True)
class QuestionDraft:
    """A question before it is put in order: choices have the right ones first, slips are as the mistakes come."""

    text: str
    task: Task
    working: tuple[str, ...]
    slips: tuple[Slip, ...] = ()
    about: tuple[str, ...] = ()
    drawing: Drawing | None = None
    rules: tuple[str, ...] | None = None
    hint: str = ""


_SENTENCE_START = re.compile(r"(?:^|(?<=[.?!] ))[a-z]")

Make = Callable[[Subject, QuestionChance], QuestionDraft]
"""Drafts a question about a house; raises :class:`NothingToAsk`."""


@dataclass(frozen=True, slots=True)
class Family:
    """One family of worked questions. ``why`` is the reason behind the trade, the same for all of them."""

    name: str
    topic: Topic
    difficulty: int
    serves: tuple[UnitItem, ...]
    rules: tuple[str, ...]
    why: str
    safety: str
    source: str
    make: Make
    hint: str = ""

    def ask(self, subject: Subject, seed: int) -> Asked | None:
        """Return this family's question about a house for a seed; none where the house has none."""
        draw = QuestionChance(seed, subject.level.id, self.name)
        try:
            finished = _finished(self.make(subject, draw), draw)
        except NothingToAsk:
            return None
        return Asked(
            id=f"{self.name}.{subject.level.id}.{seed}",
            topic=self.topic,
            difficulty=self.difficulty,
            serves=self.serves,
            text=_with_capitals(finished.text),
            task=finished.task,
            why=self.why,
            source=self.source,
            safety=self.safety,
            working=tuple(map(_with_capitals, finished.working)),
            slips=finished.slips,
            hint=finished.hint or self.hint,
            level=subject.level.id,
            about=finished.about,
            rules=self.rules if finished.rules is None else finished.rules,
            drawing=finished.drawing,
        )


def family(
    *,
    topic: Topic,
    difficulty: int,
    serves: tuple[UnitItem, ...],
    why: str,
    source: str = ARITHMETIC,
    safety: str = "",
    rules: tuple[str, ...] = (),
    hint: str = "",
) -> Callable[[Make], Family]:
    """Turn a function into the family of its name. Its module still has to be listed in :mod:`trainer.quiz.worked`."""
    return lambda make: Family(
        make.__name__.replace("_", "-"), topic, difficulty, serves, rules, why, safety, source, make, hint
    )


def number(
    text: str,
    value: float,
    working: Sequence[str],
    slips: Sequence[tuple[float, str]],
    about: Sequence[str] = (),
    unit: Unit = "mm",
    decimals: int = 0,
    tolerance: float | None = None,
) -> QuestionDraft:
    """Draft a question for a number. Half a unit of the last place is forgiven, or as much as is said."""
    near = 0.5 * 10**-decimals if tolerance is None else tolerance
    known = tuple(Slip(amount(wrong, unit, decimals), why, wrong) for wrong, why in slips)
    return QuestionDraft(text, Amount(value, unit, near, decimals), tuple(working), known, tuple(about))


def one_of(
    text: str,
    right: str,
    wrong: Sequence[tuple[str, str]],
    working: Sequence[str],
    about: Sequence[str] = (),
) -> QuestionDraft:
    """Draft a choice of one among the right one and two or more wrong ones; it needs as many as that."""
    others = dict(wrong)
    others.pop(right, None)
    needs(len(others) > 1)
    slips = tuple(Slip(choice, why) for choice, why in others.items())
    return QuestionDraft(text, OneOf((right, *others), 0), tuple(working), slips, tuple(about))


def some_of(
    text: str,
    right: Sequence[str],
    wrong: Sequence[tuple[str, str]],
    working: Sequence[str],
    about: Sequence[str] = (),
) -> QuestionDraft:
    """Draft a choice of several; it needs something right, and something wrong."""
    good = tuple(dict.fromkeys(right))
    others = {choice: why for choice, why in wrong if choice not in good}
    needs(good, others)
    slips = tuple(Slip(choice, why) for choice, why in others.items())
    return QuestionDraft(text, SomeOf((*good, *others), tuple(range(len(good)))), tuple(working), slips, tuple(about))


def _with_capitals(text: str) -> str:
    """Begin each sentence with a capital, also where it begins with a name from the plan's legend."""
    return _SENTENCE_START.sub(lambda found: found[0].upper(), text)


def _finished(draft: QuestionDraft, draw: QuestionChance) -> QuestionDraft:
    """Round, leave out wrong answers that are right or alike, and shuffle."""
    match draft.task:
        case Amount() as task:
            return _finished_number(draft, task, draw)
        case OneOf(choices=choices):
            order = draw.shuffled(range(len(choices)), "order of choices")
            return replace(draft, task=OneOf(tuple(choices[i] for i in order), order.index(0)))
        case SomeOf(choices=choices, right=right):
            order = draw.shuffled(range(len(choices)), "order of choices")
            now_right = tuple(sorted(order.index(i) for i in right))
            return replace(draft, task=SomeOf(tuple(choices[i] for i in order), now_right))
        case _:
            return draft  # places and lines stand in the order of the roof or the day; the others come shuffled


def _wrong_numbers(value: float, slips: list[Slip], draw: QuestionChance) -> list[Slip] | None:
    """Choose wrong numbers so that the right one, put in order among them, stands at a place drawn evenly.

    None where mistakes don't lead to enough numbers below or above it.
    """
    below = int(draw.chance("place of the right one") * (MOST_WRONG + 1))
    less = [slip for slip in slips if (slip.value or 0.0) < value][:below]
    more = [slip for slip in slips if (slip.value or 0.0) > value][: MOST_WRONG - below]
    return [*less, *more] if len(less) + len(more) == MOST_WRONG else None


def _finished_number(draft: QuestionDraft, task: Amount, draw: QuestionChance) -> QuestionDraft:
    value = round(task.value, task.decimals)
    step = 10.0**-task.decimals
    kept: list[Slip] = []
    for slip in draft.slips:
        wrong = slip.value if slip.value is not None else value
        apart = [abs(wrong - other) for other in (value, *(k.value for k in kept if k.value is not None))]
        if wrong > 0 and min(apart) >= 2 * task.tolerance + step:
            kept.append(replace(slip, value=round(wrong, task.decimals)))
    amounts = replace(task, value=value)
    wrong_ones = _wrong_numbers(value, draw.shuffled(kept, "wrong choices"), draw)
    if wrong_ones is None or draw.chance("typed or chosen") >= SHARE_TO_CHOOSE:
        return replace(draft, task=amounts, slips=tuple(kept))
    right = Slip(amount(value, task.unit, task.decimals), "", value)
    shown = sorted((right, *wrong_ones), key=lambda slip: slip.value or 0.0)
    return replace(draft, task=OneOf(tuple(s.text for s in shown), shown.index(right)), slips=tuple(wrong_ones))
