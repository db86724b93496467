"""``trainer items``: how questions did, from answers collected or from a table."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.data import DataFolder, every_attempt, stored
from trainer.cli.given import AsJson, faults_explained, file_bytes, show, wrong_call
from trainer.cli.options import option
from trainer.cli.table import table
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.quiz.items import ItemStatistics, Statistics

Table = Annotated[Path | None, option("--csv", "FILE", "A table of 0 and 1: item names, then a row a learner.")]
MOST_BYTES = 64_000_000
FIELDS = ("item", "p", "d", "point_biserial", "rest_point_biserial")
NONE = _("not available")


def items(csv: Table = None, as_json: AsJson = False, data: DataFolder = None) -> None:
    """Say how questions did.

    Difficulty, discrimination, correlations, KR-20 and standard error: from the answers in the records, or from a
    table. With few learners less is said. JSON holds every number that can be had, whatever the number of learners.
    """
    from trainer.quiz.items import read_answers, statistics

    if csv is not None:
        content = file_bytes(csv, MOST_BYTES)
        if len(content) > MOST_BYTES:
            wrong_call(
                _("{csv}: is larger than {most} MB; split the table.").format(csv=csv, most=MOST_BYTES // 1_000_000)
            )
        with faults_explained():
            names, answers = read_answers(content, str(csv))
    else:
        names, answers = _collected(data)
    found = statistics(names, answers)
    show(json.dumps(_for_programs(found)) if as_json else _for_people(found))


def _collected(data: Path | None) -> tuple[tuple[str, ...], list[tuple[int, ...]]]:
    """The first answer of each person to each question that all of them answered."""
    by_person: dict[str, dict[str, int]] = {}
    with stored(data) as store:
        for attempt in (each for each in every_attempt(store) if not each.silent):
            own = by_person.setdefault(attempt.code, {})
            for entry in attempt.answers:
                own.setdefault(str(entry.body["question"]), int(bool(entry.body["right"])))
    people = [own for own in by_person.values() if own]
    names = sorted(set.intersection(*(set(own) for own in people))) if people else []
    if not names:
        wrong_call(_("No question was answered by everybody in these records, so there is nothing to compare."))
    return tuple(names), [tuple(own[name] for name in names) for own in people]


def _for_programs(found: Statistics) -> dict[str, object]:
    return {
        "learners": found.learners,
        "kr20": found.kr20,
        "sem": found.sem,
        "items": [{name: getattr(item, name) for name in FIELDS} for item in found.items],
        "manner": found.manner,
    }


def _for_people(found: Statistics) -> str:
    manner = found.manner
    learners, asked = found.learners, len(found.items)
    parts = [
        ngettext("{n} learner", "{n} learners", learners).format(n=learners)
        + ngettext(", {n} item.", ", {n} items.", asked).format(n=asked)
    ]
    if manner == "counts only":
        counts = [(item.item, _("{right} of {all}").format(right=item.right, all=learners)) for item in found.items]
        parts.append(table((_("item"), _("right")), counts, "lr"))
        parts.append(_("Fewer than 10 learners: counts only. Shares and correlations would be chance."))
    elif manner == "early look":
        early = [
            (item.item, _two(item.p), _("{low} to {high}").format(low=_two(item.p_low), high=_two(item.p_high)))
            for item in found.items
        ]
        parts.append(table((_("item"), "p", _("95 % interval")), early, "lrr"))
        parts.append(
            _("An early look: fewer than 30 learners. The intervals are wide; don't change a question for them.")
        )
    else:
        rows = [_row(item) for item in found.items]
        parts.append(table((_("item"), "p", "D", _("r total"), _("r rest")), rows, "lrrrr"))
        parts.append(
            _("KR-20 {kr20}, standard error of measurement {sem}.").format(kr20=_two(found.kr20), sem=_two(found.sem))
            if manner == "whole"
            else _("Reliability is given from 100 learners on.")
        )
    parts.append(_("Nobody is failed on a safety item by statistics."))
    return "\n\n".join(parts)


def _row(item: ItemStatistics) -> tuple[str, ...]:
    return (item.item, *(_two(v) for v in (item.p, item.d, item.point_biserial, item.rest_point_biserial)))


def _two(value: float | None) -> str:
    return NONE if value is None else f"{value:.2f}"
