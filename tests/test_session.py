"""The one door to an attempt: the journal first, undo and its findings, hints that are always right."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import pytest
from attempts import SHIPPED, layout_of, level_of, set_up
from sizes import some

from trainer.order import Step
from trainer.records.judging import mark_of
from trainer.rehearse import rehearse
from trainer.session import ActionResult, Session
from trainer.session.why_now import why_now
from trainer.site import Brace, HandOver, Remove, Stand, parse_diary, write_diary
from trainer.site.actions import Check, Plan, Undo
from trainer.terms import Mode


def session(level: str, mode: Mode = "practice", **more: object) -> Session:
    return Session(level_of(level), 0, mode, layout=layout_of(level), **more)  # type: ignore[arg-type]


def stand(level: str, tag: str, across: float = 0.0) -> Stand:
    place = layout_of(level).by_tag[tag]
    (ux, uy), (ax, ay), (bx, by) = place.direction, place.start, place.finish
    return Stand(tag=tag, start=(ax - uy * across, ay + ux * across), finish=(bx - uy * across, by + ux * across))


def test_an_outcome_tells_what_was_done_and_found() -> None:
    attempt = session("shed")
    outcome = attempt.do(stand("shed", "ST1", across=50))
    assert outcome.event
    assert not outcome.refused
    assert [(f.rule, f.member, f.event) for f in outcome.findings] == [("off-station", "ST1", 0)]
    again = attempt.do(stand("shed", "ST1"))
    assert again.refused
    assert again.event is None
    assert attempt.refused == ((1, again.refused.why),)
    assert [o.index for o in attempt.outcomes] == [0, 1]


def test_the_journal_has_each_action_before_its_findings_are_shown() -> None:
    written: list[ActionResult] = []
    attempt = session("shed", journal=written.extend)
    shown = [attempt.do(action) for action in (stand("shed", "ST1", 50), stand("shed", "ST1"), Undo(), HandOver())]
    assert written == shown
    assert written[0].findings


def test_what_the_journal_could_not_take_has_not_been_done() -> None:
    def full(_outcomes: Sequence[ActionResult]) -> None:
        raise OSError("disk full")

    attempt = session("shed", journal=full)
    with pytest.raises(OSError, match="disk full"):
        attempt.do(stand("shed", "ST1", across=50))
    assert (dict(attempt.site.stood), attempt.findings, attempt.outcomes) == ({}, (), ())


def test_undo_takes_the_findings_of_the_action_with_it() -> None:
    attempt = session("shed")
    attempt.do(stand("shed", "ST1", across=50))
    attempt.do(stand("shed", "ST4"))
    assert Counter(f.rule for f in attempt.findings) == {"off-station": 1, "row-with-nothing-solid": 1}
    attempt.undo()
    assert Counter(f.rule for f in attempt.findings) == {"off-station": 1}
    attempt.undo()
    assert attempt.findings == ()
    assert attempt.undo().refused
    assert [action.do for action in attempt.diary().actions] == ["stand", "stand", "undo", "undo", "undo"]


def test_undo_goes_past_what_was_refused() -> None:
    attempt = session("shed")
    attempt.do(stand("shed", "ST1"))
    attempt.do(stand("shed", "ST1"))
    attempt.undo()
    assert not attempt.site.stood


def test_assessment_has_no_undo_and_no_hints() -> None:
    attempt = session("shed", "assessment")
    assert attempt.hint() == ()
    attempt.do(stand("shed", "ST1"))
    assert attempt.undo().refused
    attempt.do(Remove(tag="ST1"))
    assert [f.rule for f in attempt.findings] == ["taken-down-again"]


def test_a_diary_replayed_gives_the_same_attempt() -> None:
    attempt = session("shed")
    for action in (stand("shed", "ST1", 50), Brace(kind="solid", tags=("ST9",)), stand("shed", "ST2"), HandOver()):
        attempt.do(action)
    diary = parse_diary(write_diary(attempt.diary()), "attempt.yaml", "shed")
    again = session("shed").replay(diary.actions)
    assert (again.site, again.findings, again.refused) == (attempt.site, attempt.findings, attempt.refused)


@pytest.mark.parametrize(
    ("level", "pick"),
    [*((name, 0) for name in some(SHIPPED, 2)), *((name, -1) for name in some(("wagtail", "wren"), 1))],
)
def test_following_hints_builds_the_whole_roof_without_a_finding(level: str, pick: int) -> None:
    attempt = session(level)
    while hints := attempt.hint():
        hint = hints[pick]
        outcome = attempt.do(hint.action)
        assert outcome.refused is None
        assert outcome.findings == ()
    assert attempt.site.handed_over
    assert attempt.findings == ()
    assert set(attempt.site.at_place) == set(layout_of(level).by_tag)


def test_a_hint_waits_for_what_comes_first() -> None:
    attempt = session("wren")
    steps = {hint.step for hint in attempt.hint()}
    assert Step("mark", "TG1", 1) in steps
    assert not any(step.verb == "stand" for step in steps)
    for where in [hint for hint in attempt.hint() if hint.step.verb in ("check", "mark", "fit")]:
        attempt.do(where.action)
    stands = {hint.step.tag for hint in attempt.hint() if hint.step.verb == "stand"}
    # What bears on plates alone and has nothing that should go first; the rest hangs, or goes later.
    assert stands == {"G1", "TG1", "T1", "T2"}
    attempt.do(stand("wren", "T1"))
    assert {hint.step for hint in attempt.hint() if hint.step.verb in ("stand", "tie", "fix")} == {
        Step("tie", "T1"),
        Step("fix", "T1", 1),
        Step("fix", "T1", 2),
    }


def test_after_the_hand_over_there_is_nothing_to_hint() -> None:
    attempt = session("shed").replay([*set_up(layout_of("shed"), "ST1"), HandOver()])
    assert attempt.hint() == ()


def hinted(cost: int, mode: Mode = "practice") -> Session:
    lesson = level_of("shed").lesson.model_copy(update={"hint_cost": cost})
    return Session(level_of("shed").model_copy(update={"lesson": lesson}), 0, mode, layout=layout_of("shed"))


def test_a_hint_counts_with_what_is_done_after_it_and_once() -> None:
    attempt = hinted(2)
    attempt.do(stand("shed", "ST1"))
    assert attempt.hints == ()
    for _ in range(3):
        attempt.take_hint()
    attempt.hint()  # looking at what a hint would say is free: a drill or a first lesson does
    assert attempt.hints == ()
    attempt.do(Brace(kind="solid", tags=("ST1",)))
    attempt.do(stand("shed", "ST4"))
    assert attempt.hints == (1,)


def test_undoing_does_not_give_a_hint_back() -> None:
    attempt = hinted(2)
    attempt.take_hint()
    attempt.do(stand("shed", "ST1"))
    attempt.undo()
    assert attempt.hints == (0,)


def test_there_is_no_hint_to_pay_for_in_an_assessment() -> None:
    attempt = hinted(2, "assessment")
    assert attempt.take_hint() == ()
    attempt.do(stand("shed", "ST1"))
    assert attempt.hints == ()


def test_a_diary_keeps_the_hints_so_that_replay_gives_the_same_mark() -> None:
    attempt = hinted(3)
    for number, action in enumerate([stand("shed", "ST1"), Brace(kind="solid", tags=("ST1",)), HandOver()]):
        if number != 1:
            attempt.take_hint()
        attempt.do(action)
    text = write_diary(attempt.diary())
    assert "\nhints: [0, 2]\n" in text
    diary = parse_diary(text, "attempt.yaml", "shed")
    again = hinted(3).replay(diary.actions, diary.hints)
    assert again.hints == attempt.hints == (0, 2)
    assert mark_of(again) == mark_of(attempt)
    assert mark_of(attempt).besides[0].points == 6
    # A diary of before, with none, reads as it did.
    assert "hints" not in write_diary(session("shed").replay(diary.actions).diary())


def test_after_a_fall_hints_say_stop_report_clear_and_then_to_stand_again() -> None:
    attempt = session("shed")
    for action in (stand("shed", "ST1"), stand("shed", "ST4")):
        attempt.do(action)
    said = []
    for _ in range(3):
        (hint,) = attempt.hint()
        assert hint.urgent
        said.append(hint.action.do)
        assert attempt.do(hint.action).findings == ()
    assert said == ["stop", "report", "clear"]
    assert attempt.hint()[0].step == Step("tie", "ST4")  # it stands still: hands are on it
    while attempt.hint()[0].urgent:
        attempt.do(attempt.hint()[0].action)
    assert Step("stand", "ST1") in {hint.step for hint in attempt.hint()}


def test_what_holds_the_truss_in_hand_is_hinted_before_anything_else() -> None:
    attempt = session("wren")
    while not attempt.site.stood:
        attempt.do(attempt.hint()[0].action)
    first = attempt.hint()[0]
    assert (first.step.tag, first.urgent) == (attempt.site.last, True)


def test_what_puts_an_open_stop_work_right_is_hinted_first() -> None:
    attempt = session("hut")
    *ready, _last_end = set_up(layout_of("hut"), "TG1")
    attempt.replay(ready)
    found = attempt.do(stand("hut", "ST1")).findings
    assert [finding.rule for finding in found if finding.severity == "stop-work"] == ["let-go-half-fixed"]
    assert (attempt.hint()[0].step, attempt.hint()[0].urgent) == (Step("fix", "TG1", 2), True)


def test_a_house_done_by_the_deepest_hints_is_shown_and_not_met() -> None:
    """Full marks can't be had by pressing the hint key: over a tenth of *do it* is shown, not done."""
    level = level_of("pardalote")
    actions = rehearse(level, 1).actions
    for depth, part, outcome in ((4, 1, "shown"), (4, 12, "met"), (3, 1, "met")):
        session = Session(level, 1)
        for number, action in enumerate(actions):
            if number % part == 0:
                session.take_hint(depth)
            session.do(action)
        assert session.site.handed_over
        assert mark_of(session).outcome == outcome, (depth, part)
        again = parse_diary(write_diary(session.diary()), "d.yaml")
        told = Session(level, 1).replay(again.actions, again.hints, again.hint_depths)
        assert told.hint_depths == session.hint_depths and told.shown == session.shown


@pytest.mark.parametrize("name", ["shed", "wren"])
def test_every_hint_has_a_reason_and_names_what_waits(name: str) -> None:
    session = Session(level_of(name), 1)
    for action in rehearse(session.level, 1).actions[:-1]:
        for hint in session.hint():
            assert why_now(session.site, hint.step).endswith(".")
        session.do(action)


def test_a_lift_planned_badly_is_planned_again_before_anything_else() -> None:
    attempt = session("shed-cranes")
    for action in (Check(item="edge protection"), Plan(kind="standard", by="hand", people=2), stand("shed", "ST1")):
        found = attempt.do(action).findings
    assert [finding.rule for finding in found] == ["too-heavy-by-hand"]
    again = attempt.hint()[0]
    assert isinstance(again.action, Plan)
    assert (again.action.by, again.urgent) == ("crane", True)
    attempt.do(again.action)
    assert not isinstance(attempt.hint()[0].action, Plan)
