"""The mark: the contract's formula, one cause once, and the same however findings are ordered."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.level import Weights
from trainer.rules import Finding
from trainer.score import mark

WEIGHTS = Weights().by_severity()
SEVERITIES = ("stop-work", "rework", "tolerance", "habit")


def finding(severity="rework", event=0, member="ST1", cause="", rule="a-rule"):
    return Finding(rule, event, member, severity, "this", "that", "what", "why", "fix", "safety", "source", cause)


def findings():
    return st.lists(
        st.builds(
            finding,
            st.sampled_from(SEVERITIES),
            st.integers(0, 9),
            st.sampled_from(["ST1", "TG1", "H1"]),
            st.sampled_from(["", "fix TG1", "tie ST1"]),
            st.sampled_from(["one-rule", "other-rule"]),
        ),
        max_size=12,
    )


@pytest.mark.parametrize(("severity", "left"), [("stop-work", 75), ("rework", 92), ("tolerance", 97), ("habit", 99)])
def test_the_contracts_points(severity, left):
    """Contract: 25 (stop-work), 8 (rework), 3 (tolerance), 1 (habit)."""
    assert mark([finding(severity)], WEIGHTS, 80, True).score == left


def test_nothing_found_is_100_and_met():
    got = mark([], WEIGHTS, 80, True)
    assert (got.score, got.outcome, got.lines) == (100, "met", ())


def test_never_below_0():
    assert mark([finding("stop-work", event=i) for i in range(9)], WEIGHTS, 80, True).score == 0


def test_any_stop_work_is_not_yet_met_whatever_its_weight():
    assert mark([finding("stop-work")], WEIGHTS, 0, True).outcome == "not yet met"
    assert mark([finding("stop-work")], {**WEIGHTS, "stop-work": 0}, 80, True).outcome == "not yet met"


def test_stop_work_that_shares_its_cause_still_counts_as_stop_work():
    """Also where a level's own weights put something lighter above it."""
    shared = [finding("stop-work", cause="fix TG1"), finding("rework", cause="fix TG1")]
    got = mark(shared, {**WEIGHTS, "stop-work": 1}, 0, True)
    assert (got.score, got.outcome) == (92, "not yet met")


def test_the_practice_mark_is_met_when_it_is_reached():
    two = [finding(event=1), finding(event=2)]
    assert mark(two, WEIGHTS, 84, True).outcome == "met"
    assert mark(two, WEIGHTS, 85, True).outcome == "not yet met"


def test_without_a_hand_over_it_is_unfinished():
    assert mark([], WEIGHTS, 80, False).outcome == "unfinished"
    assert mark([finding("stop-work")], WEIGHTS, 80, False).outcome == "unfinished"


def test_a_level_may_give_its_own_weights():
    own = Weights(rework=20).by_severity()
    assert mark([finding("rework"), finding("habit", event=1)], own, 80, True).score == 79


def test_one_cause_counts_once_by_its_heaviest():
    hurt = finding("stop-work", event=4, member="H1", cause="fix TG1", rule="hip-before-truncated-girder")
    later = finding("rework", event=9, member="TG1", cause="fix TG1", rule="tie-down-missing")
    alone = finding("rework", event=9, member="ST4", cause="fix ST4", rule="tie-down-missing")
    got = mark([later, alone, hurt], WEIGHTS, 80, True)
    assert got.score == 67
    assert [(line.rule, line.member, line.points) for line in got.lines] == [
        ("hip-before-truncated-girder", "H1", 25),
        ("tie-down-missing", "ST4", 8),
        ("tie-down-missing", "TG1", 0),
    ]
    assert "hip before truncated girder" in got.lines[2].text


def test_findings_without_a_cause_are_causes_of_their_own():
    assert mark([finding(event=1), finding(event=1, member="ST2")], WEIGHTS, 80, True).score == 84


@given(findings(), st.randoms(use_true_random=False))
def test_the_order_of_findings_makes_no_difference(found, draw):
    shuffled = list(found)
    draw.shuffle(shuffled)
    assert mark(found, WEIGHTS, 80, True) == mark(shuffled, WEIGHTS, 80, True)


@given(findings(), findings())
def test_more_harm_never_raises_the_mark(found, more):
    less, whole = mark(found, WEIGHTS, 80, True), mark(found + more, WEIGHTS, 80, True)
    assert whole.score <= less.score
    assert not (whole.outcome == "met" and less.outcome != "met")


@given(findings())
def test_the_lines_add_up_to_the_mark(found):
    got = mark(found, WEIGHTS, 80, True)
    assert len(got.lines) == len(found)
    assert got.score == max(0, 100 - sum(line.points for line in got.lines))
    by_cause: dict[str, int] = {}
    for one in found:
        if one.cause:
            by_cause[one.cause] = max(by_cause.get(one.cause, 0), WEIGHTS[one.severity])
    alone = sum(WEIGHTS[one.severity] for one in found if not one.cause)
    assert got.score == max(0, 100 - alone - sum(by_cause.values()))


@given(findings())
def test_saying_it_again_takes_nothing_more_off(found):
    again = [replace(one, cause=f"cause {i}") for i, one in enumerate(found)]
    assert mark(again + again, WEIGHTS, 80, True).score == mark(again, WEIGHTS, 80, True).score


def test_hints_cost_what_the_level_says_and_are_told_as_a_line():
    got = mark([finding("habit")], WEIGHTS, 80, True, hints=3, hint_cost=2)
    assert got.score == 100 - 1 - 3 * 2
    assert [(line.points, line.text) for line in got.besides] == [(6, "3 used, 2 off for each")]
    assert mark([], WEIGHTS, 80, True, hints=3).score == 100
    assert mark([], WEIGHTS, 80, True, hints=3) == mark([], WEIGHTS, 80, True)
    assert mark([], WEIGHTS, 80, True, hints=60, hint_cost=2).score == 0


@given(findings(), st.integers(0, 30), st.integers(0, 30), st.integers(0, 5))
def test_one_more_hint_never_raises_the_mark(found, some, more, cost):
    fewer, all_ = (mark(found, WEIGHTS, 80, True, hints=n, hint_cost=cost) for n in (some, some + more))
    assert all_.score <= fewer.score
