"""Drills in the records: one entry tells how a drill went, in an attempt of its own."""

from __future__ import annotations

from trainer.drill import Drill
from trainer.records.attempt import Attempt
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


def done_right(store: Store, code: str) -> dict[str, dict[str, bool]]:
    """Return by level and kind the drills that one code name did, and whether one of that kind was all right."""
    mine = {str(opening.get("attempt")) for opening in store.openings() if opening.get("code") == code}
    question = 'SELECT attempt, body FROM entries WHERE body LIKE \'%"kind":"drill"%\' ORDER BY attempt, n'
    found: dict[str, dict[str, bool]] = {}
    for attempt, text in store.rows(question):
        body = read_body(text)
        if attempt in mine and body.get("kind") == "drill":
            of_level = found.setdefault(str(body["level"]), {})
            of_level[str(body["drill"])] = bool(body["right"]) or of_level.get(str(body["drill"]), False)
    return found
