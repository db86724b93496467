"""A candidate sits a pack: house after house, then the questions, in silence, against the clock where there is one.

Time while the program was stopped is not counted, but recorded, so that the assessor can judge it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Self

from trainer.quiz.bank import Question
from trainer.quiz.measure import Unclear
from trainer.quiz.question import Answer, Asked
from trainer.quiz.sitting import Given, Sitting, answered
from trainer.records.answers import answered as answer_entry
from trainer.records.answers import given_again
from trainer.records.asking import questions_for
from trainer.records.attempt import Attempt
from trainer.records.chain import Entry, JsonObject
from trainer.records.clock import in_range
from trainer.records.entries import FromFileEntry
from trainer.records.errors import RecordsError
from trainer.records.gradebook import granted_to, lost_ms, ticket_content
from trainer.records.journal import Clock, Journal
from trainer.records.keys import PrivateKey, public_hex
from trainer.records.pack import MINUTE, AssessmentPack, Ticket
from trainer.records.store import Store
from trainer.session import ActionResult, Session
from trainer.site import AnyAction
from trainer.words import _


class NotForYou(RecordsError):  # noqa: N818 - an answer about a ticket
    """Raised where a ticket is for another pack or another code name, or has run out."""


class TimeUp(RecordsError):  # noqa: N818 - an answer about the time
    """Raised for an action after the time; it was not done. :meth:`OpenSitting.finish` is all that is left."""


class OpenSitting:
    """One sitting while it goes on.

    ``session`` is the house being built, or None once all are done; ``paper`` the questions while they are answered
    and once they are, None before.
    """

    def __init__(
        self,
        store: Store,
        pack: AssessmentPack,
        journal: Journal,
        session: Session | None,
        clock: Clock,
        asked: Sequence[Asked],
    ) -> None:
        self._store = store
        self.pack = pack
        self._journal = journal
        self._clock = clock
        attempt = journal.attempt()
        limit = limit_of(pack, attempt)
        self._begun = len(attempt.houses)
        self._until = None if limit is None else attempt.began + limit + lost_ms(attempt)
        self.session = session
        self.questions = {question.id: question for question in asked}
        self.paper: Sitting | None = None

    @classmethod
    def begin(
        cls,
        store: Store,
        pack: AssessmentPack,
        code: str,
        ticket: Ticket | None,
        attempt: str,
        seat: PrivateKey,
        clock: Clock,
        bank: Sequence[Question] = (),
    ) -> Self:
        """Begin to sit; ``attempt`` is a new UUID. Without a ticket nobody supervises, and the record says so.

        ``bank`` are the seat's questions, where the pack asks any.

        :raises NotForYou: where the ticket is not for this; :raises OtherQuestions: where the pack asks others;
        :raises WrongClock: where the clock shows a year that can't be recorded.
        """
        asked, at = questions_for(pack, code, bank), in_range(clock())
        if ticket is not None:
            if not ticket.fits(pack.signed.hash, code, at):
                text = _(
                    "This ticket is for another pack or code name, or it has run out. Ask your assessor for a new one."
                )
                raise NotForYou(text)
            if used(store, ticket):
                raise NotForYou(_("This ticket was used here already. Ask for a new one."))
        more: dict[str, Any] = {"pack": pack.signed.hash, "title": pack.title, "seat": public_hex(seat)}
        if ticket is not None:
            more["ticket"] = ticket.signed.as_json()
        if pack.content.minutes is not None:
            more["minutes"] = pack.content.minutes + (ticket.content.extra_minutes if ticket else 0)
        if pack.content.houses_differ:
            more["houses_differ"] = True
        journal = Journal.begin(store, attempt, code, "assessment", clock, **more)
        sitting = cls(store, pack, journal, None, clock, asked)
        sitting._next_part()
        return sitting

    @classmethod
    def resume(
        cls,
        store: Store,
        pack: AssessmentPack,
        attempt: Attempt,
        seat: PrivateKey,
        clock: Clock,
        bank: Sequence[Question] = (),
    ) -> Self:
        """Go on with a sitting that stopped; the record says on which seat, and that it came there in a file."""
        asked = questions_for(pack, attempt.code, bank)
        journal, session = Journal.resume(store, attempt, clock, public_hex(seat))
        sitting = cls(store, pack, journal, session, clock, asked)
        if attempt.papers:
            sitting.paper = sitting._answering(attempt.papers[0].answers)
        elif session is None:
            sitting._next_part()
        return sitting

    @property
    def place(self) -> tuple[int, int]:
        """(number of the house being built, from 1; number of houses)."""
        return self._begun, len(self.pack.houses)

    def left(self) -> int | None:
        """Return how much time is left, in ms, not below 0; None where there is no limit."""
        return None if self._until is None else max(0, self._until - self._clock())

    def do(self, action: AnyAction) -> ActionResult:
        """Do one action and return what came of it, as :meth:`do_in_one_go` does."""
        return self.do_in_one_go([action])[0]

    def do_in_one_go(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do what one hand does in one go; return what came of it without findings: they are on record, and unsaid.

        :raises TimeUp: where the time is over; :raises NotWritten: where it can't be recorded.
        """
        if self.session is None or self.left() == 0:
            raise TimeUp(_("The time is up. All that you did is recorded."))
        return tuple(replace(outcome, findings=()) for outcome in self.session.do_in_one_go(actions))

    @property
    def asked(self) -> Asked | None:
        """The question to be answered next; None before the paper and after it."""
        return self.questions[self.paper.next] if self.paper and self.paper.next else None

    def answer(self, given: Answer, took: int) -> str:
        """Answer the next question, in ``took`` ms; return why that can be no answer to it, or an empty text.

        :raises TimeUp: where the time is over; :raises NotWritten: where it can't be recorded.
        """
        asked = self.asked
        if asked is None or self.paper is None or self.left() == 0:
            raise TimeUp(_("The time is up. All that you did is recorded."))
        outcome = answered(self.paper, asked, given)
        if isinstance(outcome, Unclear):
            return outcome.why
        self.keep(asked, outcome[0].given[-1], took)
        self.paper = outcome[0]
        return ""

    def keep(self, asked: Asked, given: Given, took: int) -> None:
        """Record an answer that was judged; nothing may be said of it before the close.

        :raises TimeUp: where the time is over; :raises NotWritten: where it can't be recorded.
        """
        if self.left() == 0:
            raise TimeUp(_("The time is up. All that you did is recorded."))
        self._journal.note(answer_entry(self._clock(), asked, given, took))

    def from_file(self) -> None:
        """Record that what follows is sent in from a file or by a program, and not by a hand.

        :raises NotWritten: where it can't be recorded.
        """
        self._journal.note(FromFileEntry(at=self._clock()))

    def beat(self) -> None:
        """Record that the program is still there, where nothing was recorded for a minute.

        :raises NotWritten: where it can't be recorded.
        """
        self._journal.beat(MINUTE)

    def next(self) -> Session | None:
        """Leave this house, handed over or not, and go on to the next; None after the last, where ``paper`` begins."""
        if self.session is not None:
            self._journal.mark(self.session)
            self.session = None
        self._next_part()
        return self.session

    def finish(self, seat: PrivateKey) -> Attempt:
        """Close the sitting, sign it as this seat, and return it; its head code is to be written down."""
        if self.session is not None:
            self._journal.mark(self.session)
            self.session = None
        return self._journal.finish(seat)

    def _next_part(self) -> None:
        attempt = self._journal.attempt()
        done = len(attempt.houses)
        if done < len(self.pack.houses):
            level, level_text = self.pack.houses[done]
            seed = self.pack.seed(attempt.code, done)
            self.session = self._journal.house(level_text, seed, level, self.pack.content.practice_mark)
            self._begun = done + 1
        elif self.questions and not attempt.papers:
            seed = self.pack.seed(attempt.code, len(self.pack.houses))
            self._journal.paper(self.pack.title, seed, list(self.questions))
            self.paper = self._answering(())

    def _answering(self, answers: Sequence[JsonObject]) -> Sitting:
        """The paper as far as it was answered."""
        given = tuple(given_again(self.questions[str(body["question"])], body) for body in answers)
        first = next((question.level for question in self.questions.values() if question.level), "")
        return Sitting("assessment", 0, first, tuple(self.questions), given)


def sittings_of(store: Store, pack: AssessmentPack, code: str) -> tuple[Attempt, ...]:
    """Return what this candidate began of this pack and did not close, the latest first."""
    return tuple(each for each in store.unfinished(code) if each.opening.get("pack") == pack.signed.hash)


def limit_of(pack: AssessmentPack, attempt: Attempt) -> int | None:
    """Return how long this sitting may take, in ms, with what its ticket adds; None for no limit."""
    if pack.content.minutes is None:
        return None
    return (pack.content.minutes + granted_to(attempt)[0]) * MINUTE


def used(store: Store, ticket: Ticket) -> bool:
    """Return whether a sitting was begun with this ticket here."""
    nonce = ticket.content.nonce
    openings = (Attempt((Entry(opening, b""),)) for opening in store.openings())
    return any(ticket_content(each).get("nonce") == nonce for each in openings)
