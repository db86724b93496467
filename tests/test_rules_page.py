"""The page of rules is current, and nothing that the job asks for is left without a rule or a reason."""

from typer.testing import CliRunner

from trainer.cli import app
from trainer.rules import DUTIES, all_rules, rules_page
from trainer.shipped import level_paths

NAMES = {rule.name for rule in all_rules()}
PAGE = level_paths()[0].parent / "RULES.md"


def test_the_page_of_the_documentation_is_current():
    """Made by: trainer rules --page > levels/RULES.md"""
    assert PAGE.read_text(encoding="utf-8") == rules_page()


def test_the_command_prints_the_page():
    result = CliRunner().invoke(app, ["rules", "--page"])
    assert (result.exit_code, result.output) == (0, rules_page())


def test_every_rule_is_on_the_page_with_all_it_says():
    for rule in all_rules():
        for said in (f"### {rule.name}\n", rule.why, rule.fix, rule.safety, rule.source):
            assert said in rules_page()


def test_whatever_the_job_asks_is_covered_or_says_why_not():
    for duty in DUTIES:
        assert set(duty.rules) <= NAMES, duty.what
        assert duty.rules or duty.note, duty.what


def test_every_rule_covers_something_that_the_job_asks():
    assert {name for duty in DUTIES for name in duty.rules} == NAMES


def test_all_four_kinds_are_there_and_nothing_twice():
    assert {duty.kind for duty in DUTIES} == {"must", "should", "limit", "danger"}
    assert len({duty.what for duty in DUTIES}) == len(DUTIES)
