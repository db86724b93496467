"""Taking a paper: which questions, what has been answered, and what comes next. A state that never changes.

Questions are kept by their ids and made again from bank and house.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from trainer.quiz.judge import Verdict, judge, read_answer
from trainer.quiz.measure import Unclear
from trainer.quiz.question import Answer, Asked, InOrder, OneOf, Pairs, SomeOf
from trainer.terms import Mode
from trainer.words import _


@dataclass(frozen=True, slots=True)
class Given:
    """One answer: as given, whether it is right, and whether a hint was asked for before it."""

    question: str
    answer: Answer
    right: bool
    hinted: bool = False


@dataclass(frozen=True, slots=True)
class Sitting:
    """A paper being taken: ids of its questions in order, and the answers so far. ``hinted`` is for the next one."""

    mode: Mode
    seed: int
    level: str
    questions: tuple[str, ...]
    given: tuple[Given, ...] = ()
    hinted: bool = False

    @property
    def next(self) -> str | None:
        """The id of the question to be answered next; none at the end."""
        return self.questions[len(self.given)] if len(self.given) < len(self.questions) else None

    @property
    def right(self) -> int:
        """How many answers so far are right."""
        return sum(given.right for given in self.given)


def answered(sitting: Sitting, asked: Asked, answer: Answer) -> tuple[Sitting, Verdict] | Unclear:
    """Return the sitting with the next question answered, and the verdict; an unclear answer changes nothing."""
    if asked.id != sitting.next:
        raise ValueError(f"{asked.id} is not the question to be answered next")
    read = read_answer(asked, answer) if isinstance(answer, str) else answer
    if isinstance(read, Unclear):
        return read
    verdict = judge(asked, read)
    if isinstance(verdict, Unclear):
        return verdict
    given = Given(asked.id, read, verdict.right, sitting.hinted)
    return replace(sitting, given=(*sitting.given, given), hinted=False), verdict


def hint(sitting: Sitting, asked: Asked) -> tuple[Sitting, str] | None:
    """Return the sitting with a hint taken, and the hint; none where there is none, and in an assessment."""
    text = hint_of(asked) if sitting.mode != "assessment" else ""
    return (replace(sitting, hinted=True), text) if text else None


def sums_apart(answers: Iterable[tuple[bool, bool]]) -> str:
    """Say how judgement went and how the sums did: nobody fails as a carpenter for a cosine.

    Of each of the ``answers``: whether it was a sum, and whether it is right. Of one of both alone nothing is said.
    """
    told = list(answers)
    sums, rest = [right for is_sum, right in told if is_sum], [right for is_sum, right in told if not is_sum]
    return apart_in_words(sum(rest), len(rest), sum(sums), len(sums))


def apart_in_words(right: int, all_: int, sums: int, of: int) -> str:
    """Say that so many of all questions of judgement are right, and so many of the sums; empty without either."""
    text = _("Judgement: {right} of {all} right. Sums: {sums} of {of} right.")
    return text.format(right=right, all=all_, sums=sums, of=of) if all_ and of else ""


def hint_of(asked: Asked) -> str:
    """Return what helps with a question and does not tell its answer; empty where nothing does.

    Its own hint; one wrong choice with what is wrong with it; the first of several steps or pairs; or the first step of
    the working.
    """
    if asked.hint:
        return asked.hint
    match asked.task:
        case OneOf() | SomeOf() if asked.written and len(asked.slips) > 1:
            slip = asked.slips[0]
            return _("It is not “{choice}”. {why}").format(choice=slip.text, why=slip.why)
        case InOrder(steps=steps, right=right) if asked.written:
            return _("First comes: {step}.").format(step=steps[right[0]])
        case Pairs(left=left, others=others, right=right) if asked.written:
            return _("One of them: {left} goes with “{other}”.").format(left=left[0], other=others[right[0]])
        case _:
            return asked.working[0] if len(asked.working) > 1 else ""
