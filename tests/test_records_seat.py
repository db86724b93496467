"""One seat: what a window asks of the records."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from attempts import level_of, right
from records_made import NOON

from trainer.records.errors import Elsewhere, NotWritten
from trainer.records.judging import judge_again
from trainer.records.seat import CODE_SETTING, SEAT_KEY, Seat
from trainer.records.verify import examine
from trainer.rehearse import rehearse
from trainer.shipped import find_level

TEXT = find_level("pardalote").read_text(encoding="utf-8")


def ticking(at: int = NOON) -> Callable[[], int]:
    """A clock that goes on by a second each time it is looked at."""
    times = iter(range(at, at + 10**9, 1000))
    return lambda: next(times)


def seat_in(folder: Path, at: int = NOON) -> Seat:
    return Seat.open(folder, ticking(at))


def test_a_look_at_a_house_leaves_no_trace(tmp_path: Path) -> None:
    seat = seat_in(tmp_path)
    going = seat.begin(TEXT, 1, "practice")
    assert going.session is not None
    assert seat.store.ids() == []
    assert seat.unfinished() == ()


def test_an_attempt_is_kept_closed_and_signed_and_holds(tmp_path: Path) -> None:
    seat = seat_in(tmp_path)
    diary = rehearse(level_of("pardalote"), 3)
    going = seat.begin(TEXT, diary.seed, "practice")
    for count, action in enumerate(diary.actions, 1):
        going.do(action)
        assert len(seat.store.attempts(going.attempt)[0].houses[0].acts) == count
    made = going.finish()
    assert made.closed
    assert made.code == seat.code
    (judged,) = judge_again(made)
    assert judged.same
    assert judged.now == (100, "met")
    assert {said.state for said in examine(made, {made.seals[0].key: "this seat"})} == {"holds"}
    assert seat.unfinished() == ()


def test_what_was_left_goes_on_in_another_window_and_no_longer_in_the_first(tmp_path: Path) -> None:
    diary = rehearse(level_of("pardalote"), 3)
    one = seat_in(tmp_path).begin(TEXT, diary.seed, "practice")
    for action in diary.actions[:10]:
        one.do(action)
    later = seat_in(tmp_path, NOON + 3_600_000)
    (left,) = later.unfinished()
    other = later.resume(left)
    # The two windows have jobs of their own, told from the same text.
    assert replace(other.session.site, job=one.session.job) == one.session.site
    site = one.session.site
    with pytest.raises(Elsewhere):
        one.do(diary.actions[10])
    assert one.session.site is site, "what is not recorded is not done"
    for action in diary.actions[10:]:
        other.do(action)
    made = other.finish()
    ((since, until),) = made.gaps
    assert until - since > 3_500_000
    assert judge_again(made)[0].now == (100, "met")


def test_what_was_left_can_be_put_away_as_it_stands(tmp_path: Path) -> None:
    seat = seat_in(tmp_path)
    going = seat.begin(TEXT, 3, "practice")
    going.do(right("pardalote", 3)[0])
    seat.put_away(seat.unfinished()[0])
    (made,) = seat.store.attempts(going.attempt)
    assert made.closed
    assert made.houses[0].mark is not None
    assert made.houses[0].mark["outcome"] == "unfinished"
    assert seat.unfinished() == ()


def test_a_seat_has_a_code_name_of_chance_until_one_is_set(tmp_path: Path) -> None:
    one, other = seat_in(tmp_path / "one"), seat_in(tmp_path / "other")
    assert one.code == seat_in(tmp_path / "one").code
    assert one.code != other.code
    before = one.begin(TEXT, 1, "practice")
    before.do(right("pardalote", 1)[0])
    one.store.set_setting(CODE_SETTING, "wren-07")
    assert one.code == "wren-07"
    assert one.unfinished() == (), "what another code name left is not this one's to go on with"


def test_a_key_that_cant_be_made_is_told_in_plain_words(tmp_path: Path) -> None:
    (tmp_path / SEAT_KEY).mkdir()
    with pytest.raises(NotWritten, match="can't be written"):
        seat_in(tmp_path)
