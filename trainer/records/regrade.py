"""Marks under the rules of today beside the recorded ones, which never change."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from trainer.records.attempt import Attempt
from trainer.records.edition import editions
from trainer.records.judging import Judged, judge_again
from trainer.records.record_file import read_record, write_record
from trainer.records.store import Store


@dataclass(frozen=True, slots=True)
class LaterMark:
    """A mark that a house came to under another edition of layout or rules; ``house`` counts from 0."""

    house: int
    layout: str
    rules: str
    score: int
    outcome: str


def pack_up(attempt: Attempt) -> bytes:
    """Return an attempt in a form that goes to another process or machine."""
    return write_record(attempt)


def judged(packed: bytes) -> tuple[Judged, ...]:
    """Judge a packed attempt again. Pure, so it runs the same in any process on any machine."""
    return judge_again(read_record(packed, "attempt").attempt)


def keep(store: Store, found: Iterable[tuple[Attempt, tuple[Judged, ...]]]) -> int:
    """Keep the marks of today that differ from the recorded ones; return how many."""
    ours = editions()
    rows = [
        (attempt.head, house, ours["layout"], ours["rules"], *again.now)
        for attempt, houses in found
        for house, again in enumerate(houses)
        if again.then is not None and again.now is not None and again.now != again.then
    ]
    with store.writing() as connection:
        connection.executemany("INSERT OR REPLACE INTO regrades VALUES (?, ?, ?, ?, ?, ?)", rows)
    return len(rows)


def later_marks(store: Store, attempt: Attempt) -> tuple[LaterMark, ...]:
    """Return the marks that were kept of an attempt."""
    question = "SELECT house, layout, rules, score, outcome FROM regrades WHERE head = ? ORDER BY house, layout, rules"
    return tuple(LaterMark(*row) for row in store.rows(question, (attempt.head,)))
