"""Judging: what a rule is asked, stages that count as done, and the command that lists the rules."""

import json

import pytest
from attempts import CASES, actions_of, attempt, layout_of, level_of, set_up
from typer.testing import CliRunner

from trainer.cli import app
from trainer.level import Lesson
from trainer.read import read_yaml
from trainer.rules import all_rules, judge
from trainer.rules.rule import Found, Rule
from trainer.session import Session
from trainer.site import Event, Fit, Fix, HandOver, Stand, act, start
from trainer.site.actions import Clear, Measure, Report

RUN = CliRunner()
FIELDS = {"name", "stage", "severity", "what", "why", "fix", "safety", "source"}


def test_a_rule_is_asked_only_about_the_actions_it_looks_at():
    """No rule looks at a reading taken: to measure is never wrong, and costs nothing, whatever the house."""
    asked = {kind for rule in all_rules() for kind in rule.on}
    assert Measure not in asked
    nothing: object = None
    event = Event(0, Measure(what="level", wall="A"))
    site = start(Session(level_of("shed"), layout=layout_of("shed")).job)
    assert judge(nothing, event, site) == ()


def test_a_finding_carries_the_rules_words_and_the_cases_facts():
    rule = Rule(
        "a-rule", "stand", "habit", (Stand,), "{member}: {got}, {want}.", "why", "fix", "safety", "source",
        lambda before, event, after: iter([Found("ST1", "this", "that", "a cause")]),
    )  # fmt: skip
    (found,) = rule.check(None, None, None)
    finding = rule.finding(Event(7, HandOver()), found)
    assert (finding.what, finding.event, finding.cause) == ("ST1: this, that.", 7, "a cause")
    assert (finding.why, finding.fix, finding.safety, finding.source) == ("why", "fix", "safety", "source")


def test_judging_again_gives_the_same_and_changes_nothing():
    session = attempt("hut", set_up(layout_of("hut"), "TG1"))
    result = act(session.site, 9, Stand(tag="J1", start=(1200, 1800), finish=(0, 1800)))
    after, event = result
    once = judge(session.site, event, after)
    assert once and judge(session.site, event, after) == once


@pytest.mark.parametrize("stages", [("stand", "brace"), ("stand",), ("stand", "fix"), ("brace", "fix"), ("fix",)])
def test_stages_that_count_as_done_are_not_missed(stages):
    """A right diary of the stages alone has no finding."""
    level = level_of("corner").model_copy(update={"lesson": Lesson(stages=stages)})
    order = ["G1", "TG1", "H1", "H2", "J1", "C1", "C2", "C3", "C4", "ST1", "ST5", "S1", "ST6", "ST7", "GT1", "GT2"]
    actions, up = [], []
    for tag in [*order, "ST2", "ST3", "ST4"]:
        actions += [Fit(part="trimmer", on="S1", at=150)] if tag == "S1" else []
        actions += set_up(layout_of("corner"), tag, up)
        up.append(tag)
    verbs = {"stand": "stand", "brace": "brace", "fit": "fix", "fix": "fix", "plumb": "stand"}
    ours = [action for action in actions if verbs[action.do] in stages]
    session = Session(level, layout=layout_of("corner")).replay([*ours, HandOver()])
    assert (session.findings, session.refused) == ((), ())


def test_what_was_given_standing_still_wants_its_fixings():
    level = level_of("hut").model_copy(update={"lesson": Lesson(stages=("fix", "hand-over"))})
    found = Session(level, layout=layout_of("hut")).replay([HandOver()]).findings
    hung = {"H1", "H2", "J1", "C1", "C2", "C3", "C4"}
    assert {f.member for f in found if f.rule == "hanger-missing"} == hung
    assert {f.member for f in found if f.rule == "tie-down-missing"} == set(layout_of("hut").by_tag)
    assert {f.member for f in found if f.rule == "plies-not-joined"} == {"TG1"}
    assert {f.member for f in found if f.rule == "extension-not-fixed"} == {"H1", "H2", "J1"}
    of_links = {"hanger-missing", "tie-down-missing", "plies-not-joined", "extension-not-fixed"}
    assert {f.rule for f in found} == {*of_links, "not-inspected"}


def test_the_rules_are_listed_for_programs():
    result = RUN.invoke(app, ["rules", "--json"])
    told = json.loads(result.stdout)
    assert result.exit_code == 0
    assert [rule["name"] for rule in told] == [rule.name for rule in all_rules()]
    assert all(set(rule) == FIELDS and all(rule.values()) for rule in told)


def test_the_rules_are_listed_for_people():
    result = RUN.invoke(app, ["rules"])
    assert result.exit_code == 0
    assert all(rule.name in result.stdout and rule.why in result.stdout for rule in all_rules())
    assert "practice aid" in result.stdout


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.name)
def test_each_rule_is_explained(rule):
    result = RUN.invoke(app, ["rules", rule.name])
    assert result.exit_code == 0
    assert all(text in result.stdout for text in (rule.name, rule.why, rule.fix, rule.safety, rule.source))
    assert not set("{}") & set(result.stdout)
    assert json.loads(RUN.invoke(app, ["rules", rule.name, "--json"]).stdout)["name"] == rule.name


def test_an_unknown_rule_is_a_wrong_call():
    result = RUN.invoke(app, ["rules", "off-staton"])
    assert (result.exit_code, result.stdout) == (2, "")
    assert "off-station" in result.stderr


def test_the_cases_levels_are_named_as_their_files():
    for path in (CASES / "levels").iterdir():
        assert level_of(path.stem).id == path.stem


def causes(session, *rules):
    return {finding.cause for finding in session.findings if finding.rule in rules}


def test_trusses_missing_after_a_fall_are_one_thing_with_it():
    shed = layout_of("shed")
    first, second = (
        Stand(tag=tag, start=shed.by_tag[tag].start, finish=shed.by_tag[tag].finish) for tag in ("ST1", "ST4")
    )
    actions = [first, second, *set_up(shed, "ST4")[1:], Report(fault="a fall"), Clear(), HandOver()]
    session = attempt("shed", actions)
    (fall,) = causes(session, "row-with-nothing-solid")
    by_member = {finding.member: finding.cause for finding in session.findings if finding.rule == "truss-missing"}
    assert by_member["ST1"] == fall
    assert by_member["ST2"] == "stand ST2", "it never stood"


def test_a_slotted_bracket_changed_for_a_hard_fixing_is_one_thing_and_the_roof_is_not_whole():
    case = read_yaml((CASES / "rules" / "slotted-bracket-missing.yaml").read_bytes(), "").data["innocent"][0]
    actions = []
    for entry in case["actions"]:
        for tag in entry.get("ready", ()):
            actions += set_up(layout_of("barn"), tag, entry["ready"][: entry["ready"].index(tag)])
        actions += [] if "ready" in entry else actions_of([entry])
    slots = [action for action in actions if isinstance(action, Fix) and action.with_ == "slotted bracket"]
    hard = slots[-1].model_copy(update={"with_": "framing anchor"})
    session = attempt("barn", [hard if action is slots[-1] else action for action in actions])
    assert len(causes(session, "fixed-hard-to-internal-wall", "slotted-bracket-missing")) == 1
    assert "slotted-bracket-missing" in {finding.rule for finding in session.findings if finding.missing}


def test_a_truss_stood_out_of_order_for_two_reasons_is_one_choice():
    session = attempt("robin", set_up(layout_of("robin"), "ST1"))
    assert len([finding for finding in session.findings if finding.rule == "out-of-order"]) == 2
    assert len(causes(session, "out-of-order")) == 1
