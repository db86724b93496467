"""How fast records are: ``pytest tests/bench/test_records_bench.py --benchmark-only``. Nothing here asserts a time.

Aims: one action written to this disk under 10 ms at the median; 1,000 attempt files collected and judged under 60 s,
and again under 6 s; a class report of 500 attempts under 5 s. The attempts are right ones of the flush L, some 360
actions each.
"""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import Any

import pytest
from attempts import level_of
from records_made import NOON, acted, chain, ended, house_begun, marked, opening, uuid_of
from typer.testing import CliRunner

from trainer.cli import app
from trainer.records.attempt import Attempt
from trainer.records.judging import judge_again, mark_of
from trainer.records.record_file import read_record, write_record
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.session import Session
from trainer.shipped import find_level


def right_attempt(seed: int) -> Attempt:
    """A right attempt at the flush L, of an invented code."""
    level = level_of("wren")
    diary = rehearse(level, 1)
    session = Session(level, 1, "assessment").replay(diary.actions)
    text = find_level("wren").read_text(encoding="utf-8")
    told = [opening(seed, f"learner-{seed % 30:02}", "assessment"), house_begun(NOON, "wren", text, 1)]
    for outcome in session.outcomes:
        action = outcome.action.model_dump(mode="json", by_alias=True, exclude_none=True)
        told.append(acted(NOON + 1000 * outcome.index, outcome.index, action, outcome.findings))
    got = mark_of(session)
    return Attempt(chain(*told, marked(NOON + 10**6, got.score, got.outcome), ended(NOON + 10**6)))


@pytest.fixture(scope="module")
def one() -> Attempt:
    return right_attempt(1)


def test_writing_one_action(benchmark: Any, tmp_path: Path, one: Attempt) -> None:
    acts = itertools.cycle([dict(entry.body) for entry in one.entries if entry.body["kind"] == "act"])
    with Store.open(tmp_path / FILE) as store:
        tip = store.begin(opening(), {**one.entries[1].body})

        def write() -> None:
            nonlocal tip
            tip = store.append(tip, next(acts))

        benchmark.pedantic(write, rounds=500, warmup_rounds=10)


def test_reading_one_file(benchmark: Any, one: Attempt) -> None:
    content = write_record(one)
    assert benchmark(lambda: read_record(content, "it").untouched)


def test_judging_one_attempt_again(benchmark: Any, one: Attempt) -> None:
    assert benchmark(lambda: judge_again(one)[0].same)


@pytest.fixture(scope="module")
def stick(tmp_path_factory: pytest.TempPathFactory, one: Attempt) -> Path:
    """A thousand files, all of them copies of one: nothing takes longer to compare."""
    stick = tmp_path_factory.mktemp("stick")
    for seed in range(1000):
        opened = {**one.entries[0].body, "attempt": uuid_of(seed), "code": f"learner-{seed % 30:02}"}
        made = Attempt(chain(opened, *(dict(entry.body) for entry in one.entries[1:])))
        (stick / f"{seed}.attempt.json").write_bytes(write_record(made))
    return stick


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("office")


def collected(stick: Path, office: Path) -> str:
    return CliRunner().invoke(app, ["records", "collect", str(stick), "--data", str(office)]).stdout


def test_collecting_a_thousand_files(benchmark: Any, stick: Path, office: Path) -> None:
    assert benchmark.pedantic(lambda: collected(stick, office), rounds=1) == "1000 new\n"


def test_collecting_a_thousand_files_again(benchmark: Any, stick: Path, office: Path) -> None:
    collected(stick, office)
    assert benchmark.pedantic(lambda: collected(stick, office), rounds=1) == "1000 here already\n"


def test_listing_a_thousand_attempts(benchmark: Any, tmp_path: Path, one: Attempt) -> None:
    with Store.open(tmp_path / FILE) as store:
        for seed in range(1000):
            store.begin({**one.entries[0].body, "attempt": uuid_of(seed)}, *(entry.body for entry in one.entries[1:]))
    words = ["records", "list", "--data", str(tmp_path)]
    assert benchmark.pedantic(lambda: CliRunner().invoke(app, words).stdout.count("wren 100"), rounds=1) == 1000


def test_a_class_report_of_500_attempts(benchmark: Any, tmp_path: Path, one: Attempt) -> None:
    with Store.open(tmp_path / FILE) as store:
        for seed in range(500):
            opened = {**one.entries[0].body, "attempt": uuid_of(seed), "code": f"learner-{seed % 30:02}"}
            store.begin(opened, *(entry.body for entry in one.entries[1:]))
    words = ["report", "-o", str(tmp_path / "class.html"), "--data", str(tmp_path)]
    said = benchmark.pedantic(lambda: CliRunner().invoke(app, words).stderr, rounds=1)
    assert "30 code names, 500 attempts" in said
