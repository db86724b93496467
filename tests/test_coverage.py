"""Nothing of the job or of the unit is left uncovered, and every rule is in play on at least two levels."""

import json
from functools import cache
from itertools import islice

import pytest
from attempts import layout_of, level_of
from recall import planted
from sizes import some
from typer.testing import CliRunner

from trainer.cli import app
from trainer.coverage import CoverageRow, coverage
from trainer.drill import drills
from trainer.quiz import Question, parse_bank
from trainer.quiz.unit import TOPICS, UNIT_ITEMS
from trainer.rules import all_rules
from trainer.shipped import bank_paths, level_paths
from trainer.terms import STAGES

IDS = sorted((path.stem for path in level_paths()), key=lambda name: len(layout_of(name).members))
UNIT = 14
"""Items that the trade brief lists of the unit CPCCCA3006, in its own words: steel trusses are outside our scope."""


def questions() -> list[Question]:
    return [question for path in bank_paths() for question in parse_bank(path.read_bytes(), path.name)]


@cache
def rows_of(ids: tuple[str, ...]) -> tuple[CoverageRow, ...]:
    return tuple(coverage([(level_of(name), layout_of(name)) for name in ids], questions()))


def rows(ids: list[str]) -> list[CoverageRow]:
    return list(rows_of(tuple(ids)))


def row(found: list[CoverageRow], name: str) -> CoverageRow:
    (one,) = [row for row in found if row.name == name]
    return one


def test_nothing_is_uncovered() -> None:
    found = rows(IDS)
    assert [row.name for row in found if not row.covered] == []
    assert sum(row.of == "unit" for row in found) == UNIT == len(UNIT_ITEMS)
    assert {row.name for row in found if row.of == "rule"} == {rule.name for rule in all_rules()}


def test_every_step_names_real_drills_and_topics_with_questions_and_every_topic_and_drill_is_used() -> None:
    steps = [row for row in rows(IDS) if row.of == "step"]
    assert {drill for row in steps for drill in row.drills} == {kind.name for kind in drills()}
    assert {topic for row in rows(IDS) for topic in row.topics} == set(TOPICS)
    assert all(row.topics for row in steps)


def test_every_stage_of_the_job_has_steps() -> None:
    from trainer.coverage.steps import STEPS

    assert {step.stage for step in STEPS} == set(STAGES)
    assert len({step.name for step in STEPS}) == len(STEPS)


def test_what_no_level_has_is_told() -> None:
    """On one plain shed there are no hips, no valleys, no internal walls, and nothing came wrong."""
    bare = {row.name for row in rows(["pardalote"]) if not row.covered}
    assert {"hips", "saddles", "delivery", "walls", "two spans", "across", "along", "near face"} <= bare
    assert not {"plates", "standard", "tie-down", "verge", "gable"} & bare


def test_a_level_that_leaves_a_stage_to_others_does_not_cover_it() -> None:
    assert "fix" not in level_of("thornbill").lesson.stages
    found = rows(["thornbill"])
    assert row(found, "plates").levels == ("thornbill",)
    assert row(found, "tie-down").levels == ()


def test_internal_walls_are_told_along_from_across() -> None:
    found = rows(IDS)
    assert "whistler" in row(found, "walls across").levels
    assert "whistler" in row(found, "walls along").levels
    # Its one wall runs along under the ridge, so all trusses cross it.
    assert "avocet" in row(found, "walls across").levels
    assert "avocet" not in row(found, "walls along").levels


@cache
def taught() -> dict[str, tuple[str, ...]]:
    return {row.name: row.levels for row in rows(IDS) if row.of == "rule"}


@pytest.mark.parametrize("rule", some([rule.name for rule in all_rules()], 8, 54))
def test_every_rule_is_in_play_on_at_least_two_levels(rule: str) -> None:
    """A rule is in play where its mistake can be made: there it can be planted in a right attempt."""
    likely = [*(name for name in IDS if name in taught()[rule]), *(name for name in IDS if name not in taught()[rule])]
    in_play = (name for name in likely if planted(name, 1, rule) is not None)
    assert len(list(islice(in_play, 2))) == 2


def test_the_command_tells_the_table_and_leaves_with_0() -> None:
    told = CliRunner().invoke(app, ["coverage"])
    assert told.exit_code == 0
    assert all(head in told.stdout for head in ("Steps of the job", "CPCCCA3006", "Rules"))
    data = json.loads(CliRunner().invoke(app, ["coverage", "--json"]).stdout)
    assert {each["of"] for each in data} == {"step", "unit", "evidence", "rule"}
    assert all(each["covered"] for each in data)
