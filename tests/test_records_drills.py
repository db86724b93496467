"""Drills in the records: what is kept of one, that it holds and travels, and what it says of what to come back to."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from attempts import level_of
from records_made import NOON
from test_records_seat import seat_in
from xapi_check import faults_of

from trainer.drill import Drill, make_drill
from trainer.quiz.history import cards, of_drill, of_mistakes
from trainer.records.answers import history
from trainer.records.collect import take_in
from trainer.records.drills import done_right, keep_drill
from trainer.records.entries import DrillEntry, body_fault
from trainer.records.record_file import read_record, write_record
from trainer.records.verify import examine
from trainer.records.xapi import statements
from trainer.session import Session
from trainer.site.actions import Stand, Undo

NOW = datetime.fromtimestamp(NOON / 1000, UTC)


def which_truss() -> Drill:
    return make_drill("which-truss", level_of("wren"), 1)


def right_truss(drill: Drill, session: Session) -> Stand:
    (action,) = [hint.action for hint in session.hint() if hint.step in drill.steps]
    assert isinstance(action, Stand)
    return action


def wrong_truss(drill: Drill, session: Session) -> Stand:
    """Another truss of the same span in the place."""
    right = right_truss(drill, session)
    place = drill.layout.by_tag[right.tag]
    other = next(
        m for m in drill.layout.members
        if m.span == place.span and m.like != place.like and m.tag not in session.site.stood
    )  # fmt: skip
    return Stand(tag=other.tag, start=right.start, finish=right.finish)


def test_a_drill_done_right_is_kept_signed_and_holds(tmp_path: Path) -> None:
    seat, drill = seat_in(tmp_path), which_truss()
    session = drill.session()
    session.do(right_truss(drill, session))
    made = keep_drill(seat, drill, session)
    (told,) = made.drills
    assert (told["drill"], told["level"], told["right"], told["hinted"]) == ("which-truss", "wren", True, False)
    assert (told["reached"], told["goals"], told["found"]) == (1, 1, [])
    assert made.closed and made.fault is None and not made.houses
    assert {said.state for said in examine(made, {made.seals[0].key: "this seat"})} == {"holds"}
    assert seat.unfinished() == ()
    assert done_right(seat.store, seat.code) == {"wren": {"which-truss": True}}
    assert done_right(seat.store, "somebody-else") == {}


def test_a_drill_travels_to_another_store_and_as_statements(tmp_path: Path) -> None:
    seat, drill = seat_in(tmp_path / "one"), which_truss()
    session = drill.session()
    session.do(right_truss(drill, session))
    made = keep_drill(seat, drill, session)
    read = read_record(write_record(made), "it").attempt
    assert read.entries == made.entries
    other = seat_in(tmp_path / "two")
    assert [taken.fate for taken in take_in(other.store, [read])] == ["new"]
    assert done_right(other.store, made.code) == {"wren": {"which-truss": True}}
    told = statements(made)
    assert [each for statement in told for each in faults_of(statement)] == []
    (drilled,) = [each for each in told if each["object"]["id"].endswith("drill/which-truss")]
    assert drilled["result"] == {"completion": True, "success": True}


def test_a_mistake_that_was_taken_back_is_kept_as_on_a_whole_house(tmp_path: Path) -> None:
    seat, drill = seat_in(tmp_path), which_truss()
    session = drill.session()
    right = right_truss(drill, session)
    assert session.do(wrong_truss(drill, session)).findings
    session.do(Undo())
    session.do(right)
    (told,) = keep_drill(seat, drill, session).drills
    assert told["right"]
    assert "wrong-truss-for-place" in {found["rule"] for found in told["found"]}
    assert "rule wrong-truss-for-place" in cards(history(seat.store, seat.code))


def test_a_drill_done_right_moves_the_cards_of_its_rules_that_there_are() -> None:
    mistake = of_mistakes(["off-station"], NOW)
    after = {
        hinted: cards([*mistake, *of_drill(["off-station", "spacing-too-wide"], [], True, hinted, NOW)])
        for hinted in (False, True)
    }
    assert set(after[False]) == {"rule off-station"}, "a rule that was never broken has no card"
    before = cards(mistake)["rule off-station"].due
    assert before < after[True]["rule off-station"].due < after[False]["rule off-station"].due, "a hint makes it hard"


def test_a_drill_that_went_wrong_puts_off_nothing() -> None:
    said = of_drill(["off-station", "spacing-too-wide"], ["end-for-end"], False, False, NOW)
    assert [(seen.name, seen.rating) for seen in said] == [("rule end-for-end", "again")]


@pytest.mark.parametrize(
    ("key", "value"), [("right", 1), ("rules", "off-station"), ("reached", -1), ("drill", "x" * 41), ("found", [{}])]
)
def test_an_entry_of_a_drill_that_says_what_can_not_be_is_refused(key: str, value: object) -> None:
    drilled = DrillEntry(
        at=NOON, drill="which-truss", level="wren", seed=1, reached=1, goals=1, right=True, hinted=False, found=[],
        rules=["off-station"],
    )  # fmt: skip
    body = {**drilled.as_json(), "n": 1}
    assert body_fault(body) == ""
    assert key in body_fault({**body, key: value})
