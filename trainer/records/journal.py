"""The journal of an attempt that is going on: plugs into a session, and writes before anything is shown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Self

from trainer.layout import Layout
from trainer.level import parse_level
from trainer.records.attempt import Attempt
from trainer.records.chain import START
from trainer.records.clock import in_range
from trainer.records.edition import editions
from trainer.records.entries import (
    ActionEntry,
    BeatEntry,
    ClosingEntry,
    DiaryLine,
    Editions,
    EntryBody,
    GapEntry,
    HouseBegunEntry,
    MarkEntry,
    OpeningEntry,
    PaperEntry,
    finding_facts,
)
from trainer.records.judging import mark_of, session_of
from trainer.records.keys import PrivateKey
from trainer.records.seal import Seal, seal
from trainer.records.store import Store, Tip
from trainer.session import ActionResult, Session
from trainer.session.skills import skills_shown
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
        self._waiting: tuple[EntryBody, ...] = ()
        self._noted = 0
        self.tip = tip

    @classmethod
    def begin(cls, store: Store, attempt: str, code: str, mode: Mode, clock: Clock, **more: Any) -> Self:
        """Begin an attempt: ``attempt`` is a new UUID, ``code`` the code name of who does it.

        :raises WrongClock: where the clock shows a year that can't be recorded.
        """
        journal = cls.waiting(store, attempt, code, mode, clock, **more)
        return cls(store, store.begin(*(each.as_json() for each in journal._waiting)), mode, clock)

    @classmethod
    def waiting(cls, store: Store, attempt: str, code: str, mode: Mode, clock: Clock, **more: Any) -> Self:
        """Begin an attempt of which nothing is written before its first action: a look at a house leaves no trace."""
        journal = cls(store, Tip(attempt, 0, START), mode, clock)
        at = in_range(clock())
        opened = OpeningEntry(
            at=at,
            schema_=1,
            attempt=attempt,
            code=code,
            mode=mode,
            editions=Editions(**editions()),
            **more,
        )
        journal._waiting = (opened,)
        return journal

    @classmethod
    def resume(
        cls, store: Store, attempt: Attempt, clock: Clock, seat: str | None = None
    ) -> tuple[Self, Session | None]:
        """Go on with an attempt where it stopped, and record the gap; of a sitting also on which ``seat``.

        The session returned stands where the last house stood, or is None where no house is open.
        """
        from_file = store.came_in_a_file(attempt.id) or None
        gap = GapEntry(
            at=in_range(clock()), since=attempt.ended, editions=Editions(**editions()), seat=seat, from_file=from_file
        )
        left_open = attempt.houses[-1] if attempt.houses and attempt.houses[-1].open else None
        tip = store.append(store.tip(attempt), gap.as_json())
        journal = cls(store, tip, attempt.mode, clock, len(left_open.acts) if left_open else 0)
        if left_open is None:
            return journal, None
        journal._practice_mark = left_open.practice_mark
        return journal, session_of(left_open, attempt.mode, journal)

    def house(
        self, level_text: str, seed: int, file: str, practice_mark: int | None = None, layout: Layout | None = None
    ) -> Session:
        """Begin a house, and return the session in which it is built.

        ``file`` is the name that faults carry; ``layout`` saves working it out again.
        """
        level = parse_level(level_text, file)
        session = Session(level, seed, self._mode, self, layout)
        at = self._clock()
        self._begin_part(
            HouseBegunEntry(at=at, level=level.id, text=level_text, seed=seed, practice_mark=practice_mark)
        )
        self._recorded = 0
        self._practice_mark = practice_mark
        return session

    def paper(self, name: str, seed: int, questions: Sequence[str]) -> None:
        """Begin a question paper; ``questions`` are the ids of what it asks."""
        self._begin_part(PaperEntry(at=self._clock(), paper=name, seed=seed, questions=list(questions) or None))

    def _begin_part(self, begun: EntryBody) -> None:
        """Write that a house or a paper is begun; where nothing is written yet, with what comes first in it."""
        if self._waiting:
            self._waiting = (*self._waiting, begun)
        else:
            self.note(begun)

    def __call__(self, outcomes: Sequence[ActionResult]) -> None:
        """Write what came of one act, all or nothing; what is in the journal already, on resuming, is passed over."""
        new = [outcome for outcome in outcomes if outcome.index >= self._recorded]
        if new:
            self.note(*(self._entry(outcome) for outcome in new))
            self._recorded = new[-1].index + 1

    def _entry(self, outcome: ActionResult) -> ActionEntry:
        action = outcome.action.model_dump(mode="json", by_alias=True, exclude_none=True)
        return ActionEntry(
            at=self._clock(), index=outcome.index, action=DiaryLine(**action),
            refused=outcome.refused.why if outcome.refused else None, found=finding_facts(outcome.findings),
            hinted=outcome.hinted or None, hint_depth=outcome.hint_depth if outcome.hint_depth > 1 else None,
            hand=outcome.hand,
        )  # fmt: skip

    def note(self, *said: EntryBody) -> None:
        """Write entries, all or none, and before them what waited for the first one."""
        self._write(said)

    def _write(self, said: Sequence[EntryBody], signed: Callable[[Tip], Seal] | None = None) -> None:
        bodies = (each.as_json() for each in (*self._waiting, *said))
        self.tip = self._store.append(self.tip, *bodies, signed=signed)
        self._waiting, self._noted = (), said[-1].at

    def beat(self, every: int) -> None:
        """Write that the program is still there, where nothing was written for ``every`` ms.

        A stop then counts from here: who thinks for an hour and kills the program has not gained the hour.
        """
        at = self._clock()
        if not self._waiting and at - self._noted >= every:
            self.note(BeatEntry(at=at))

    def mark(self, session: Session) -> None:
        """Write the mark of a house that is done or left."""
        got = mark_of(session, self._practice_mark)
        shown = list(skills_shown(session.outcomes, session.site)) or None
        self.note(MarkEntry(at=self._clock(), score=got.score, outcome=got.outcome, skills_shown=shown))

    def finish(self, key: PrivateKey) -> Attempt:
        """Close the attempt, sign it with the key of this seat, both at once or not at all, and return it."""
        closing = ClosingEntry(at=self._clock())

        def signed(tip: Tip) -> Seal:
            return seal(key, "seat", tip.attempt, tip.head, tip.count, self._clock())

        self._write((closing,), signed)
        return self.attempt()

    def attempt(self) -> Attempt:
        """Return the attempt so far, as it is on the disk."""
        return next(each for each in self._store.attempts(self.tip.attempt) if each.head == self.tip.head)
