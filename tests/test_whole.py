"""Done means whole: a roof handed over with something of it missing is not met, whatever its mark.

Trade brief, "Done means whole" (common practice, no source): a truss, a tie-down, a bracket, permanent bracing or verge
framing missing.
"""

from __future__ import annotations

import pytest
from attempts import layout_of, level_of, right, set_up
from sizes import by_size

from trainer.records.judging import mark_of
from trainer.rehearse import CannotOccur, plant
from trainer.rules import all_rules
from trainer.rules.whole import WHOLE
from trainer.score import Score, mark
from trainer.session import Session, job_of
from trainer.site import HandOver, Stand

MISSING = [
    "truss-missing", "tie-down-missing", "extension-not-fixed", "saddle-without-batten", "roof-brace-missing",
    "bottom-chord-ties-too-far-apart", "outriggers-missing", "verge-rafters-missing", "wrong-truss-for-place",
    "end-for-end", "setback-not-the-levels", "girder-off-plate-line", "dutch-girder-off-station",
    "bay-left-too-wide", "top-chord-ties-stripped", "out-of-plumb", "truss-bowed",
]  # fmt: skip
HOUSES = ("pardalote", "robin", "silvereye", "wren", "lorikeet")
MANY = by_size(1, len(HOUSES), len(HOUSES))
"""On so many of these each is tried, where it can occur."""


def marked(level: str, mistake: str) -> Score:
    planted = plant(job_of(level_of(level), 4, layout=layout_of(level)), 4, mistake)
    session = Session(level_of(level), 4, layout=layout_of(level)).replay(planted.actions)
    weights = dict.fromkeys(("stop-work", "rework", "tolerance", "habit"), 0)
    return mark(session.findings, weights, 80, session.site.handed_over)


@pytest.mark.parametrize("mistake", MISSING)
def test_what_is_missing_at_hand_over_is_not_met_whatever_the_mark(mistake: str) -> None:
    tried = 0
    for level in HOUSES:
        try:
            got = marked(level, mistake)
        except CannotOccur:
            continue
        tried += 1
        assert (got.score, got.outcome) == (100, "not yet met")
        assert mistake in {finding.rule for finding in got.missing}
        if tried == MANY:
            break
    assert tried


@pytest.mark.parametrize("mistake", ["off-station", "out-of-order", "braces-left-inside", "not-inspected"])
def test_what_is_out_or_a_habit_leaves_the_roof_whole(mistake: str) -> None:
    got = marked("wren", mistake)
    assert (got.score, got.outcome, got.missing) == (100, "met", ())


@pytest.mark.parametrize("level", ["pardalote", "silvereye"])
def test_a_roof_brace_left_out_is_marked_once_however_many_braces_come_out_for_it(level: str) -> None:
    actions = list(right(level, 1))
    left_out = next(i for i, action in enumerate(actions) if action.do == "restrain" and action.kind == "roof brace")
    session = Session(level_of(level), 1, layout=layout_of(level)).replay(actions[:left_out] + actions[left_out + 1 :])
    too_early = [f for f in session.findings if f.rule == "bracing-taken-too-early"]
    assert len(too_early) > 1
    assert {finding.cause for finding in session.findings} == {too_early[0].cause}
    assert mark_of(session).score == 75


def test_what_stands_wrong_is_named_before_what_is_missing() -> None:
    layout = layout_of("shed")
    ready = [action for tag in ("ST1", "ST4", "ST2") for action in set_up(layout, tag)]
    wrong = Stand(tag="GT1", start=layout.by_tag["ST3"].start, finish=layout.by_tag["ST3"].finish)
    session = Session(level_of("shed"), 0, layout=layout).replay([*ready, wrong, HandOver()])
    got = mark_of(session)
    assert got.outcome == "not yet met"
    named = [finding.rule for finding in got.missing]
    assert named[:3] == ["stood-before-last-tied", "wrong-truss-for-place", "truss-missing"]


def test_every_rule_of_a_whole_roof_is_a_rule() -> None:
    assert {rule.name for rule in all_rules()} >= set(WHOLE)
