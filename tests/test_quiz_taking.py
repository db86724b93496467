"""Taking a quiz: in the terminal, resumed, silent where it must be; and what comes back when."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from attempts import level_of
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import CliRunner

from trainer.cli import app
from trainer.quiz.bank import parse_bank
from trainer.quiz.judge import Verdict, judge
from trainer.quiz.paper import question_again
from trainer.quiz.review import (
    LONGEST_DAYS,
    Card,
    due,
    new_card,
    rating_of,
    reviewed,
)
from trainer.quiz.worked import subject_of
from trainer.records.answers import given_again
from trainer.records.seat import Seat
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.shipped import bank_paths, find_level

RUNNER = CliRunner()
START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
WORDS = ("quiz", "--level", "wren", "--count", "6", "--seed", "4", "--everything", "--data")


def run(folder: Path, typed: str, *more: str, leaves: int = 0) -> str:
    result = RUNNER.invoke(app, [*WORDS, str(folder), *more], input=typed)
    assert result.exit_code == leaves, result.output
    assert "Traceback" not in result.output
    return result.output


def paper() -> list[dict]:
    words = ["paper", "--level", "wren", "--count", "6", "--seed", "4", "--answers", "--json"]
    return json.loads(RUNNER.invoke(app, words).stdout)["questions"]


def typed_right(question: dict) -> str:
    """The right answer as a person types it, from the marking guide."""
    letters, kind, answer = "ABCDEFGHIJ", question["kind"], question["answer"]
    if kind in ("number", "point at it"):
        return str(answer)
    if kind == "match":
        sides = [answer[side] for side in question["left"]]
        return " ".join(f"{n}{letters[question['right'].index(each)]}" for n, each in enumerate(sides, 1))
    shown = question.get("choices") or question.get("steps") or question["lines"]
    return " ".join(letters[shown.index(each)] for each in ([answer] if isinstance(answer, str) else answer))


def test_the_right_answers_of_the_guide_are_right_in_the_terminal(tmp_path: Path) -> None:
    told = run(tmp_path, "\n".join(map(typed_right, paper())) + "\n")
    assert "6 of 6 right." in told
    assert told.count("Right.") == 6 and "Not right" not in told


def test_practice_explains_each_answer_at_once(tmp_path: Path) -> None:
    told = run(tmp_path, typed_right(paper()[0]) + "\nstop\n")
    assert paper()[0]["why"] in told


def test_an_assessment_is_silent_until_its_end(tmp_path: Path) -> None:
    answers = "\n".join(map(typed_right, paper()[:5])) + "\n"
    told = run(tmp_path, answers, "--assessment")
    assert "Right" not in told and "Not right" not in told and "Why" not in told
    assert all(question["why"] not in told for question in paper())
    assert "There is no hint here." in run(tmp_path, "hint\n", "--assessment")
    ended = run(tmp_path, typed_right(paper()[5]) + "\n", "--assessment")
    assert "Going on: 5 are answered." in ended and "6 of 6 right." in ended


@pytest.mark.parametrize("stop", ["stop\n", ""])
def test_a_quiz_goes_on_where_it_was_stopped(tmp_path: Path, stop: str) -> None:
    first, *rest = map(typed_right, paper())
    assert "1 of 6 is answered and kept" in run(tmp_path, f"{first}\n{stop}")
    told = run(tmp_path, "\n".join(rest) + "\n")
    assert "Question 1 of 6" not in told and "6 of 6 right." in told


def test_another_quiz_loses_nothing_of_the_one_that_was_stopped(tmp_path: Path) -> None:
    first, *rest = map(typed_right, paper())
    run(tmp_path, first + "\nstop\n")
    run(tmp_path, "stop\n", "--topics", "safety", "--count", "2")
    assert "Going on: 1 is answered." in run(tmp_path, "\n".join(rest) + "\n")


def test_each_answer_is_in_the_records_as_it_was_given(tmp_path: Path) -> None:
    run(tmp_path, "\n".join(map(typed_right, paper())) + "\n")
    with Store.read(tmp_path / FILE) as store:
        (attempt,) = store.attempts(store.ids()[0])
    assert attempt.fault is None and attempt.closed and all(seal.holds() for seal in attempt.seals)
    assert [entry.body["question"] for entry in attempt.answers] == [question["id"] for question in paper()]
    subject = subject_of(level_of("wren"))
    bank = {q.id: q for path in bank_paths() for q in parse_bank(path.read_bytes(), str(path))}
    for entry in attempt.answers:
        asked = question_again(entry.body["question"], bank, {"wren": subject}, 4)
        assert asked is not None
        verdict = judge(asked, given_again(asked, entry.body).answer)
        assert isinstance(verdict, Verdict) and verdict.right and entry.body["right"]


def test_what_was_wrong_comes_back_and_on_the_same_day_always_the_same(tmp_path: Path) -> None:
    wrong = "zz\n".join(["1\n", "a\n", "a b c\n", "1a 2a 3a 4a 5a\n"]) * 12
    run(tmp_path, wrong)
    asked = [run(tmp_path, "stop\n", "--due", "--on", day) for day in ("2099-01-01", "2099-01-01")]
    assert "Question 1 of" in asked[0]
    assert asked[0] == asked[1]
    assert "Nothing is due" in run(tmp_path, "", "--due", "--on", "2001-01-01")
    assert "leave out" in run(tmp_path, "", "--due", "--assessment", leaves=2)


def test_a_mistake_on_a_roof_comes_back_as_a_question(tmp_path: Path) -> None:
    seat = Seat.open(tmp_path, lambda: 1_000)
    going = seat.begin(find_level("wren").read_text(encoding="utf-8"), 1, "practice")
    for action in rehearse(level_of("wren"), 1, "off-station").actions:
        going.do(action)
    going.finish()
    seat.leave()
    told = run(tmp_path, "stop\n", "--due", "--on", "2026-03-02")
    assert "Question 1 of 1" in told


def test_unclear_answers_are_asked_for_again_and_cost_nothing(tmp_path: Path) -> None:
    told = run(tmp_path, "??\n\n" + "\n".join(map(typed_right, paper())) + "\n")
    assert "6 of 6 right." in told


# what comes back when


def test_on_time_goods_come_back_as_the_facts_file_says() -> None:
    """Six on-time goods with fsrs 6.3.2: 10 minutes, then 2, 11, 46, 163, 498 days; here capped at 30 days."""
    card, gaps = new_card("question q", START), []
    for _turn in range(6):
        now = card.due
        card = reviewed(card, "good", now)
        gaps.append(card.due - now)
    assert gaps[0] == timedelta(minutes=10)
    assert [gap.days for gap in gaps[1:]] == [2, 11, LONGEST_DAYS, LONGEST_DAYS, LONGEST_DAYS]


def test_right_after_a_hint_is_hard_wrong_is_again_and_easy_is_never_given() -> None:
    assert [rating_of(True), rating_of(True, True), rating_of(False), rating_of(False, True)] == [
        "good", "hard", "again", "again",
    ]  # fmt: skip
    card = reviewed(reviewed(new_card("question q", START), "good", START), "good", START + timedelta(minutes=10))
    later = card.due
    ways = [reviewed(card, rating, later).due for rating in ("again", "hard", "good")]  # type: ignore[arg-type]
    assert ways[0] < ways[1] <= ways[2]


@given(st.lists(st.tuples(st.sampled_from(["again", "hard", "good"]), st.integers(0, 60 * 24 * 40)), max_size=8))
def test_the_same_reviews_at_the_same_times_give_the_same_card(reviews: list[tuple[str, int]]) -> None:
    def through() -> Card:
        card, now = new_card("rule off-station", START), START
        for rating, minutes in reviews:
            now += timedelta(minutes=minutes)
            card = reviewed(card, rating, now)  # type: ignore[arg-type]
            assert now <= card.due <= now + timedelta(days=LONGEST_DAYS)
        return card

    assert through() == through()


def test_due_cards_are_told_the_longest_overdue_first() -> None:
    cards = [
        replace(new_card(f"rule {name}", START), due=START + timedelta(hours=h))
        for name, h in (("b", 2), ("a", 1), ("c", 9))
    ]
    assert [card.about for card in due(cards, START + timedelta(hours=3))] == [("rule", "a"), ("rule", "b")]


def test_times_must_say_their_zone_and_any_zone_is_read_as_utc() -> None:
    with pytest.raises(ValueError, match="UTC"):
        new_card("question q", datetime(2026, 3, 2, 9, 0))
    sydney = timezone(timedelta(hours=11))
    assert new_card("question q", START.astimezone(sydney)) == new_card("question q", START)
