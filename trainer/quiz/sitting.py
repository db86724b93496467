"""Taking a paper: which questions, what has been answered, and what comes next. A state that never changes.

It goes to JSON and back, so that a sitting stopped in the middle goes on where it was. Questions are kept by
their ids and made again from bank and house.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

from trainer.quiz.judge import Verdict, judge
from trainer.quiz.measure import Unclear
from trainer.quiz.question import Answer, Asked

Mode = Literal["practice", "assessment"]


class NotASitting(ValueError):  # noqa: N818 - it is an answer about a file, not a fault of the program
    """Raised where JSON holds no sitting."""


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
    verdict = judge(asked, answer)
    if isinstance(verdict, Unclear):
        return verdict
    given = Given(asked.id, answer, verdict.right, sitting.hinted)
    return replace(sitting, given=(*sitting.given, given), hinted=False), verdict


def hint(sitting: Sitting, asked: Asked) -> tuple[Sitting, str] | None:
    """Return the sitting with a hint taken, and the hint: the first step of the working. None in an assessment."""
    if sitting.mode == "assessment" or len(asked.working) < 2:
        return None
    return replace(sitting, hinted=True), asked.working[0]


def sitting_json(sitting: Sitting) -> dict[str, Any]:
    """Return a sitting as JSON."""
    given = [
        {
            "question": g.question, "answer": g.answer if isinstance(g.answer, str) else list(g.answer),
            "right": g.right, "hinted": g.hinted,
        }
        for g in sitting.given
    ]  # fmt: skip
    return {
        "schema": 1, "mode": sitting.mode, "seed": sitting.seed, "level": sitting.level,
        "questions": list(sitting.questions), "given": given, "hinted": sitting.hinted,
    }  # fmt: skip


def sitting_from_json(data: Mapping[str, Any]) -> Sitting:
    """Return the sitting that :func:`sitting_json` wrote.

    :raises NotASitting: where it is something else.
    """
    try:
        given = tuple(
            Given(str(g["question"]), _answer(g["answer"]), bool(g["right"]), bool(g["hinted"])) for g in data["given"]
        )
        found = Sitting(
            data["mode"], int(data["seed"]), str(data["level"]), tuple(map(str, data["questions"])), given,
            bool(data["hinted"]),
        )  # fmt: skip
        sound = data["schema"] == 1 and found.mode in ("practice", "assessment")
    except (KeyError, TypeError, ValueError) as error:
        raise NotASitting(str(error)) from None
    if not sound or tuple(g.question for g in given) != found.questions[: len(given)]:
        raise NotASitting("answers and questions don't belong together")
    return found


def _answer(data: Any) -> Answer:
    return data if isinstance(data, str) else tuple(map(int, data))
