"""Backups that were looked at before they count, and what can be saved of a damaged store."""

from __future__ import annotations

import contextlib
import shutil
import sqlite3
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from trainer.records.attempt import Attempt
from trainer.records.carve import rows
from trainer.records.chain import START, Entry, NotCanonical, entry_hash
from trainer.records.errors import AlreadyThere, Damaged
from trainer.records.files import PRIVATE, beside, not_written, put_in_place, sync_folder
from trainer.records.seal import Seal, read_seal
from trainer.records.store import IN_A_FILE, Store, insert, insert_seal, mark_in_a_file, read_body
from trainer.records.store_file import in_plain_words, logs_of
from trainer.words import _, ngettext

Row = tuple[bytes, str, int, bytes, str]
"""A row of entries: hash, attempt, number, previous hash, text."""


@dataclass(frozen=True, slots=True)
class Health:
    """What a look at a whole store found: how much there is, and every trouble in words."""

    attempts: int
    entries: int
    troubles: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Saved:
    """What could be saved of a damaged store, in entries and attempts.

    ``whole`` attempts hold to their close; ``cut`` ones hold up to where they end, whether the damage
    cut them or they were still going on. ``lost`` counts rows that were read and hold no more.
    """

    path: Path
    whole: int
    cut: int
    entries: int
    lost: int


def look_over(store: Store) -> Health:
    """Check the file's own structure, every chain and every signature."""
    troubles = [_("the file: {what}").format(what=what) for what in _structure(store) if what != "ok"]
    (entries,) = store.rows("SELECT count(*) FROM entries")[0]
    ids = store.ids()
    reached: set[bytes] = set()
    for id_ in ids:
        for attempt in store.attempts(id_):
            reached.update(entry.hash for entry in attempt.entries)
            if fault := attempt.fault:
                text = _("attempt {id}: entry {n}: {what}")
                troubles.append(text.format(id=id_, n=fault.ordinal, what=fault.what))
            bad = [seal for seal in attempt.seals if not seal.holds()]
            troubles += [_("attempt {id}: a signature does not fit its key").format(id=id_) for _seal in bad]
    if lost := entries - len(reached):
        troubles.append(_orphans(lost))
    return Health(len(ids), entries, tuple(dict.fromkeys(troubles)))


def lost_in(store: Store, attempts: Iterable[Attempt]) -> str:
    """Say that a store has entries that are in none of its ``attempts``, or return an empty text."""
    (entries,) = store.rows("SELECT count(*) FROM entries")[0]
    lost = entries - len({entry.hash for attempt in attempts for entry in attempt.entries})
    return _orphans(lost) if lost else ""


def _orphans(lost: int) -> str:
    text = ngettext(
        "{n} entry leads back to no opening: something before it was lost",
        "{n} entries lead back to no opening: something before them was lost",
        lost,
    )
    return text.format(n=lost)


def back_up(store: Store, to: Path) -> Health:
    """Copy a store to a new file ``to`` and look the copy over; a file that is there is never replaced.

    Names stay in the backup, since it must be able to stand in for the store: keep it as carefully.
    """
    with _new_file(to) as new:
        with in_plain_words(new), contextlib.closing(sqlite3.connect(new, isolation_level=None)) as copy:
            store.copy_to(copy)
            copy.execute("PRAGMA journal_mode = DELETE")  # a backup is one file
        with Store.read(new) as copied:
            return look_over(copied)


def save_what_holds(damaged: Path, to: Path) -> Saved:
    """Write to a new store ``to`` every entry of a damaged one that still holds. The damaged file is only read."""
    with tempfile.TemporaryDirectory() as folder:
        found, seals, came = _rows_of(_copy(damaged, Path(folder)))
    good = list(_holding(found))
    with _new_file(to) as new:
        with Store.open(new) as store:
            with store.writing() as connection:
                for attempt, n, previous, entry in good:
                    insert(connection, attempt, n, previous, (entry,))
                for seal in seals:
                    if seal.holds():
                        insert_seal(connection, seal)
                for attempt in came:
                    mark_in_a_file(connection, attempt)
            saved = [attempt for id_ in store.ids() for attempt in store.attempts(id_)]
        with contextlib.closing(sqlite3.connect(new, isolation_level=None)) as connection:
            connection.execute("PRAGMA journal_mode = DELETE")
    whole = sum(attempt.closed for attempt in saved)
    return Saved(to, whole, len(saved) - whole, len(good), len(found) - len(good))


def _structure(store: Store) -> list[str]:
    try:
        return [row[0] for row in store.rows("PRAGMA integrity_check")]
    except Damaged as error:
        return [str(error.__cause__ or error)]


@contextlib.contextmanager
def _new_file(path: Path) -> Iterator[Path]:
    """Give a name to build a new file under; it is moved to ``path`` once it is whole."""
    if path.exists():
        raise AlreadyThere(str(path))
    new = beside(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            yield new
            new.chmod(PRIVATE)
            put_in_place(new, path, replace=False)
            sync_folder(path.parent)
        finally:
            for rest in (new, *logs_of(new)):
                rest.unlink(missing_ok=True)
    except OSError as error:
        raise not_written(path, error) from error


def _copy(damaged: Path, folder: Path) -> Path:
    """Copy a store with its log, so that the damaged one itself is never opened by anything that writes."""
    copy = folder / "copy.db"
    try:
        shutil.copyfile(damaged, copy)
        log = damaged.with_name(damaged.name + "-wal")
        if log.exists():
            shutil.copyfile(log, folder / "copy.db-wal")
    except OSError as error:
        raise not_written(damaged, error) from error
    return copy


def _rows_of(path: Path) -> tuple[set[Row], list[Seal], set[str]]:
    """Read every row that can be read: entries, signatures, and which open attempts came in a file.

    ``path`` is a copy, which may change.
    """
    with (
        contextlib.suppress(sqlite3.DatabaseError),  # then its log is lost, and only the main part is read
        contextlib.closing(sqlite3.connect(path, isolation_level=None)) as connection,
    ):
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
    found: set[Row] = set()
    seals: list[Seal] = []
    came: set[str] = set()
    for row in rows(path.read_bytes()):
        match row:
            case bytes(hash_), str(attempt), int(n), bytes(previous), str(body):
                found.add((hash_, attempt, n, previous, body))
            case str(name), str(body):
                if name.startswith(IN_A_FILE):
                    came.add(name.removeprefix(IN_A_FILE))
                elif seal := read_seal(read_body(body)):
                    seals.append(seal)
    return found, seals, came


def _holding(found: Iterable[Row]) -> Iterator[tuple[str, int, bytes, Entry]]:
    """Yield the entries that fit their hash and lead back, through entries that do, to an opening."""
    held: dict[str, set[bytes]] = {}
    for hash_, attempt, n, previous, text in sorted(found, key=lambda row: (row[1], row[2])):
        before = held.setdefault(attempt, {START})
        entry = Entry(read_body(text), hash_)
        try:
            right = hash_ == entry_hash(previous, entry.text) and previous in before and entry.body.get("n") == n
        except NotCanonical:
            right = False
        if right:
            before.add(hash_)
            yield attempt, n, previous, entry
