"""People and what is kept of them: names apart from the record, erasing, and how long to keep."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable

from trainer.records.attempt import Attempt
from trainer.records.chain import canonical
from trainer.records.collect import mark_of
from trainer.records.proof import Proofs
from trainer.records.store import IN_A_FILE, Store

_DAYS = "keep for days"
DAY = 86_400_000
"""A day in ms."""


def name_person(store: Store, code: str, name: str) -> None:
    """Keep the name behind a code name. It stays in this store: no file, export or backup for others carries it."""
    with store.writing() as connection:
        connection.execute("INSERT OR REPLACE INTO people VALUES (?, ?)", (code, name))


def names(store: Store) -> dict[str, str]:
    """Return the names that are known here, by code name."""
    return dict(store.rows("SELECT code, name FROM people ORDER BY code"))


def attempts_of(store: Store, code: str) -> tuple[Attempt, ...]:
    """Return all that is recorded of a code name."""
    ids = sorted({str(opening["attempt"]) for opening in store.openings() if opening.get("code") == code})
    return tuple(each for id_ in ids for each in store.attempts(id_) if each.code == code)


def erase(store: Store, code: str, keep_statistics: bool = False) -> int:
    """Remove a person: name, attempts and signatures; return how many attempts went.

    Asked to keep statistics, it leaves for each marked house the level, the mark and the rules broken, and nothing
    that leads back. Attempts erased here stay out when an old file is collected again. Files that were
    exported and backups made before are not reached.
    """
    gone = attempts_of(store, code)
    _remove(store, gone, keep_statistics, code)
    return len({attempt.id for attempt in gone})


def keep_for(store: Store, days: int | None) -> None:
    """Set how long closed attempts are kept; None for as long as nobody erases them."""
    store.set_setting(_DAYS, None if days is None else str(days))


def retention_days(store: Store) -> int | None:
    """Return how many days attempts are kept, or None."""
    days = store.setting(_DAYS)
    return None if days is None else int(days)


def overdue(store: Store, now: int) -> tuple[Attempt, ...]:
    """Return the attempts last written to longer ago than they are to be kept; ``now`` in ms UTC.

    The latest time in them counts: a last entry of an earlier date makes nothing due.
    """
    days = retention_days(store)
    if days is None:
        return ()
    every = (attempt for id_ in store.ids() for attempt in store.attempts(id_))
    return tuple(attempt for attempt in every if _last_of(attempt) < now - days * DAY)


def _last_of(attempt: Attempt) -> int:
    times = (entry.body.get("at") for entry in attempt.entries)
    return max((at for at in times if isinstance(at, int)), default=0)


def let_go(store: Store, attempts: Iterable[Attempt], keep_statistics: bool = False) -> None:
    """Remove attempts, such as those that are overdue; the people stay."""
    _remove(store, tuple(attempts), keep_statistics, None)


def statistics(store: Store) -> tuple[tuple[str, str, int, str, dict[str, int]], ...]:
    """Return what was kept of erased attempts: (level, mode, score, outcome, how often each rule was broken)."""
    rows = store.rows("SELECT level, mode, score, outcome, rules FROM statistics ORDER BY level, mode, score, rules")
    return tuple((level, mode, score, outcome, json.loads(rules)) for level, mode, score, outcome, rules in rows)


def _remove(store: Store, attempts: tuple[Attempt, ...], keep_statistics: bool, code: str | None) -> None:
    """Remove just these attempts: what another one of the same id holds stays, whoever's it is."""
    going = {attempt.head for attempt in attempts}
    ids = sorted({attempt.id for attempt in attempts})
    staying = [each for id_ in ids for each in store.attempts(id_) if each.head not in going]
    with store.writing() as connection:
        if keep_statistics:
            kept = [row for attempt in attempts if attempt.fault is None for row in _rows(attempt)]
            connection.executemany("INSERT INTO statistics VALUES (?, ?, ?, ?, ?)", kept)
        for id_ in ids:
            mine = {entry.hash for each in attempts if each.id == id_ for entry in each.entries}
            theirs = {entry.hash for each in staying if each.id == id_ for entry in each.entries}
            connection.execute("INSERT INTO erasing VALUES (?)", (id_,))
            if theirs:
                connection.executemany("DELETE FROM entries WHERE hash = ?", [(each,) for each in mine - theirs])
                gone = [each for each in store.seals(id_) if bytes.fromhex(each.head) in mine - theirs]
                bodies = [(canonical(each.as_json()).decode("utf-8"),) for each in gone]
                connection.executemany("DELETE FROM seals WHERE body = ?", bodies)
            else:
                connection.execute("DELETE FROM entries WHERE attempt = ?", (id_,))
                connection.execute("DELETE FROM seals WHERE attempt = ?", (id_,))
                connection.execute("DELETE FROM settings WHERE name = ?", (IN_A_FILE + id_,))
            connection.execute("DELETE FROM erasing WHERE attempt = ?", (id_,))
        connection.executemany("DELETE FROM regrades WHERE head = ?", [(head,) for head in going])
        openings = {each.entries[0].hash for each in attempts} - {each.entries[0].hash for each in staying}
        connection.executemany("INSERT OR IGNORE INTO erased VALUES (?)", [(mark_of(each),) for each in openings])
        if code is not None:
            connection.execute("DELETE FROM people WHERE code = ?", (code,))
    store.forget()
    Proofs(store.path.parent).forget(entry.hash for each in attempts for entry in each.entries)


def _rows(attempt: Attempt) -> Iterable[tuple[str, str, int, str, str]]:
    for house in attempt.houses:
        if house.mark is not None:
            broken = Counter(found["rule"] for act in house.acts for found in act["found"])
            rules = json.dumps(dict(sorted(broken.items())))
            yield house.level, attempt.mode, house.mark["score"], house.mark["outcome"], rules
