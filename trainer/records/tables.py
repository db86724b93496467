"""Attempts as tables: CSV for a spreadsheet, JSON lines for programs."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime

from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.record_file import write_record

COLUMNS = (
    "attempt", "code", "mode", "level", "seed", "began_utc", "ended_utc", "minutes", "actions", "refused", "score",
    "outcome", "stop-work", "rework", "tolerance", "habit", "closed", "gaps", "trust", "head_code",
    "trust_why",
)  # fmt: skip
"""One row a house. Counts of severities are of findings, whether marked or not."""


def as_csv(attempts: Iterable[tuple[Attempt, str, str]]) -> str:
    """Return attempts that hold, each with its label of trust and the reason for it, as CSV, one row a house."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")  # RFC 4180
    writer.writerow(COLUMNS)
    for attempt, trust, why in attempts:
        writer.writerows([*_row(attempt, house, trust), why] for house in attempt.houses)
    return out.getvalue()


def as_lines(attempts: Iterable[Attempt]) -> Iterator[bytes]:
    """Yield attempts as JSON lines: each line is what the attempt's own file holds."""
    for attempt in attempts:
        yield write_record(attempt) + b"\n"


def _row(attempt: Attempt, house: RecordedHouse, trust: str) -> list[str | int]:
    severities = Counter(found["severity"] for act in house.acts for found in act["found"])
    mark = house.mark or {"score": "", "outcome": ""}
    return [
        attempt.id,
        attempt.code,
        attempt.mode,
        house.level,
        house.seed,
        _moment(house.began),
        _moment(house.ended),
        f"{max(0, house.ended - house.began) / 60_000:.1f}",
        len(house.acts),
        sum("refused" in act for act in house.acts),
        mark["score"],
        mark["outcome"],
        *(severities[name] for name in ("stop-work", "rework", "tolerance", "habit")),
        "yes" if attempt.closed else "no",
        len(attempt.gaps),
        trust,
        attempt.head_code,
    ]


def _moment(at: int) -> str:
    return datetime.fromtimestamp(at // 1000, UTC).strftime("%Y-%m-%d %H:%M:%S")
