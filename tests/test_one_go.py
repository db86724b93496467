"""What one hand does in one go: the same single actions, one transaction, offered to whoever does it well singly."""

import math
from collections.abc import Sequence
from pathlib import Path

import pytest
from attempts import layout_of, level_of
from board_person import Person
from inputs import QuickMouse, built
from sizes import some

from trainer.board.tools.registry import Toolbox
from trainer.order import Step
from trainer.order.inspection import sample
from trainer.records.judging import session_of
from trainer.records.seat import Seat
from trainer.session import ActionResult, Session
from trainer.session.hands import (
    RIGHT_BEFORE,
    brackets_along,
    fix_along,
    hold_it,
    offered,
    run_on,
    straighten_along,
    strike_alike,
)
from trainer.session.runs import go_round, parts_alike, stand_run, straps_alike
from trainer.site import AnyAction, Brace, Fit, Fix, Mark, Restrain, Stand, parse_diary, query, write_diary
from trainer.site.actions import Measure, Plumb, String, Unbrace, Undo
from trainer.site.steps import step_actions
from trainer.terms import Mode


def session(level: str = "wren", mode: Mode = "practice", **more: object) -> Session:
    return Session(level_of(level), 1, mode, layout=layout_of(level), **more)  # type: ignore[arg-type]


def place(level: str, tag: str) -> Stand:
    member = layout_of(level).by_tag[tag]
    return Stand(tag=tag, start=member.start, finish=member.finish)


def held(attempt: Session, *tags: str) -> None:
    """Stand trusses as they are to stand; the first is braced to something solid."""
    for number, tag in enumerate(tags):
        for action in hold_it(attempt.site, place(attempt.level.id, tag), "framing anchor"):
            attempt.do(action)
        if not number:
            attempt.do(Brace(kind="solid", tags=(tag,)))


def along(a: tuple[float, float], b: tuple[float, float], at: float) -> tuple[float, float]:
    """A place so many mm along a line."""
    part = at / math.dist(a, b)
    return (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)


def ats(marks: Sequence[Mark]) -> list[float]:
    return [mark.at for mark in marks]


# the tape run on


def test_a_tape_is_run_on_to_the_end_or_to_the_next_mark() -> None:
    attempt = session("thornbill")
    assert ats(run_on(attempt.site, "A", 900, 900, back=False, from_last=False)) == [900, 1800, 2700, 3600, 4500]
    attempt.do(Mark(wall="A", at=3700))
    assert ats(run_on(attempt.site, "A", 900, 900, back=False, from_last=False)) == [900, 1800, 2700, 3600]
    assert ats(run_on(attempt.site, "A", 5300, 900, back=True, from_last=False)) == [5300, 4400]
    assert ats(run_on(attempt.site, "A", 3700, 900, back=True, from_last=False)) == [2800, 1900, 1000, 100]


def test_one_mistake_and_every_mark_after_it_is_out() -> None:
    attempt = session("thornbill", "assessment")
    outcomes = attempt.do_in_one_go(run_on(attempt.site, "A", 950, 900, back=False, from_last=False))
    assert [mark.at for mark in attempt.site.set_out["A"]] == [950, 1850, 2750, 3650, 4550]
    assert all(outcome.event is not None for outcome in outcomes)


# one transaction


def test_a_hand_is_written_at_once_and_taken_back_at_once() -> None:
    written: list[Sequence[ActionResult]] = []
    attempt = session("thornbill", journal=written.append)
    attempt.do(Mark(wall="A", at=17.5))
    before = attempt.site
    attempt.do_in_one_go(run_on(before, "A", 900, 900, back=False, from_last=False))
    assert [len(each) for each in written] == [1, 5]
    assert {outcome.hand for outcome in written[1]} == {1} and written[0][0].hand is None
    attempt.undo()
    assert attempt.site == before and len(written[2]) == 5
    assert attempt.undo().refused is None and attempt.undo().refused is not None


