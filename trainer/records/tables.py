"""Attempts as tables: CSV for a spreadsheet, JSON lines for programs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import UTC, datetime

from trainer.read import write_table
from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.gradebook import Rank, all_the_same, grades_of, score_of, tries
from trainer.records.record_file import write_line
from trainer.records.remarks import in_one_cell
from trainer.records.trust import BY_TRUST

COLUMNS = (
    "attempt", "code", "mode", "level", "seed", "began_utc", "ended_utc", "minutes", "actions", "refused", "score",
    "outcome", "stop-work", "rework", "tolerance", "habit", "closed", "gaps", "trust", "head_code",
    "trust_why", "try", "hints", "quiz_right", "quiz_total", "allowed_minutes", "used_minutes", "time_up",
    "extra_minutes", "break_minutes", "remarks", "eased", "judged_right", "judged_total", "sums_right", "sums_total",
)  # fmt: skip
"""One row a house, and one without a level for an attempt of questions alone. Counts of severities are of findings,
whether marked or not. What is of the whole attempt, from ``quiz_right`` on, stands in each of its rows, at
its end what is to be remarked on its course, how the board was eased, and questions of judgement apart from sums."""


def as_csv(attempts: Iterable[tuple[Attempt, str, str]], together: Mapping[str, str] | None = None) -> str:
    """Return attempts that hold, each with its label of trust and the reason for it, as CSV.

    ``together`` is what shows only where all are looked at, :func:`trainer.records.remarks.seen_together`.
    """
    every = list(attempts)
    ranks = {attempt.head: BY_TRUST.index(trust) for attempt, trust, _why in every}
    times = tries((attempt for attempt, _trust, _why in every), lambda each: ranks[each.head])
    rows: list[Sequence[object]] = [COLUMNS]
    for attempt, trust, why in every:
        seen = in_one_cell(attempt, together or {})
        rows += _rows(attempt, trust, why, [times[attempt.head, n] for n in range(len(attempt.houses))], seen)
    return write_table(rows)


def as_lines(attempts: Iterable[Attempt], rank: Rank = all_the_same) -> Iterator[bytes]:
    """Yield attempts as JSON lines: each line is what the attempt's own file holds, and its line of the gradebook."""
    every = list(attempts)
    times = tries(every, rank)
    for attempt in every:
        book = {**grades_of(attempt).as_json(), "tries": [times[attempt.head, n] for n in range(len(attempt.houses))]}
        yield write_line(attempt, book) + b"\n"


def _rows(attempt: Attempt, trust: str, why: str, times: Sequence[int], seen: str) -> Iterator[list[object]]:
    grades = grades_of(attempt)
    of_all = [
        _or_empty(grades.quiz_right), _or_empty(grades.quiz_total), _or_empty(grades.allowed_minutes),
        f"{grades.used_minutes:.1f}", _yes(grades.time_up), grades.extra_minutes, grades.break_minutes,
        seen, grades.eased, *map(_or_empty, grades.apart),
    ]  # fmt: skip
    ending = [_yes(attempt.closed), len(attempt.gaps), trust, attempt.head_code, why]
    for house, time, hints in zip(attempt.houses, times, attempt.hints, strict=True):
        severities = Counter(found["severity"] for act in house.acts for found in act["found"])
        counted = [severities[name] for name in ("stop-work", "rework", "tolerance", "habit")]
        yield [*_of_house(attempt, house), *counted, *ending, time, hints, *of_all]
    if attempt.papers and not attempt.houses:
        begun = [_moment(attempt.began), _moment(attempt.ended), f"{grades.used_minutes:.1f}"]
        first = [attempt.id, attempt.code, attempt.mode, "", "", *begun, "", "", "", "", "", "", "", ""]
        yield [*first, *ending, "", grades.hints, *of_all]


def _of_house(attempt: Attempt, house: RecordedHouse) -> list[object]:
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
        _or_empty(score_of(house)),
        house.mark["outcome"] if house.mark else "",
    ]


def _or_empty(value: int | None) -> object:
    return "" if value is None else value


def _yes(holds: bool) -> str:
    return "yes" if holds else "no"


def _moment(at: int) -> str:
    return datetime.fromtimestamp(at // 1000, UTC).strftime("%Y-%m-%d %H:%M:%S")
