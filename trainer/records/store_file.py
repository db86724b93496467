"""The file of a store: made whole or not at all, looked through before it is written to, and opened."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from trainer.records.errors import AlreadyThere, Busy, Damaged, DiskFull, NotWritten, ReadOnly
from trainer.records.files import PRIVATE, beside, not_written, put_in_place, sync_folder
from trainer.records.migrations import applied, migrate
from trainer.words import _

PATIENCE = 5000
"""How long to wait for another window to finish writing, ms."""
CHECKED_AT_OPENING = 64_000_000
"""A larger store is not read through each time it is opened; `verify` and `backup` always do."""
_MAGIC = b"SQLite format 3\0"


def look_through(path: Path) -> None:
    """Raise :class:`Damaged` where a store's file is, before anything is opened that could write to it."""
    log = path.with_name(path.name + "-wal")
    try:
        size = path.stat().st_size
        if size == 0 and log.exists() and log.stat().st_size:
            raise Damaged(str(path), why=_("its main part is empty"))
        if size == 0:
            return
        with path.open("rb") as file:
            if file.read(len(_MAGIC)) != _MAGIC:
                raise Damaged(str(path), why=_("it does not begin as a store does"))
    except OSError as error:
        raise not_written(path, error) from error
    with in_plain_words(path), contextlib.closing(reading_connection(path)) as connection:
        if size <= CHECKED_AT_OPENING:
            check = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
            if check != "ok":
                raise Damaged(str(path), why=str(check))


def reading_connection(path: Path) -> sqlite3.Connection:
    """Open a file only to read it, also where its folder can't be written to."""
    address = path.resolve().as_uri()
    connection = sqlite3.connect(f"{address}?mode=ro", uri=True, timeout=PATIENCE / 1000, isolation_level=None)
    try:
        connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except sqlite3.OperationalError as error:
        connection.close()
        log = path.with_name(path.name + "-wal")
        shut = error.sqlite_errorcode & 0xFF in (sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY)
        if not shut or (log.exists() and log.stat().st_size):
            raise
        # The log can't be made there; without one the file is complete in itself.
        connection = sqlite3.connect(f"{address}?immutable=1", uri=True, isolation_level=None)
    return connection


@contextlib.contextmanager
def in_plain_words(path: Path) -> Iterator[None]:
    """Turn what SQLite says into the words of :mod:`trainer.records.errors`."""
    try:
        yield
    except sqlite3.Error as error:
        where, said = str(path), str(error)
        match getattr(error, "sqlite_errorcode", 0) & 0xFF:
            case sqlite3.SQLITE_FULL:
                raise DiskFull(where) from error
            case sqlite3.SQLITE_READONLY | sqlite3.SQLITE_CANTOPEN | sqlite3.SQLITE_PERM:
                raise ReadOnly(where) from error
            case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
                raise Busy(where) from error
            case sqlite3.SQLITE_CORRUPT | sqlite3.SQLITE_NOTADB:
                raise Damaged(where, why=said) from error
            case sqlite3.SQLITE_IOERR:
                text = _("{where}: the disk did not take it ({said}). So this was not recorded and not done.")
                raise NotWritten(text.format(where=where, said=said)) from error
        raise


def make(path: Path) -> None:
    """Make a store under another name and put it in its place: nothing half made is ever there.

    Where another window was quicker, its store stays.
    """
    new = beside(path)
    try:
        connected(new, PATIENCE).close()
        with contextlib.suppress(AlreadyThere):
            put_in_place(new, path, replace=False)
        sync_folder(path.parent)
    finally:
        for rest in (new, *logs_of(new)):
            rest.unlink(missing_ok=True)


def logs_of(path: Path) -> tuple[Path, Path]:
    """Return the files that SQLite keeps beside one while it is open."""
    return path.with_name(f"{path.name}-wal"), path.with_name(f"{path.name}-shm")


def connected(path: Path, patience: int) -> sqlite3.Connection:
    """Open a file to write to it, as its owner alone may, and bring it to the present form."""
    with in_plain_words(path):
        connection = sqlite3.connect(path, timeout=patience / 1000, isolation_level=None)
        try:
            with contextlib.suppress(OSError):  # another owner's store, or a medium that knows none
                path.chmod(PRIVATE)
            _set_up(connection, path)
        except BaseException:
            connection.close()
            raise
    return connection


def _set_up(connection: sqlite3.Connection, path: Path) -> None:
    applied(connection, path)  # another program's file is not to be touched
    (mode,) = connection.execute("PRAGMA journal_mode = WAL").fetchone()
    if mode != "wal":
        text = _(
            "{path}: this place can't keep records safely. Choose a folder on this machine's own disk with --data."
        )
        raise NotWritten(text.format(path=path))
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA fullfsync = ON")  # where the system has a stronger flush, a pulled plug needs it
    connection.execute("PRAGMA secure_delete = ON")  # what is erased is overwritten
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA cache_size = -64000")  # kB: hashes of many seats come at random, to all pages
    migrate(connection, path)