def test_in_practice_a_hand_stops_at_the_first_finding_and_in_an_assessment_it_says_nothing() -> None:
    for mode, done in (("practice", 1), ("assessment", 3)):
        attempt = session("wren", mode)  # type: ignore[arg-type]
        held(attempt, "ST12")
        wrong = [Fix(tag="ST12", end=end, with_="slotted bracket", nails="half") for end in (1, 2)]
        attempt.do_in_one_go([place("wren", "ST16"), place("wren", "ST14"), *wrong][:3])
        hand = [outcome for outcome in attempt.outcomes if outcome.hand is not None]
        assert len(hand) >= done and (mode == "assessment" or hand[-1].findings), mode


def test_a_diary_and_a_record_keep_what_was_done_in_one_go(tmp_path: Path) -> None:
    attempt = session("thornbill")
    attempt.do(Mark(wall="A", at=17.5))
    attempt.do_in_one_go(run_on(attempt.site, "A", 900, 900, back=False, from_last=False))
    attempt.do_in_one_go(run_on(attempt.site, "C", 900, 900, back=False, from_last=False))
    assert attempt.diary().hand == ((1, 5), (6, 10))
    again = parse_diary(write_diary(attempt.diary()), "diary.yaml")
    assert again == attempt.diary()
    replayed = session("thornbill").replay(again.actions, again.hints, again.hint_depths, again.hand)
    assert replayed.outcomes == attempt.outcomes
    seat = Seat.open(tmp_path)
    kept = seat.begin((Path("levels") / "thornbill.yaml").read_text(encoding="utf-8"), 1, "practice")
    for actions in (attempt.diary().actions[:1], attempt.diary().actions[1:6], attempt.diary().actions[6:]):
        kept.session.do_in_one_go(actions)
    left = seat.unfinished()[0].houses[-1]
    assert [act.get("hand") for act in left.acts] == [None, *[1] * 5, *[2] * 5]
    assert session_of(left, "practice").hands == attempt.hands
    seat.leave()


# what hands do


def test_the_same_fixing_goes_to_every_end_on_the_same_plate_that_has_none() -> None:
    attempt = session("wren")
    for tag in ("ST12", "ST13", "ST14"):
        attempt.do(place("wren", tag))
    attempt.do(Fix(tag="ST13", end=1, with_="framing anchor"))
    along = fix_along(attempt.site, Fix(tag="ST12", end=1, with_="framing anchor"))
    assert {(fix.tag, fix.end) for fix in along} == {("ST12", 1), ("ST14", 1)}


def test_a_bracket_goes_to_every_mark_and_a_second_round_gives_each_two() -> None:
    attempt = session("wren")
    for at in (600.0, 1200.0):
        attempt.do(Mark(on="TG1", at=at))
    first = brackets_along(attempt.site, "hanger", "TG1")
    assert [fit.at for fit in first] == [600.0, 1200.0]
    attempt.do(first[0])
    assert [fit.at for fit in brackets_along(attempt.site, "hanger", "TG1")] == [1200.0]
    attempt.do(Fit(part="hanger", on="TG1", at=1200.0))
    assert len(brackets_along(attempt.site, "hanger", "TG1")) == 2


def test_a_bracket_goes_beside_a_mark_that_shows_the_near_face() -> None:
    """On the side of it on which its truss will stand: half a truss further on."""
    attempt = session("scrubwren")
    attempt.do(Mark(on="TG1", at=2380.0))
    assert [fit.at for fit in brackets_along(attempt.site, "hanger", "TG1")] == [2400.0]
    attempt.do(place("scrubwren", "TG1"))
    tool = Toolbox(attempt).use("fit")
    girder = attempt.site.stood["TG1"]
    tool.point_at(along(girder.start, girder.finish, 2385.0), girder, 5.0)
    assert tool.actions() == [Fit(part="hanger", on="TG1", at=2400.0)], "a press near the mark goes there too"


