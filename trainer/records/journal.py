"""The journal of an attempt that is going on: plugs into a session, and writes before anything is shown."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Self

from trainer.layout import Layout
from trainer.level import parse_level
from trainer.records import bodies
from trainer.records.attempt import Attempt
from trainer.records.chain import START
from trainer.records.edition import editions
from trainer.records.judging import mark_of, session_of
from trainer.records.store import Store, Tip
from trainer.session import Outcome, Session
from trainer.terms import Mode

Clock = Callable[[], int]
"""Says what time it is, in whole ms UTC."""


class Journal:
    """Writes one attempt. Give it to a :class:`trainer.session.Session` as its ``journal``.

    What can't be written raises :class:`trainer.records.errors.NotWritten`, and then it was not done either.
    """

    def __init__(self, store: Store, tip: Tip, mode: Mode, clock: Clock, recorded: int = 0) -> None:
        self._store = store
        self._mode = mode
        self._clock = clock
        self._recorded = recorded
        self._practice_mark: int | None = None
        self._waiting: tuple[Mapping[str, Any], ...] = ()
        self.tip = tip

    @classmethod
    def begin(cls, store: Store, attempt: str, code: str, mode: Mode, clock: Clock, **more: Any) -> Self:
        """Begin an attempt: ``attempt`` is a new UUID, ``code`` the code name of who does it."""
        opening = bodies.opening(clock(), attempt, code, mode, editions(), **more)
        return cls(store, store.begin(opening), mode, clock)

    @classmethod
    def waiting(cls, store: Store, attempt: str, code: str, mode: Mode, clock: Clock, **more: Any) -> Self:
        """Begin an attempt of which nothing is written before its first action: a look at a house leaves no trace."""
        journal = cls(store, Tip(attempt, 0, START), mode, clock)
        journal._waiting = (bodies.opening(clock(), attempt, code, mode, editions(), **more),)
        return journal

    @classmethod
    def resume(cls, store: Store, attempt: Attempt, clock: Clock) -> tuple[Self, Session | None]:
        """Go on with an attempt where it stopped, and record the gap.

        The session returned stands where the last house stood, or is None where no house is open.
        """
        gap = bodies.gap(clock(), attempt.ended, editions())
        going = attempt.houses[-1] if attempt.houses and attempt.houses[-1].open else None
        tip = store.append(store.tip(attempt), gap)
        journal = cls(store, tip, attempt.mode, clock, len(going.acts) if going else 0)
        if going is None:
            return journal, None
        journal._practice_mark = going.practice_mark
        return journal, session_of(going, attempt.mode, journal)

    def house(
        self, level_text: str, seed: int, file: str, practice_mark: int | None = None, layout: Layout | None = None
    ) -> Session:
        """Begin a house, and return the session in which it is built.

        ``file`` is the name that faults carry; ``layout`` saves working it out again.
        """
        level = parse_level(level_text, file)
        session = Session(level, seed, self._mode, self, layout)
        begun = bodies.house(self._clock(), level.id, level_text, seed, practice_mark)
        self._begin_part(begun)
        self._recorded = 0
        self._practice_mark = practice_mark
        return session

    def paper(self, begun: Mapping[str, Any]) -> None:
        """Begin a question paper, as :func:`trainer.records.bodies.paper` makes it."""
        self._begin_part(begun)

    def _begin_part(self, begun: Mapping[str, Any]) -> None:
        """Write that a house or a paper is begun; where nothing is written yet, with what comes first in it."""
        if self._waiting:
            self._waiting = (*self._waiting, begun)
        else:
            self.note(begun)

    def __call__(self, outcome: Outcome) -> None:
        """Write what came of one action; what is in the journal already, as a session is resumed, is passed over."""
        if outcome.index < self._recorded:
            return
        action = outcome.action.model_dump(mode="json", by_alias=True, exclude_none=True)
        why = outcome.refused.why if outcome.refused else None
        self.note(bodies.act(self._clock(), outcome.index, action, outcome.findings, why, outcome.hinted))
        self._recorded = outcome.index + 1

    def note(self, body: Mapping[str, Any]) -> None:
        """Write an entry of another kind, as :mod:`trainer.records.bodies` makes them."""
        self.tip = self._store.append(self.tip, *self._waiting, body)
        self._waiting = ()

    def mark(self, session: Session) -> None:
        """Write the mark of a house that is done or left."""
        got = mark_of(session, self._practice_mark)
        self.note(bodies.mark(self._clock(), got.score, got.outcome))

    def close(self) -> str:
        """Close the attempt and return its head code, to be written down."""
        self.note(bodies.close(self._clock()))
        return self.attempt().head_code

    def attempt(self) -> Attempt:
        """Return the attempt so far, as it is on the disk."""
        return next(each for each in self._store.attempts(self.tip.attempt) if each.head == self.tip.head)
