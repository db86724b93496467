"""A quiz on a seat: each answer is in the store before anything is said of it, and a quiz that stopped goes on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from trainer.quiz.question import Asked
from trainer.quiz.sitting import Given
from trainer.records.answers import answered
from trainer.records.attempt import Attempt
from trainer.records.chain import JsonObject
from trainer.records.journal import Journal
from trainer.records.seat import Seat
from trainer.terms import Mode


class OpenQuiz:
    """One quiz while it is taken on this seat. It stays to be gone on with until it is finished."""

    def __init__(self, seat: Seat, journal: Journal) -> None:
        self._seat = seat
        self._journal = journal

    @classmethod
    def begin(cls, seat: Seat, name: str, seed: int, questions: Sequence[str], mode: Mode) -> Self:
        """Begin a quiz of these questions, by their ids. Nothing is recorded before the first answer."""
        journal = seat.journal(mode)
        journal.paper(name, seed, questions)
        return cls(seat, journal)

    @classmethod
    def resume(cls, seat: Seat, attempt: Attempt) -> Self:
        """Go on with one of :func:`unfinished_quizzes`; the gap is recorded.

        :raises Elsewhere: where it went on in another window.
        """
        journal, _session = Journal.resume(seat.store, attempt, seat.clock)
        return cls(seat, journal)

    def keep(self, asked: Asked, given: Given, took: int) -> None:
        """Put an answer in the store; ``took`` in ms.

        :raises NotWritten: where it can't be recorded, and then it was not given.
        """
        self._journal.note(answered(self._seat.clock(), asked, given, took))

    def finish(self) -> Attempt:
        """Close the quiz, sign it as this seat, and return it."""
        return self._journal.finish(self._seat.key)


def unfinished_quizzes(seat: Seat) -> tuple[Attempt, ...]:
    """Return the quizzes that this seat's code name began and did not finish, the latest first."""
    found = seat.store.unfinished(seat.code)
    return tuple(each for each in found if "pack" not in each.opening and each.fault is None and paper_of(each))


def quizzes_answered(seat: Seat) -> int:
    """Return in how many quizzes this seat's code name has answered something."""
    mine = {str(opening.get("attempt")) for opening in seat.store.openings() if opening.get("code") == seat.code}
    rows = seat.store.rows('SELECT DISTINCT attempt, 0 FROM entries WHERE body LIKE \'%"kind":"answer"%\'')
    return sum(attempt in mine for attempt, _nothing in rows)


def paper_of(attempt: Attempt) -> JsonObject | None:
    """The paper that an attempt holds, where it is of a quiz alone and says which questions it asks."""
    papers = [entry.body for entry in attempt.entries if entry.body["kind"] == "paper"]
    return papers[0] if len(papers) == 1 and not attempt.houses and papers[0].get("questions") else None
