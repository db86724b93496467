"""How a store's tables came to be: named steps, each in one transaction, never changed once released."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from trainer.records.errors import NotRecords
from trainer.words import _, printable

APPLICATION_ID = 0x52545431
"""Tells a store of ours from any other SQLite file."""
MILESTONE = """body NOT GLOB '*"kind":"act"*'"""
"""Picks the entries that are no single action; inside a text of JSON the quotes would be escaped."""

MIGRATIONS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "entries that are only ever added",
        (
            f"PRAGMA application_id = {APPLICATION_ID}",
            # An entry's hash covers all that it says and all before it. Stores are sets of entries, so
            # bringing two together is their union, whatever the order and however often.
            """CREATE TABLE entries (
                hash BLOB NOT NULL PRIMARY KEY,
                attempt TEXT NOT NULL,
                n INTEGER NOT NULL,
                previous BLOB NOT NULL,
                body TEXT NOT NULL
            )""",
            "CREATE INDEX entries_by_attempt ON entries (attempt, n)",
            # Nine of ten entries are single actions; lists of attempts need only the others.
            f"CREATE INDEX milestones ON entries (attempt, n) WHERE {MILESTONE}",
            """CREATE TABLE seals (
                attempt TEXT NOT NULL,
                body TEXT NOT NULL PRIMARY KEY
            )""",
            "CREATE INDEX seals_by_attempt ON seals (attempt)",
            "CREATE TABLE erasing (attempt TEXT NOT NULL PRIMARY KEY)",
            """CREATE TRIGGER entries_never_change BEFORE UPDATE ON entries
                BEGIN SELECT RAISE(ABORT, 'entries are only ever added'); END""",
            """CREATE TRIGGER entries_never_go BEFORE DELETE ON entries
                WHEN NOT EXISTS (SELECT 1 FROM erasing WHERE attempt = OLD.attempt)
                BEGIN SELECT RAISE(ABORT, 'entries are only ever added'); END""",
        ),
    ),
    (
        "people apart from what they did",
        (
            "CREATE TABLE people (code TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL)",
            # Hashes of attempts that were erased, so that an old memory stick does not bring a person back.
            "CREATE TABLE erased (attempt_hash BLOB NOT NULL PRIMARY KEY)",
            # What is left of them where asked: no code, no times, nothing that leads to one attempt.
            """CREATE TABLE statistics (
                level TEXT NOT NULL,
                mode TEXT NOT NULL,
                score INTEGER NOT NULL,
                outcome TEXT NOT NULL,
                rules TEXT NOT NULL
            )""",
            "CREATE TABLE settings (name TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL)",
        ),
    ),
    (
        "marks under later rules beside the recorded ones",
        (
            """CREATE TABLE regrades (
                head BLOB NOT NULL,
                house INTEGER NOT NULL,
                layout TEXT NOT NULL,
                rules TEXT NOT NULL,
                score INTEGER NOT NULL,
                outcome TEXT NOT NULL,
                PRIMARY KEY (head, house, layout, rules)
            )""",
        ),
    ),
)


def migrate(connection: sqlite3.Connection, path: Path) -> None:
    """Bring a store to the present form. Raises :class:`NotRecords` for another program's or a later store."""
    done = applied(connection, path)
    for name, statements in MIGRATIONS:
        if name not in done:
            _apply(connection, name, statements)


def applied(connection: sqlite3.Connection, path: Path) -> list[str]:
    """Return the names of the steps a store has been through.

    Raises :class:`NotRecords` for another program's file, and for a later trainer's.
    """
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    if application != APPLICATION_ID and tables:
        raise NotRecords(_("{path}: another program's data, no records of ours.").format(path=path))
    if "migrations" not in tables:
        return []
    done = [str(row[0]) for row in connection.execute("SELECT name FROM migrations")]
    known = [name for name, _statements in MIGRATIONS]
    if later := [name for name in done if name not in known]:
        text = _("{path}: a later trainer wrote these records ({what}). Install that trainer to use them.")
        raise NotRecords(text.format(path=path, what=printable(later[0])[:80]))
    return done


def _apply(connection: sqlite3.Connection, name: str, statements: tuple[str, ...]) -> None:
    connection.execute("BEGIN IMMEDIATE")
    try:
        connection.execute("CREATE TABLE IF NOT EXISTS migrations (name TEXT NOT NULL PRIMARY KEY)")
        # Another window may have done it while this one waited.
        if not connection.execute("SELECT 1 FROM migrations WHERE name = ?", (name,)).fetchone():
            for statement in statements:
                connection.execute(statement)
            connection.execute("INSERT INTO migrations VALUES (?)", (name,))
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:  # a disk that is full has undone it already
            connection.execute("ROLLBACK")
        raise