def test_a_truss_is_fixed_and_tied_as_it_stands_to_a_neighbour_that_is_held() -> None:
    attempt = session("wren")
    held(attempt, "ST12")
    actions = hold_it(attempt.site, place("wren", "ST13"), "framing anchor")
    assert [action.do for action in actions] == ["stand", "fix", "fix", "brace"]
    assert isinstance(actions[-1], Brace) and set(actions[-1].tags) == {"ST12", "ST13"}
    for action in actions:
        attempt.do(action)
    assert query.held(attempt.site, "ST13")
    lonely = hold_it(session("wren").site, place("wren", "ST13"), "framing anchor")
    assert [action.do for action in lonely] == ["stand", "fix", "fix"], "nothing beside it is held"


def test_a_row_is_straightened_but_for_what_was_straightened_before() -> None:
    attempt = session("wren")
    held(attempt, "ST12", "ST13", "ST14")
    attempt.do(Plumb(tag="ST13"))
    assert [plumb.tag for plumb in straighten_along(attempt.site, "ST14")] in (["ST12", "ST14"], ["ST14", "ST12"])


# when they are offered


def marks(*at: float) -> list[AnyAction]:
    return [Mark(wall="A", at=each) for each in at]


def test_a_hand_is_offered_after_three_done_right_and_withdrawn_after_a_mistake() -> None:
    attempt = session("thornbill")
    right = marks(900, 1800, 2700, 3600, 4500)
    for number, action in enumerate(right[:RIGHT_BEFORE]):
        assert "run on" not in offered(attempt.outcomes), number
        attempt.do(action)
    assert offered(attempt.outcomes) == {"run on"}
    attempt.do(Undo())
    assert "run on" not in offered(attempt.outcomes), "what was taken back was not done"
    attempt.do(right[2])
    wrong = attempt.do(Mark(wall="A", at=3660))
    assert wrong.findings
    assert "run on" not in offered(attempt.outcomes)
    attempt.do(Undo())
    assert "run on" not in offered(attempt.outcomes), "a mistake that was taken back was made"
    for action in (*right[3:], *marks(5382.5)):
        attempt.do(action)
    assert "run on" in offered(attempt.outcomes)


CONTROLS_OF_MARK = (("choice", "Wall"), ("choice", "Tape from"), ("entry", "Along it"), ("button", "Mark it"))


def test_on_the_board_it_is_there_after_three_or_from_the_start_for_whoever_asks_for_it() -> None:
    person = Person()
    person.app.open("thornbill")
    person.wait(2)
    person.key("m")
    assert not person.sees("choice", "In one go")
    before = {name: person.see(role, name).rect for role, name in CONTROLS_OF_MARK}
    for action in marks(900, 1800, 2700):
        person.work.do([action])
    assert person.sees("choice", "In one go")
    moved = [name for role, name in CONTROLS_OF_MARK if person.see(role, name).rect != before[name]]
    assert not moved, "nothing moves under the mouse when it comes"
    person.app.open("thornbill")
    person.key("m")
    assert not person.sees("choice", "In one go")
    person.app.comfort.remember(fewer_presses=True)
    assert person.sees("choice", "In one go")
    person.key("v")
    person.type(900)
    person.key("enter")
    assert len(person.work.site.set_out["A"]) == 5
    person.key("u")
    assert not person.work.site.set_out


@pytest.mark.parametrize(("level", "most"), some([("thornbill", 70), ("wren", 300)], 1))
def test_a_whole_house_takes_few_presses_by_mouse(level: str, most: int) -> None:
    """A target of this trainer's own, no source."""
    assert built(level, QuickMouse, hands=True) <= most


def test_a_string_comes_before_its_row() -> None:
    person = Person()
    person.app.open("wren")
    person.wait(2)
    person.app.comfort.remember(fewer_presses=True)
    attempt = person.work.session
    held(attempt, "ST12", "ST13", "ST14")
    person.work.changed()
    tool = person.work.tools["plumb"]
    person.work.use("plumb")
    tool.in_one_go = True
    tool.choose("ST13")
    assert isinstance(tool.actions(), str)
    attempt.do(String(start="ST12", finish="ST14"))
    assert [action.tag for action in tool.actions()] == ["ST12", "ST13", "ST14"]


# from one to the next like it


