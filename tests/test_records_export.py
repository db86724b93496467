"""xAPI statements, CSV and JSON lines."""

from __future__ import annotations

import copy
import csv
import io
import json
from typing import Any

import pytest
from records_made import attempt, uuid_of, with_answers
from xapi_check import faults_of

from trainer.records.attempt import Attempt
from trainer.records.record_file import read_record, write_record
from trainer.records.remarks import remarks
from trainer.records.tables import COLUMNS, as_csv, as_lines
from trainer.records.xapi import statements


def test_statements_tell_the_attempt_in_order() -> None:
    told = statements(with_answers())
    verbs = [each["verb"]["id"].rsplit("/", 1)[1] for each in told]
    assert verbs == [
        "attempted", "attempted", "passed", "attempted", "failed", "attempted", *["answered"] * 5, "completed",
    ]  # fmt: skip
    assert all(each["verb"]["id"].startswith("http://adlnet.gov/expapi/verbs/") for each in told)
    passed = told[2]["result"]
    assert passed["score"] == {"scaled": 0.83, "raw": 83, "min": 0, "max": 100}
    assert passed["success"] is True
    assert passed["duration"] == "PT61.23S"
    assert told[2]["timestamp"] == "2025-10-09T08:54:21.234Z"  # date -u -d @1760000061.234
    assert told[4]["result"]["success"] is False
    assert {each["context"]["registration"] for each in told} == {uuid_of(1)}
    assert {each["actor"]["account"]["name"] for each in told} == {"wren-07"}


def test_questions_are_in_the_forms_of_the_standard() -> None:
    told = [each for each in statements(with_answers()) if "answered" in each["verb"]["id"]]
    patterns = [each["object"]["definition"]["correctResponsesPattern"][0] for each in told]
    # xAPI 1.0.3, part two, appendix C: how each interaction type writes its responses.
    assert patterns == ["a[,]c", "598[:]602", "a[.]x[,]b[.]y", "a[,]b[,]c", "-0.5[:]1e-7"]
    assert [each["result"]["response"] for each in told] == ["a", "600.5", "a[.]x", "b[,]a", ""]
    assert told[0]["object"]["definition"]["choices"][0] == {"id": "a", "description": {"en-AU": "The girder"}}


@pytest.mark.parametrize("made", [attempt(), attempt(0, closed=False), with_answers()])
def test_our_own_look_finds_nothing_wrong(made: Attempt) -> None:
    told = statements(made)
    assert [faults_of(each) for each in told] == [()] * len(told)
    assert len({each["id"] for each in told}) == len(told)
    assert told == statements(read_record(write_record(made), "it").attempt), "sent again, they are the same"


def with_change(statement: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    changed = copy.deepcopy(statement)
    *way, last = path.split("/")
    at: Any = changed
    for key in way:
        at = at[int(key)] if key.isdigit() else at[key]
    at[last] = value
    return changed


@pytest.mark.parametrize(
    ("n", "path", "value", "says"),
    [
        (2, "id", "7", "id: no UUID"),
        (2, "stored", "x", "stored"),
        (2, "timestamp", "2025-10-09T08:54:21+10:00", "timestamp"),
        (2, "actor/mbox", "mailto:a@b.invalid", "actor"),
        (2, "verb/id", "passed", "verb.id"),
        (2, "verb/display", {}, "verb.display"),
        (2, "object/id", "no iri", "object.id"),
        (2, "result/score/raw", "83", "result.score: not all"),
        (2, "result/score/raw", 101, "result.score: out of"),
        (2, "result/success", 1, "result.success"),
        (2, "result/response", 7, "result.response"),
        (2, "result/duration", "PT1.234S", "result.duration"),
        (2, "result/duration", "PT", "result.duration"),
        (2, "result/extensions/note", "x", "result.extensions"),
        (2, "context/registration", None, "context.registration"),
        (6, "object/definition/choices/0/id", "b", "an id twice"),
        (6, "object/definition/correctResponsesPattern", ["a[,]z"], "not offered"),
        (6, "object/definition/correctResponsesPattern", ["a,b c"], "form for choice"),
        (6, "object/definition/source", [], "not for choice"),
        (7, "object/definition/correctResponsesPattern", ["a"], "form for numeric"),
        (8, "object/definition/correctResponsesPattern", ["a[,]x"], "form for matching"),
        (9, "object/definition/interactionType", "likert", "interactionType"),
    ],
)
def test_our_own_look_finds_what_a_record_store_rejects(n: int, path: str, value: Any, says: str) -> None:
    faults = faults_of(with_change(statements(with_answers())[n], path, value))
    assert any(says in fault for fault in faults), faults


def test_a_table_has_a_row_for_each_house() -> None:
    made = with_answers()
    rows = list(
        csv.reader(
            io.StringIO(as_csv([(made, "self-study", "no ticket"), (attempt(), "supervised", "a ticket")]), newline="")
        )
    )
    assert tuple(rows[0]) == COLUMNS
    told = [dict(zip(COLUMNS, row, strict=True)) for row in rows[1:]]
    assert [row["level"] for row in told] == ["wren", "emu", "owl", "wren"]
    first = told[0]
    assert (first["actions"], first["refused"], first["score"], first["outcome"]) == ("3", "1", "83", "met")
    assert [first[name] for name in ("stop-work", "rework", "tolerance", "habit")] == ["0", "2", "0", "1"]
    assert (first["minutes"], first["began_utc"]) == ("1.0", "2025-10-09 08:53:20")
    assert [row["trust"] for row in told] == ["self-study"] * 3 + ["supervised"]
    assert told[0]["remarks"] == " ".join(remarks(made))


def test_no_cell_is_a_formula() -> None:
    cells = [
        cell for row in csv.reader(io.StringIO(as_csv([(with_answers(), "self-study", "no ticket")]))) for cell in row
    ]
    assert not [cell for cell in cells if cell[:1] in "=+-@\t" and cell]


def test_lines_are_the_files_themselves() -> None:
    both = [attempt(), with_answers()]
    lines = b"".join(as_lines(both)).splitlines()
    assert [read_record(line, "it").attempt.head for line in lines] == [each.head for each in both]
    assert all(json.loads(line)["kind"] == "attempt record" for line in lines)
