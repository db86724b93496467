"""The store: every attempt on this machine, in one SQLite file.

An entry is on the disk before :meth:`Store.append` returns (write-ahead log, ``synchronous=FULL``), so a pulled plug
loses nothing that was acknowledged. Entries are only ever added; the file itself refuses to change or drop one.
"""

from __future__ import annotations

import contextlib
import json
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from trainer.records.attempt import Attempt, Outline
from trainer.records.chain import START, Entry, JsonObject, canonical, link
from trainer.records.entries import body_fault
from trainer.records.errors import (
    Elsewhere,
    Gone,
    NotRecords,
)
from trainer.records.files import not_written
from trainer.records.migrations import MILESTONE, applied
from trainer.records.seal import Seal, read_seal
from trainer.records.store_file import PATIENCE, connected, in_plain_words, look_through, make, reading_connection
from trainer.words import _

FILE = "records.db"
"""Name of the store in a data folder."""
IN_A_FILE = "came in a file: "
"""Before an attempt's id, the name of the setting that says so of one that was not closed."""
FORKED = "SELECT attempt FROM entries GROUP BY attempt HAVING count(*) <> max(n) + 1"
"""Attempts in which two entries bear the same number, or one is missing."""


@dataclass(frozen=True, slots=True)
class Tip:
    """Where an attempt has got to: its id, how many entries it has and the hash of the last."""

    attempt: str
    count: int
    head: bytes


