"""One seat as a window uses it: attempts begun, gone on with and closed, all of it in the store.

The board asks for nothing else of the records. Open one seat, begin or resume an attempt on it, do every action through
:meth:`OpenAttempt.do`, and call :meth:`OpenAttempt.finish` at hand-over, which marks, closes and signs. Nothing is
written before the first action. :meth:`Seat.unfinished` are the houses left in the middle; a sitting of a pack is
:mod:`trainer.records.sitting`, and what waits to be sat :mod:`trainer.records.waiting`. What can't be written raises
:class:`trainer.records.errors.NotWritten`, whose text is for the person; it was then not done either.
"""

from __future__ import annotations

import contextlib
import secrets
import uuid
from collections.abc import Callable
from functools import cached_property
from pathlib import Path
from typing import Self

from trainer.layout import Layout
from trainer.records.attempt import Attempt
from trainer.records.clock import now
from trainer.records.errors import AlreadyThere, RecordsError
from trainer.records.files import not_written, write_whole
from trainer.records.journal import Clock, Journal
from trainer.records.keys import PrivateKey, new_key, private_pem, public_hex, read_private
from trainer.records.store import FILE, Store
from trainer.session import ActionResult, Session
from trainer.site import AnyAction
from trainer.terms import Mode

SEAT_KEY = "seat.pem"
CODE_SETTING = "code of this seat"
_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"


def new_id() -> str:
    """Return an id for a new attempt."""
    return str(uuid.uuid4())


class OpenAttempt:
    """One house while it is built on this seat. It stays to be resumed until it is finished."""

    def __init__(self, seat: Seat, journal: Journal, session: Session) -> None:
        self._seat = seat
        self._journal = journal
        self.session = session

    @property
    def attempt(self) -> str:
        """Id of the attempt."""
        return self._journal.tip.attempt

    def do(self, action: AnyAction) -> ActionResult:
        """Do one action; it is on the disk when this returns.

        :raises NotWritten: where it can't be recorded, and then it was not done.
        """
        return self.session.do(action)

    def finish(self) -> Attempt:
        """Mark the house, close the attempt, sign it as this seat, and return it."""
        self._journal.mark(self.session)
        return self._journal.finish(self._seat.key)


class Seat:
    """The records of one data folder, to work in. Use it from one thread; :meth:`leave` closes it."""

    def __init__(self, store: Store, folder: Path, clock: Clock, name: Callable[[], str]) -> None:
        self.store = store
        self.folder = folder
        self.clock = clock
        self.new_id = name
        self._pem = _key_file(folder)

    @cached_property
    def key(self) -> PrivateKey:
        """The seat's own key.

        :raises RecordsError: where its file holds none.
        """
        return read_private(self._pem, None, str(self.folder / SEAT_KEY))

    @classmethod
    def open(cls, folder: Path, clock: Clock = now, name: Callable[[], str] = new_id) -> Self:
        """Open the records in ``folder``, and make them where there are none; ``name`` gives ids.

        :raises RecordsError: in plain words, where they are damaged, can't be written, or are another program's.
        """
        return cls(Store.open(folder / FILE), folder, clock, name)

    def leave(self) -> None:
        """Close the records."""
        self.store.close()

    @property
    def code(self) -> str:
        """Code name under which practice here is kept: random, until somebody sets another."""
        kept = self.store.setting(CODE_SETTING)
        drawn = "".join(secrets.choice(_LETTERS) for _place in range(6))
        return kept or self.store.settled(CODE_SETTING, drawn)

    def journal(self, mode: Mode) -> Journal:
        """Begin an attempt of this seat's code name. Nothing is recorded before its first entry."""
        return Journal.waiting(self.store, self.new_id(), self.code, mode, self.clock, seat=public_hex(self.key))

    def begin(self, text: str, seed: int, mode: Mode, layout: Layout | None = None) -> OpenAttempt:
        """Begin a house from its level file's whole text. Nothing is recorded before the first action.

        :raises Faulty, LayoutRefused: where it is no level that can be laid out.
        """
        journal = self.journal(mode)
        session = journal.house(text, seed, "level", layout=layout)
        return OpenAttempt(self, journal, session)

    def unfinished(self) -> tuple[Attempt, ...]:
        """Return the houses that this code name began and did not finish, the latest first; sittings are not in it."""
        found = self.store.unfinished(self.code)
        return tuple(each for each in found if "pack" not in each.opening and each.fault is None and _house_open(each))

    def resume(self, attempt: Attempt) -> OpenAttempt:
        """Go on with one of :meth:`unfinished` where it stopped; the gap is recorded.

        :raises Elsewhere: where it went on in another window; :raises Faulty, LayoutRefused, ValueError: where this
            trainer does not understand its house or an action any more.
        """
        journal, session = Journal.resume(self.store, attempt, self.clock)
        if session is None:
            raise ValueError(attempt.id)
        return OpenAttempt(self, journal, session)

    def put_away(self, attempt: Attempt) -> None:
        """Close one of :meth:`unfinished` for good, as it stands."""
        self.resume(attempt).finish()


def seat_key(folder: Path) -> PrivateKey:
    """Return the key of the seat whose records are in ``folder``, made the first time it is asked for."""
    return read_private(_key_file(folder), None, str(folder / SEAT_KEY))


def own_seat(folder: Path) -> str:
    """Return the public key of the seat whose records are in ``folder``; empty where there is none that can be read."""
    try:
        return public_hex(read_private((folder / SEAT_KEY).read_bytes(), None, str(folder / SEAT_KEY)))
    except (OSError, RecordsError):
        return ""


def _key_file(folder: Path) -> bytes:
    """What is in the file of a seat's key, made where there is none."""
    path = folder / SEAT_KEY
    try:
        if not path.exists():
            with contextlib.suppress(AlreadyThere):  # another window was quicker
                write_whole(path, private_pem(new_key(), None), replace=False, private=True)
        return path.read_bytes()
    except OSError as error:
        raise not_written(path, error) from error


def _house_open(attempt: Attempt) -> bool:
    return bool(attempt.houses) and attempt.houses[-1].open
