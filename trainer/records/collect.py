"""Many seats' records brought together in one store.

A store is a set of entries, each named by a hash that covers all before it. Bringing in a file is adding its
entries and signatures to the set; so the order of files makes no difference, nor how often one comes. Where one attempt
has two ends that both hold, both are kept and shown: a person decides which is right.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Container, Iterable
from dataclasses import dataclass
from typing import Literal

from trainer.records.attempt import Attempt
from trainer.records.chain import START
from trainer.records.record_file import named_at_its_end, record_of
from trainer.records.store import FORKED, Store, insert, insert_seal, mark_in_a_file, read_body

Fate = Literal["new", "known", "signed", "longer", "conflict", "erased", "other"]
"""What came of an attempt that was brought in.

``new``: it was not there; ``known``: all of it was; ``signed``: only a signature under it is new; ``longer``: it goes
on where ours ended; ``conflict``: it contradicts what is there; ``erased``: the person was erased here, so it was
left out; ``other``: an attempt of this id is here under another code name, so it was left out.
"""


@dataclass(frozen=True, slots=True)
class Taken:
    """One attempt brought in, and what came of it."""

    attempt: Attempt
    fate: Fate
    under: str = ""
    """The code name under which its id is here, where that is another's."""


def take_in(store: Store, attempts: Iterable[Attempt]) -> tuple[Taken, ...]:
    """Bring attempts into a store, all of them or, where one can't be written, none.

    The attempts must hold: they come from :func:`trainer.records.record_file.read_record` or out of a store.
    """
    with store.writing() as connection:
        taken = []
        for attempt in attempts:
            if _is_erased(connection, attempt):
                taken.append(Taken(attempt, "erased"))
                continue
            if others := _others(connection, attempt):
                taken.append(Taken(attempt, "other", others))
                continue
            before, _forked = _counted(connection, attempt.id)
            added = 0 if _is_here(connection, attempt) else insert(connection, attempt.id, 0, START, attempt.entries)
            if added and not attempt.closed:
                mark_in_a_file(connection, attempt.id)
            signed = sum(insert_seal(connection, seal) for seal in attempt.seals)
            fate = _fate(before, added, _counted(connection, attempt.id)[1])
            taken.append(Taken(attempt, "signed" if fate == "known" and signed else fate))
        return tuple(taken)


def is_here(store: Store, content: bytes, checked: Container[bytes]) -> bool:
    """Whether a file is, byte for byte, what the store itself would write, with no signature that is not here.

    Then there is nothing new to read in it. Only an attempt whose last hash is among those ``checked`` is relied on: it
    was found to hold by this edition of the trainer.
    """
    named = named_at_its_end(content)
    if named is None or named[0] not in checked:
        return False
    head, seals = named
    of = "attempt = (SELECT attempt FROM entries WHERE hash = ?)"
    # As bytes: what the disk has spoilt in the store is not made readable first, and so fits no file.
    signed = {row[0] for row in store.rows(f"SELECT CAST(body AS BLOB) FROM seals WHERE {of}", (head,))}
    entries = store.rows(f"SELECT CAST(body AS BLOB), hash FROM entries WHERE {of} ORDER BY n", (head,))
    return signed.issuperset(seals) and record_of(entries, head, seals) == content


def conflicts(store: Store) -> tuple[tuple[Attempt, ...], ...]:
    """Return every attempt that has several ends, each with all of them."""
    found = (store.attempts(row[0]) for row in sorted(store.rows(FORKED)))
    return tuple(ends for ends in found if len(ends) > 1)


def mark_of(opening: bytes) -> bytes:
    """Return what is kept of an erased attempt, by the hash of its opening: a hash that leads back to nothing."""
    return hashlib.sha256(b"roof truss trainer: erased 2\n" + opening).digest()


def _is_erased(connection: sqlite3.Connection, attempt: Attempt) -> bool:
    """Whether this attempt was erased here; older stores know it by its id alone."""
    by_id = hashlib.sha256(b"roof truss trainer: erased 1\n" + attempt.id.encode("utf-8")).digest()
    question = "SELECT 1 FROM erased WHERE attempt_hash IN (?, ?)"
    return connection.execute(question, (mark_of(attempt.entries[0].hash), by_id)).fetchone() is not None


def _is_here(connection: sqlite3.Connection, attempt: Attempt) -> bool:
    """Whether all of an attempt is here, and no other end of it: its last entry's hash covers all before it."""
    question = "SELECT count(*), sum(hash = ?) FROM entries WHERE attempt = ? AND n < ?"
    n = len(attempt.entries)
    return tuple(connection.execute(question, (attempt.head, attempt.id, n)).fetchone()) == (n, 1)


def _counted(connection: sqlite3.Connection, attempt: str) -> tuple[int, bool]:
    """How many entries there are of an attempt, and whether two of them bear the same number."""
    question = "SELECT count(*), coalesce(max(n) + 1, 0) FROM entries WHERE attempt = ?"
    count, length = connection.execute(question, (attempt,)).fetchone()
    return count, count != length


def _others(connection: sqlite3.Connection, attempt: Attempt) -> str:
    """The code name under which an attempt of this id is here, where it is another one; else nothing."""
    first = "SELECT body FROM entries WHERE attempt = ? AND n = 0"
    codes = (str(read_body(row[0]).get("code")) for row in connection.execute(first, (attempt.id,)))
    return next((code for code in codes if code != attempt.code), "")


def _fate(before: int, added: int, forked: bool) -> Fate:
    if before == 0:
        return "new"
    if added == 0:
        return "known"
    return "conflict" if forked else "longer"