def test_a_run_of_trusses_goes_on_by_number_from_mark_to_mark_and_ends_at_what_stands() -> None:
    attempt = session("thornbill")
    for wall, start in (("A", 900), ("C", 900)):
        attempt.do_in_one_go(run_on(attempt.site, wall, start, 900, back=False, from_last=False))
    held(attempt, "ST1")
    held(attempt, "ST5")
    run = stand_run(attempt.site, place("thornbill", "ST2"), "framing anchor")
    assert [(one.tag, one.start[0]) for one in run if isinstance(one, Stand)] == [
        ("ST2", 1800),
        ("ST3", 2700),
        ("ST4", 3600),
    ]
    assert attempt.do_in_one_go(run)[-1].findings == () and not attempt.findings


def test_a_run_that_began_on_a_wrong_mark_goes_on_wrong() -> None:
    attempt = session("thornbill", "assessment")
    for wall, start in (("A", 950), ("C", 850)):
        attempt.do_in_one_go(run_on(attempt.site, wall, start, 900, back=False, from_last=False))
    held(attempt, "ST1")
    run = stand_run(attempt.site, Stand(tag="ST2", start=(1850, 0), finish=(1850, 3900)), "framing anchor")
    assert [one.start[0] for one in run if isinstance(one, Stand)] == [1850, 2750, 3650, 4550]


def test_a_strap_has_its_like_on_the_other_slope_and_the_other_way_about() -> None:
    attempt = session("thornbill", "assessment")
    held(attempt, "ST1", "ST2", "ST3", "ST4", "ST5")
    one = Restrain(kind="roof brace", start=(900, 0), finish=(2700, 1950))
    got = {(strap.start, strap.finish) for strap in straps_alike(attempt.site, one)}
    assert got == {((x, y), (2700, 1950)) for x in (900, 4500) for y in (0, 3900)}
    attempt.do(Restrain(kind="roof brace", start=(2700, 1950), finish=(4500, 3900)))
    assert len(straps_alike(attempt.site, one)) == 3, "what is in already is left"
    tie = Restrain(kind="bottom-chord tie", start=(900, 1950), finish=(4500, 1950))
    assert straps_alike(attempt.site, tie) == (tie,)


def test_braces_of_one_row_come_off_in_one_go_and_those_of_another_stay() -> None:
    attempt = session("wren", "assessment")
    for tag in ("ST12", "TG1"):
        attempt.do(place("wren", tag))
        attempt.do(Brace(kind="solid", tags=(tag,)))
    attempt.do(place("wren", "ST17"))
    attempt.do(Brace(kind="solid", tags=("ST17",)))
    off = strike_alike(attempt.site, Unbrace(kind="solid", tags=("ST17",)))
    assert [one.tags for one in off] == [("ST17",), ("ST12",)]


def test_going_round_reads_plumb_and_bow_of_all_that_stand_to_be_inspected() -> None:
    attempt = session("thornbill")
    held(attempt, *(m.tag for m in attempt.site.layout.members if m.kind == "standard"))
    (wanted,) = (t for t in sample(attempt.site.layout) if t in attempt.site.stood)
    read = go_round(attempt.site, Measure(what="bow", tag="ST1"))
    assert [(one.what, one.tag) for one in read] == [
        ("bow", "ST1"), ("plumb", "ST1"), ("bow", wanted), ("plumb", wanted),
    ]  # fmt: skip
    attempt.do_in_one_go(read)
    assert len(go_round(attempt.site, Measure(what="bow", tag="ST1"))) == 2


def test_a_part_goes_on_every_truss_of_its_kind_that_has_none() -> None:
    attempt = session("wren")
    first = Fit(part="batten", on="S2")
    attempt.do(Fit(part="batten", on="S1"))
    assert [one.on for one in parts_alike(attempt.site, first)] == ["S2", "S3", "S4"]


def test_where_a_truss_stands_in_the_place_of_one_just_like_it_a_hint_offers_the_one_that_waits() -> None:
    attempt = session("thornbill")
    there = layout_of("thornbill").by_tag["ST2"]
    attempt.do(Stand(tag="ST3", start=there.start, finish=there.finish))
    step = Step("stand", "ST3")
    assert {action.tag for action in step_actions(attempt.site, step)} == {"ST2"}
