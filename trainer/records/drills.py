"""Drills in the records: one entry tells how a drill went, in an attempt of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from trainer.course.sittings import WATCH
from trainer.drill import Drill
from trainer.records.attempt import Attempt
from trainer.records.chain import JsonObject
from trainer.records.entries import DrillEntry, finding_facts
from trainer.records.seat import Seat
from trainer.records.store import Store, read_body
from trainer.session import Session


def keep_drill(seat: Seat, drill: Drill, session: Session) -> Attempt:
    """Put how a drill went in the store, sign it as this seat, and return it.

    Mistakes that were taken back are kept too: they come back for review as those on a whole house do.

    :raises NotWritten: where it can't be recorded.
    """
    journal = seat.journal("practice")
    found = [finding for outcome in session.outcomes for finding in outcome.findings]
    result = drill.result(session)
    journal.note(
        DrillEntry(
            at=seat.clock(), drill=drill.kind, level=drill.level.id, seed=drill.seed, reached=result.reached,
            goals=result.goals, right=result.right, hinted=bool(session.hints), found=finding_facts(found),
            rules=list(drill.rules),
        )
    )  # fmt: skip
    return journal.finish(seat.key)


WATCHED = WATCH.format(step="")
"""With this begins the name under which a part of a film is kept that was watched: no drill was done there."""


def keep_watched(seat: Seat, name: str, level: str, right: int, asked: int) -> Attempt:
    """Put in the store that a part of the film of a house was watched, and how many of its questions went right.

    :raises NotWritten: where it can't be recorded.
    """
    journal = seat.journal("practice")
    journal.note(
        DrillEntry(
            at=seat.clock(), drill=name, level=level, seed=0, reached=right, goals=asked, right=right == asked,
            hinted=False, found=[], rules=[],
        )
    )  # fmt: skip
    return journal.finish(seat.key)


def times_done(store: Store, code: str) -> Counter[str]:
    """Return by their names how often one code name came to the end of each drill, on any house."""
    return Counter(str(body["drill"]) for body in _drills(store, code))


def done_right(store: Store, code: str) -> dict[str, dict[str, bool]]:
    """Return by level and kind the drills that one code name did, and whether one of that kind was all right."""
    found: dict[str, dict[str, bool]] = {}
    for body in _drills(store, code):
        if str(body["drill"]).startswith(WATCHED):
            continue
        of_level = found.setdefault(str(body["level"]), {})
        of_level[str(body["drill"])] = bool(body["right"]) or of_level.get(str(body["drill"]), False)
    return found


def _drills(store: Store, code: str) -> Iterator[JsonObject]:
    mine = {str(opening.get("attempt")) for opening in store.openings() if opening.get("code") == code}
    question = 'SELECT attempt, body FROM entries WHERE body LIKE \'%"kind":"drill"%\' ORDER BY attempt, n'
    for attempt, text in store.rows(question):
        body = read_body(text)
        if attempt in mine and body.get("kind") == "drill":
            yield body
