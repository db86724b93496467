"""Taking a paper: which questions, what has been answered, and what comes next. A state that never changes.

Questions are kept by their ids and made again from bank and house.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from trainer.quiz.judge import Verdict, judge, read_answer
from trainer.quiz.measure import Unclear
from trainer.quiz.question import Answer, Asked
from trainer.terms import Mode


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
    """Return the sitting with a hint taken, and the hint: the first step of the working. None in an assessment."""
    if sitting.mode == "assessment" or len(asked.working) < 2:
        return None
    return replace(sitting, hinted=True), asked.working[0]