class Store:
    """An open store. Use it in a ``with`` block, from one thread."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        connection.text_factory = readable
        self._connection = connection
        self.path = path

    @classmethod
    def open(cls, path: Path, patience: int = PATIENCE) -> Self:
        """Open the store at ``path`` to read and write, and make it where there is none.

        :raises Damaged: and leaves the file exactly as it is; :raises NotRecords: for another's or a later file;
        :raises NotWritten: where it can't be written, in plain words.
        """
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            if not path.exists():
                make(path)
        except OSError as error:
            raise not_written(path, error) from error
        look_through(path)
        return cls(connected(path, patience), path)

    @classmethod
    def read(cls, path: Path) -> Self:
        """Open a store only to read it, also on a medium that can't be written to. Nothing is changed."""
        if not path.exists():
            raise NotRecords(_("{path}: there are no records here yet.").format(path=path))
        look_through(path)
        with in_plain_words(path):
            connection = reading_connection(path)
            connection.execute("PRAGMA query_only = ON")
            try:
                if not applied(connection, path):
                    raise NotRecords(_("{path}: no records of ours.").format(path=path))
            except BaseException:
                connection.close()
                raise
        return cls(connection, path)

    def close(self) -> None:
        """Close the store."""
        self._connection.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    # Writing

    def copy_to(self, target: sqlite3.Connection) -> None:
        """Copy the whole store, as of one moment, while others may go on writing."""
        with in_plain_words(self.path):
            self._connection.backup(target)

    @contextlib.contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Hold the store for one change: all of what happens inside is done, or nothing of it."""
        with in_plain_words(self.path):
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                yield self._connection
                self._connection.execute("COMMIT")
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise

    def begin(self, opening: Mapping[str, Any], *more: Mapping[str, Any]) -> Tip:
        """Begin an attempt with its opening and whatever comes with it."""
        return self.append(Tip(str(opening["attempt"]), 0, START), opening, *more)

    def append(self, tip: Tip, *said: Mapping[str, Any], signed: Callable[[Tip], Seal] | None = None) -> Tip:
        """Add entries after ``tip`` and return the new tip. They are on the disk when this returns.

        ``signed`` makes the signature under the new tip that is written with them.

        :raises Elsewhere: where the attempt went on in another window; :raises NotWritten: where they can't be
            written, and then none of them is.
        """
        numbered: list[JsonObject] = [{**body, "n": tip.count + ordinal} for ordinal, body in enumerate(said)]
        for body in numbered:
            if fault := body_fault(json.loads(canonical(body))):
                raise ValueError(f"{body.get('kind')}: {fault}")
        entries = link(tip.head, numbered)
        with self.writing() as connection:
            _still_the_end(connection, tip)
            insert(connection, tip.attempt, tip.count, tip.head, entries)
            new = Tip(tip.attempt, tip.count + len(entries), entries[-1].hash)
            if signed is not None:
                insert_seal(connection, signed(new))
        return new

    def add_seal(self, seal: Seal) -> None:
        """Keep a signature. Whether it holds is asked when the attempt is read."""
        with self.writing() as connection:
            insert_seal(connection, seal)

    def setting(self, name: str) -> str | None:
        """Return what is set under ``name``, or None."""
        found = self.rows("SELECT value FROM settings WHERE name = ?", (name,))
        return str(found[0][0]) if found else None

    def settled(self, name: str, usual: str) -> str:
        """Return what is set under ``name``, once and for all ``usual`` where it was nothing."""
        with self.writing() as connection:
            connection.execute("INSERT OR IGNORE INTO settings VALUES (?, ?)", (name, usual))
        return self.setting(name) or usual

    def set_setting(self, name: str, value: str | None) -> None:
        """Set ``name``, or with None take it away."""
        with self.writing() as connection:
            connection.execute("DELETE FROM settings WHERE name = ?", (name,))
            if value is not None:
                connection.execute("INSERT INTO settings VALUES (?, ?)", (name, value))

    def came_in_a_file(self, attempt: str) -> bool:
        """Whether an attempt that was not closed came here in a file: it was not begun in this store."""
        return self.setting(IN_A_FILE + attempt) is not None

    def forget(self) -> None:
        """Leave nothing of what was deleted in the log; the file's own pages were overwritten at once.

        Where another window holds the log, it goes when the last window is closed.
        """
        with in_plain_words(self.path):
            self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()

    # Reading

    def rows(self, question: str, values: tuple[object, ...] = ()) -> list[tuple[Any, ...]]:
        """Ask the store something in SQL."""
        with in_plain_words(self.path):
            return self._connection.execute(question, values).fetchall()

    def ids(self) -> list[str]:
        """Return the ids of all attempts, in the order of their ids."""
        return [row[0] for row in self.rows("SELECT DISTINCT attempt FROM entries ORDER BY attempt")]

    def openings(self) -> list[JsonObject]:
        """Return the first entries of all attempts, in the order of their ids; a spoilt one is empty."""
        question = f"SELECT body FROM entries INDEXED BY milestones WHERE {MILESTONE} AND n = 0 ORDER BY attempt, hash"
        return [read_body(row[0]) for row in self.rows(question)]

    def attempts(self, attempt: str) -> tuple[Attempt, ...]:
        """Return what there is of one attempt: nothing, one, or several that contradict each other.

        Each is whole from its opening to an entry that nothing follows; :attr:`Attempt.fault` tells whether it
        holds. Longest first, then by head.
        """
        rows = self.rows("SELECT hash, n, previous, body FROM entries WHERE attempt = ? ORDER BY n", (attempt,))
        seals = self.seals(attempt)
        found = (Attempt(chain, seals) for chain in chains(rows))
        return tuple(sorted(found, key=lambda each: (-len(each.entries), each.head)))

    def outlines(self) -> Iterator[Attempt]:
        """Yield every attempt for a list, in the order of their ids: closed ones as outlines, unchecked."""
        forked = {row[0] for row in self.rows(FORKED)}
        question = (
            f"SELECT attempt, hash, body FROM entries INDEXED BY milestones WHERE {MILESTONE} ORDER BY attempt, n"
        )
        for attempt, rows in groupby(self.rows(question), key=itemgetter(0)):
            entries = tuple(Entry.stored(read_body(body), hash_, body) for _attempt, hash_, body in rows)
            if attempt not in forked and entries[0].body and entries[-1].body.get("kind") == "close":
                yield Outline(entries, self.seals(attempt))
            else:
                yield from self.attempts(attempt)

    def seals(self, attempt: str) -> tuple[Seal, ...]:
        """Return the signatures under an attempt's heads, in a fixed order."""
        rows = self.rows("SELECT body FROM seals WHERE attempt = ? ORDER BY body", (attempt,))
        return tuple(seal for row in rows if (seal := read_seal(read_body(row[0]))))

    def tip(self, attempt: Attempt) -> Tip:
        """Return where an attempt has got to, to go on from."""
        return Tip(attempt.id, len(attempt.entries), attempt.head)

    def unfinished(self, code: str | None = None) -> tuple[Attempt, ...]:
        """Return the attempts that were begun and not closed, the latest first; ``code`` for one person's."""
        last = f"SELECT attempt, max(n), body FROM entries INDEXED BY milestones WHERE {MILESTONE} GROUP BY attempt"
        ids = [row[0] for row in self.rows(last) if read_body(row[2]).get("kind") != "close"]
        found = (attempt for id_ in ids for attempt in self.attempts(id_)[:1])
        mine = (each for each in found if not each.closed and (code is None or each.code == code))
        return tuple(sorted(mine, key=lambda each: (-each.ended, each.id)))


