"""The gradebook of a class: a line for each attempt on the page, and the columns that a spreadsheet gets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.clock import moment
from trainer.records.gradebook import Grades, grades_of, score_of, tries
from trainer.records.trust import BY_TRUST
from trainer.report.in_words import house_title
from trainer.words import _, ngettext

BOOK_HEAD = (_("Code name"), _("Begun"), _("Marks"), _("Questions"), _("Time"), _("Relied on"))
NONE = "–"
"""What stands in a cell that has nothing to say."""
GRADE_COLUMNS = (
    "quiz_right", "quiz_total", "allowed_minutes", "used_minutes", "time_up", "extra_minutes", "break_minutes",
)  # fmt: skip
"""What is of a whole attempt, by the names that every export has for it."""


APART_COLUMNS = ("judged_right", "judged_total", "sums_right", "sums_total")
"""And of the questions those of judgement apart from the sums."""


def ranks_of(attempts: Iterable[tuple[Attempt, str]]) -> dict[bytes, int]:
    """Return how attempts rank by their labels, by their last hashes."""
    return {attempt.head: BY_TRUST.index(trust) for attempt, trust in attempts}


def titles_of(houses: Iterable[RecordedHouse]) -> dict[str, str]:
    """Return the title of each house by its id, of several under one id the last's; two alike have their ids beside."""
    titles = {house.level: house_title(house.level, house.text) for house in houses}
    often = Counter(titles.values())
    return {level: title if often[title] == 1 else f"{title} ({level})" for level, title in titles.items()}


def apart_cells(grades: Grades) -> list[object]:
    """Return the cells under :data:`APART_COLUMNS`."""
    return [_cell(count) for count in grades.apart]


def grade_cells(grades: Grades) -> list[object]:
    """Return the cells under :data:`GRADE_COLUMNS`."""
    said = grades.as_json()
    return [_cell(said[name]) for name in GRADE_COLUMNS]


def _cell(value: object) -> object:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else value


def book_rows(
    attempts: Sequence[tuple[Attempt, str]], whys: Mapping[bytes, str] | None = None
) -> tuple[tuple[str, ...], ...]:
    """Return a line for each attempt with a house or a paper, by code name and time; marks only once it is closed.

    The reason in ``whys``, by the last hash, stands beside the label of what was sat or signed: of practice it is no
    news.
    """
    ranks = ranks_of(attempts)
    times = tries((attempt for attempt, _trust in attempts), lambda each: ranks[each.head])
    told = [each for each in attempts if each[0].houses or each[0].papers]
    told.sort(key=lambda each: (each[0].code, each[0].began, each[0].id))
    return tuple(tuple(_row(attempt, _label(attempt, trust, whys or {}), times)) for attempt, trust in told)


def filled(head: Sequence[str], rows: Sequence[Sequence[str]]) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Return a table, its ``head`` and ``rows``, without the columns that are empty in each row."""
    kept = [any(row[column] not in ("", NONE) for row in rows) for column in range(len(head))]
    short, *rest = (tuple(cell for cell, there in zip(row, kept, strict=True) if there) for row in (head, *rows))
    return short, tuple(rest)


def _label(attempt: Attempt, trust: str, whys: Mapping[bytes, str]) -> str:
    why = whys.get(attempt.head)
    due = attempt.mode == "assessment" or any(seal.role == "assessor" for seal in attempt.seals)
    return f"{trust}: {why}" if why and due else trust


def _row(attempt: Attempt, trust: str, times: Mapping[tuple[bytes, int], int]) -> Iterable[str]:
    grades, shown = grades_of(attempt), not attempt.silent
    yield attempt.code
    yield moment(attempt.began)
    yield "; ".join(_marks(attempt, shown, times)) if attempt.houses else NONE
    right = grades.quiz_right if shown else None
    text = _("{right} of {total}").format(right="–" if right is None else right, total=grades.quiz_total)
    apart = grades.sums_apart if shown else ""
    yield NONE if grades.quiz_total is None else f"{text}. {apart}" if apart else text
    yield "; ".join(_time(grades))
    yield trust


def _marks(attempt: Attempt, shown: bool, times: Mapping[tuple[bytes, int], int]) -> Iterable[str]:
    for n, house in enumerate(attempt.houses):
        score = score_of(house) if shown else None
        parts = [f"{house_title(house.level, house.text)} {'–' if score is None else score}"]
        time = times[attempt.head, n]
        parts += [_("try {n}").format(n=time)] if time > 1 else []
        hints = attempt.hints[n]
        parts += [ngettext("{n} hint", "{n} hints", hints).format(n=hints)] if hints else []
        yield ", ".join(parts)


def _time(grades: Grades) -> Iterable[str]:
    if grades.allowed_minutes is None:
        yield _("{n:.1f} min").format(n=grades.used_minutes)
    else:
        yield _("{n:.1f} of {all} min").format(n=grades.used_minutes, all=grades.allowed_minutes)
    if grades.time_up:
        yield _("time was up")
    if grades.extra_minutes:
        yield _("{n} min granted").format(n=grades.extra_minutes)
    if grades.break_minutes:
        yield _("{n} min of breaks").format(n=grades.break_minutes)
    if grades.eased:
        yield grades.eased
