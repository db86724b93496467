"""A quiz while it is taken on the board: what is asked, the answer being made, and what became of the last one."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from trainer.quiz.judge import Verdict, option_names, options
from trainer.quiz.measure import Unclear
from trainer.quiz.question import Amount, Answer, Asked, InOrder, Pairs, SomeOf
from trainer.quiz.sitting import Given, Sitting, answered, hint, hint_of
from trainer.quiz.worked import Subject
from trainer.words import _

Keep = Callable[[Asked, Given, int], None]
"""Puts an answer on the disk before anything is said of it: the question, the answer, and the ms it took."""


@dataclass
class AnswerDraft:
    """An answer being made: indices chosen, ordered or matched (-1 is open), or what has been typed."""

    chosen: list[int] = field(default_factory=list)
    typed: str = ""

    @classmethod
    def of(cls, asked: Asked) -> AnswerDraft:
        """An answer to ``asked`` that has not been begun."""
        if isinstance(asked.task, InOrder):
            return cls(list(range(len(asked.task.steps))))
        return cls([-1] * len(asked.task.left) if isinstance(asked.task, Pairs) else [])

    def choose(self, asked: Asked, index: int) -> None:
        """Choose a choice, a line or a place; where several may be right, choose it or leave it again."""
        if not isinstance(asked.task, SomeOf):
            self.chosen = [index]
        elif index in self.chosen:
            self.chosen.remove(index)
        else:
            self.chosen = sorted([*self.chosen, index])

    def move(self, index: int, by: int) -> int:
        """Move a step up or down in the order; return where it is then."""
        there = max(0, min(len(self.chosen) - 1, index + by))
        self.chosen.insert(there, self.chosen.pop(index))
        return there

    def answer(self, asked: Asked) -> Answer | Unclear:
        """Return the answer as it is judged, or what it still wants."""
        if isinstance(asked.task, Amount):
            return self.typed if self.typed.strip() else Unclear(_("Type a number first."))
        if not self.chosen:
            return Unclear(_("Choose first, then answer."))
        if -1 in self.chosen:
            return Unclear(_("Give every one of them a partner first."))
        return tuple(self.chosen)


class Quizzing:
    """One quiz. ``subjects`` are its houses by their level's id; ``keep`` takes each answer before its verdict.

    ``finish`` is called once, after the last; ``beat`` from time to time, while it is on the screen; ``status`` says
    what stands beside the title, such as the time that is left. With the end of one that ``closes_sitting`` all ends.
    """

    def __init__(
        self, questions: Sequence[Asked], subjects: Mapping[str, Subject], sitting: Sitting, keep: Keep,
        finish: Callable[[], object], beat: Callable[[], None] = lambda: None,
        status: Callable[[], str] = str, *, closes_sitting: bool = False,
    ) -> None:  # fmt: skip
        self.questions = {question.id: question for question in questions}
        self.subjects = subjects
        self.sitting = sitting
        self._finish = finish
        self.beat = beat
        self.status = status
        self.closes_sitting = closes_sitting
        self.verdict: Verdict | None = None
        self.hinted = ""
        self._keep = keep
        self._finished = False
        self._shown: Asked | None = None
        self.draft = AnswerDraft()
        self.go_on()

    @property
    def silent(self) -> bool:
        """Whether nothing is said of right and wrong before the end."""
        return self.sitting.mode == "assessment"

    @property
    def alone(self) -> bool:
        """Whether it is a single question, and what is said of its answer is all that there is to say."""
        return len(self.questions) == 1 and not self.silent

    @property
    def asked(self) -> Asked | None:
        """The question on the screen: the one to be answered, or the one just answered; none at the end."""
        return self._shown

    @property
    def number(self) -> int:
        """Which question it is, from 1."""
        return len(self.sitting.given) + (self.verdict is None)

    @property
    def subject(self) -> Subject | None:
        """The house that the question is about."""
        return self.subjects.get(self._shown.level) if self._shown else None

    def answer(self, took_ms: int) -> Verdict | Unclear:
        """Answer with what has been made so far; what can't be an answer changes nothing.

        :raises NotWritten: where it can't be put on the disk, and then it was not answered.
        """
        asked = self._shown
        if asked is None or self.verdict is not None:
            raise ValueError("there is no question to be answered")
        made = self.draft.answer(asked)
        outcome = made if isinstance(made, Unclear) else answered(self.sitting, asked, made)
        if isinstance(outcome, Unclear):
            return outcome
        sitting, verdict = outcome
        self._keep(asked, sitting.given[-1], took_ms)
        self.sitting, self.verdict = sitting, verdict
        if self.silent:
            self.go_on()
        return verdict

    @property
    def has_hint(self) -> bool:
        """Whether there is a hint for the question on the screen."""
        return self._shown is not None and not self.silent and bool(hint_of(self._shown))

    def hint(self) -> str:
        """Take a hint and return it; it makes a right answer count for less when the question comes back."""
        taken = hint(self.sitting, self._shown) if self._shown and self.verdict is None else None
        if taken is None:
            return _("There is no hint here.")
        self.sitting, self.hinted = taken
        return self.hinted

    def go_on(self) -> None:
        """Go on to the next question."""
        self.verdict, self.hinted = None, ""
        self._shown = self.questions[self.sitting.next] if self.sitting.next else None
        if self._shown is None:
            self.end()
        self.draft = AnswerDraft.of(self._shown) if self._shown else AnswerDraft()

    def end(self) -> None:
        """End it as far as it was answered, once."""
        if not self._finished:
            self._finished = True
            self._finish()

    def looked_at_again(self, index: int) -> tuple[Asked, Given]:
        """The question answered as number ``index``, from 0, and its answer."""
        given = self.sitting.given[index]
        return self.questions[given.question], given


def lettered(asked: Asked) -> tuple[str, ...]:
    """What is chosen from, each with its letter; places with their numbers."""
    return tuple(f"{name}. {text}" for name, text in zip(option_names(asked), options(asked), strict=False))