def _still_the_end(connection: sqlite3.Connection, tip: Tip) -> None:
    question = "SELECT count(*) FROM entries WHERE attempt = ? AND n = ? AND {} = ?"
    if connection.execute(question.format("previous"), (tip.attempt, tip.count, tip.head)).fetchone()[0]:
        raise Elsewhere
    there = connection.execute(question.format("hash"), (tip.attempt, tip.count - 1, tip.head)).fetchone()[0]
    if tip.count and not there:
        raise Gone


def chains(rows: Iterable[tuple[Any, ...]]) -> Iterator[tuple[Entry, ...]]:
    """Put rows (hash, number, previous hash, text) of one attempt together to its chains, each from the opening on.

    Rows that lead back to no opening are left out.
    """
    sound = [row for row in rows if [type(value) for value in row] == [bytes, int, bytes, str]]
    said = _read_payloads([row[3] for row in sound])
    known = {row[0]: (row[2], row[3], body) for row, body in zip(sound, said, strict=True)}
    followed = {previous for previous, _text, _body in known.values()}
    for last in sorted(known.keys() - followed):
        backwards: list[Entry] = []
        at = last
        while at in known and len(backwards) <= len(known):
            previous, text, body = known[at]
            backwards.append(Entry.stored(body, at, text))
            at = previous
        if at == START:
            yield tuple(reversed(backwards))


def _read_payloads(texts: list[str]) -> list[JsonObject]:
    """Read the content of many entries, at one go where none is spoilt."""
    try:
        many = json.loads(f"[{','.join(texts)}]")
    except (ValueError, RecursionError):
        many = []
    if len(many) == len(texts) and all(type(body) is dict for body in many):
        return list(many)
    return [read_body(text) for text in texts]


def readable(raw: bytes) -> str:
    """Return text of the store that the disk may have spoilt; what is no text any more fits no hash either."""
    return raw.decode("utf-8", errors="replace")


def read_body(text: str) -> JsonObject:
    """Return an entry's content; where the disk has spoilt it, an empty one, which no hash fits."""
    try:
        body = json.loads(text)
    except (ValueError, RecursionError):
        return {}
    return body if isinstance(body, dict) else {}


def insert(connection: sqlite3.Connection, attempt: str, n: int, previous: bytes, entries: Iterable[Entry]) -> int:
    """Add entries that follow ``previous``, the first of them number ``n``; return how many were new."""
    before = connection.total_changes
    rows = []
    for ordinal, entry in enumerate(entries, n):
        rows.append((entry.hash, attempt, ordinal, previous, entry.text.decode("utf-8")))
        previous = entry.hash
    connection.executemany(
        "INSERT OR IGNORE INTO entries (hash, attempt, n, previous, body) VALUES (?, ?, ?, ?, ?)", rows
    )
    return connection.total_changes - before


def mark_in_a_file(connection: sqlite3.Connection, attempt: str) -> None:
    """Keep that an attempt which was not closed came in a file."""
    connection.execute("INSERT OR IGNORE INTO settings VALUES (?, 'yes')", (IN_A_FILE + attempt,))


def insert_seal(connection: sqlite3.Connection, seal: Seal) -> bool:
    """Add a signature, once; return whether it was new."""
    before = connection.total_changes
    body = canonical(seal.as_json()).decode("utf-8")
    connection.execute("INSERT OR IGNORE INTO seals (attempt, body) VALUES (?, ?)", (seal.attempt, body))
    return connection.total_changes > before
