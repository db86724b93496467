"""No mark without its work: which recorded marks the recorded actions come to, judged again here.

Under the same edition of layout and rules a mark that its actions do not come to counts for nothing. Under another
edition it stands as recorded beside that of today, and is proved only where it can still be judged again.
"""

from __future__ import annotations

import contextlib
import json
import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from trainer.read import Faulty
from trainer.records.alike import Course
from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.chain import Break
from trainer.records.edition import editions
from trainer.records.files import PRIVATE
from trainer.records.judging import Judged, judge_again, missing_from, moved_on
from trainer.records.record_file import read_record
from trainer.records.remarks import not_by_hand, remarks
from trainer.words import _

FILE = "proofs.db"
"""What was judged before, in the data folder; it may be thrown away at any time."""


@dataclass(frozen=True, slots=True)
class Proof:
    """Whether the mark of a house ``stands``, and ``why`` it is not proved; an empty text where it is.

    ``missing`` is what a roof that was not met was handed over without, as recorded: each ``rule (member)``.
    """

    stands: bool
    why: str = ""
    missing: tuple[str, ...] = ()


PROVED = Proof(True)
Looked = tuple[tuple[Proof, ...], tuple[str, ...], tuple[int, ...], str, tuple[Course, ...]]
"""The proofs of an attempt's houses, the remarks on its course, each house's hints, why no hand did it, its courses."""
_FORM = 7
"""Of what is kept; another number makes what was kept before be looked at anew."""


@dataclass(frozen=True)
class Proved(Attempt):
    """An attempt whose houses were judged again: a mark that its actions do not come to is no more there."""

    proofs: tuple[Proof, ...] = ()
    remarks: tuple[str, ...] = ()
    """What happened on its way, :func:`trainer.records.remarks.remarks`."""
    hinted: tuple[int, ...] = ()
    """Its hints, which an outline can't count."""
    unmanned: str = ""
    """Why it can't all have been done by hand, :func:`trainer.records.remarks.not_by_hand`."""
    gone_about: tuple[Course, ...] = ()
    """Its courses, which an outline has not."""

    @cached_property
    def hints(self) -> tuple[int, ...]:
        """How often a hint was taken on each house."""
        return self.hinted

    @cached_property
    def courses(self) -> tuple[Course, ...]:
        """How each house was gone about."""
        return self.gone_about

    @cached_property
    def houses(self) -> tuple[RecordedHouse, ...]:
        """The houses, with the marks that stand."""
        found = tuple(self._houses())
        return tuple(h if p.stands else replace(h, mark=None) for h, p in zip(found, self.proofs, strict=True))

    @cached_property
    def fault(self) -> Break | None:
        """Nothing: only what holds is proved."""
        return None

    @property
    def doubts(self) -> tuple[str, ...]:
        """Why marks of it are not proved, house by house."""
        houses = zip(self._houses(), self.proofs, strict=True)
        return tuple(_("{level}: {why}").format(level=house.level, why=p.why) for house, p in houses if p.why)


def prove(attempt: Attempt) -> Proved:
    """Judge an attempt that holds again, and return it with what that showed."""
    return Proved(attempt.entries, attempt.seals, *looked_at(attempt))


def packed_proofs(packed: bytes) -> Looked | None:
    """Return what a look at a packed attempt shows, None where it does not hold. It runs the same in any process."""
    try:
        attempt = read_record(packed, "attempt").attempt
    except Faulty:
        return None
    return looked_at(attempt)


def looked_at(attempt: Attempt) -> Looked:
    """Return what a look at an attempt that holds shows."""
    return proofs_of(attempt), remarks(attempt), attempt.hints, not_by_hand(attempt), attempt.courses


def proofs_of(attempt: Attempt) -> tuple[Proof, ...]:
    """Return the proof of each house of an attempt that holds."""
    moved = moved_on(attempt)
    looked = zip(judge_again(attempt), attempt.houses, strict=True)
    return tuple(replace(_proof(judged, moved), missing=_missing(house)) for judged, house in looked)


def _missing(house: RecordedHouse) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"{fact['rule']} ({fact['member']})" for fact in missing_from(house)))


def _proof(judged: Judged, moved: bool) -> Proof:
    if judged.now is None:
        if judged.then is None:
            return PROVED
        first = judged.trouble.partition("\n")[0]
        return Proof(moved, _("its mark can't be judged again here: {why}").format(why=first))
    if judged.same or moved:
        return PROVED
    if judged.then in (None, judged.now):
        return Proof(judged.then is None, _("its actions show other findings than recorded"))
    return Proof(False, _("its mark is not what its actions come to"))


def _as_json(looked: Looked) -> list[object]:
    proofs, said, hints, unmanned, courses = looked
    shown = [[proof.stands, proof.why, proof.missing] for proof in proofs]
    return [shown, said, hints, unmanned, [course.as_json() for course in courses]]


class Proofs:
    """What was proved before, by an attempt's last hash and the edition. Where it can't be kept, it is judged anew."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / FILE
        self._edition = json.dumps([_FORM, editions()], sort_keys=True)

    def known(self, attempts: Iterable[Attempt]) -> dict[bytes, Looked]:
        """Return what is known of attempts, by their last hash."""
        found: dict[bytes, Looked] = {}
        with contextlib.suppress(sqlite3.Error, OSError, ValueError, TypeError), self._open() as connection:
            for attempt in attempts:
                row = connection.execute(
                    "SELECT proofs FROM proofs WHERE head = ? AND edition = ?", (attempt.head, self._edition)
                ).fetchone()
                if row is not None:
                    proofs, said, hints, unmanned, courses = json.loads(row[0])
                    shown = tuple(
                        Proof(bool(stands), str(why), tuple(map(str, lacks))) for stands, why, lacks in proofs
                    )
                    about = tuple(map(Course.of_json, courses))
                    found[attempt.head] = (shown, tuple(map(str, said)), tuple(map(int, hints)), str(unmanned), about)
        return found

    def heads(self) -> frozenset[bytes]:
        """Return the last hashes of all that is known: these attempts were found to hold."""
        with contextlib.suppress(sqlite3.Error, OSError), self._open() as connection:
            rows = connection.execute("SELECT head FROM proofs WHERE edition = ?", (self._edition,))
            return frozenset(row[0] for row in rows)
        return frozenset()

    def keep(self, looked: Sequence[tuple[bytes, Looked]]) -> None:
        """Keep what was seen."""
        rows = [(head, self._edition, json.dumps(_as_json(each))) for head, each in looked]
        with contextlib.suppress(sqlite3.Error, OSError), self._open() as connection, connection:
            connection.executemany("INSERT OR REPLACE INTO proofs VALUES (?, ?, ?)", rows)

    def forget(self, heads: Iterable[bytes]) -> None:
        """Leave nothing of attempts that are erased; where that can't be done, throw away what was kept of all."""
        if not self._path.exists():
            return
        try:
            with self._open() as connection, connection:
                connection.execute("PRAGMA secure_delete = ON")
                connection.executemany("DELETE FROM proofs WHERE head = ?", [(head,) for head in heads])
        except sqlite3.Error:
            with contextlib.suppress(OSError):
                self._path.unlink()

    def _open(self) -> contextlib.closing[sqlite3.Connection]:
        connection = sqlite3.connect(self._path)
        with contextlib.suppress(OSError):
            self._path.chmod(PRIVATE)
        connection.execute(
            "CREATE TABLE IF NOT EXISTS proofs (head BLOB, edition TEXT, proofs TEXT, PRIMARY KEY (head, edition))"
        )
        return contextlib.closing(connection)
