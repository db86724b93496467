"""Questions as asked, and answers read and judged."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.quiz.bank import parse_bank
from trainer.quiz.from_bank import asked, in_order, pairs
from trainer.quiz.judge import Verdict, answer_text, judge, nearest_place, read_answer, right_answer
from trainer.quiz.measure import TypedNumber, Unclear, amount, read_measure
from trainer.quiz.question import (
    Amount,
    Asked,
    InOrder,
    LabelledPlace,
    OneOf,
    Pairs,
    PointAt,
    Slip,
    SomeOf,
    SpotFault,
    Task,
)
from trainer.quiz.unit import TOPICS
from trainer.shipped import level_paths


def question(task: Task, *slips: Slip) -> Asked:
    return Asked(
        "q", "terms", 1, ("plan",), "Which?", task, "Because it is.", "common practice, no source", slips=slips
    )


CHOICES = ("red", "green", "blue")
LENGTH = question(Amount(1800, "mm", 1), Slip("2400 mm", "You read the next mark.", 2400))


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("1800", 1800), ("1 800", 1800), ("1.8 m", 1800), ("1.8m", 1800), ("1800mm", 1800), ("180 cm", 1800),
        ("1,800", 1800), ("1'800", 1800), ("1\u202f800", 1800), ("1\u00a0800 mm", 1800), ("+1800", 1800),
        ("1 800,5", 1800.5), ("1.800,5", 1800.5), ("1,800.5", 1800.5), ("1800,5", 1800.5), ("0,8 m", 800),
        ("\u22125", -5), (".5", 0.5), ("1800 Millimetres.", 1800), ("12 600 000", 12_600_000), ("１８００", 1800),
    ],
)  # fmt: skip
def test_a_length_is_read_as_people_type_it(typed: str, value: float) -> None:
    read = read_measure(typed, "mm")
    assert isinstance(read, TypedNumber)
    assert read.value == pytest.approx(value)
    assert amount(value, "mm", 6) == read.said, "what was understood is told"


@pytest.mark.parametrize(
    "typed",
    ["", "  ", "abc", "1 80", "1,80,0", "1,800,5", "1800 kg", "1800 m2", "1e3", "12 m 50", "1..8", "9" * 60, "-"],
)
def test_what_is_no_length_is_asked_for_again(typed: str) -> None:
    read = read_measure(typed, "mm")
    assert isinstance(read, Unclear)
    assert read.why.endswith(".")
    assert isinstance(judge(LENGTH, typed), Unclear), "it is unclear, not wrong"


@pytest.mark.parametrize(
    ("typed", "unit", "value"),
    [
        ("24.5 m²", "m2", 24.5), ("24.5m2", "m2", 24.5), ("22.5°", "degrees", 22.5), ("900 N", "kN", 0.9),
        ("7 trusses", "pieces", 7),
    ],
)  # fmt: skip
def test_other_units_are_read_too(typed: str, unit: str, value: float) -> None:
    read = read_measure(typed, unit)  # type: ignore[arg-type]
    assert isinstance(read, TypedNumber)
    assert read.value == pytest.approx(value)


@given(st.integers(0, 10**7))
def test_every_way_to_write_a_whole_number_means_it(value: int) -> None:
    ways = [str(value), f"{value:,}", f"{value:,}".replace(",", " "), f"{value / 1000:.3f} m", f"{value}.0 mm"]
    for way in ways:
        read = read_measure(way, "mm")
        assert isinstance(read, TypedNumber) and read.value == pytest.approx(value), way


@given(st.floats(-1e6, 1e6), st.integers(0, 2))
def test_what_is_written_reads_back(value: float, decimals: int) -> None:
    read = read_measure(amount(value, "kN", decimals), "kN")
    assert isinstance(read, TypedNumber)
    assert read.value == pytest.approx(value, abs=0.51 * 10**-decimals)


def test_a_number_within_tolerance_is_right_and_no_further() -> None:
    assert judge(LENGTH, "1801") == Verdict(True, "1801 mm")
    assert judge(LENGTH, "1.799 m") == Verdict(True, "1799 mm")
    beyond = judge(LENGTH, "1801.1")
    assert isinstance(beyond, Verdict) and not beyond.right


def test_a_known_mistake_is_named() -> None:
    assert judge(LENGTH, "2.4 m") == Verdict(False, "2400 mm", "You read the next mark.")


def test_metres_without_their_unit_are_told() -> None:
    verdict = judge(LENGTH, "1.8")
    assert isinstance(verdict, Verdict) and not verdict.right
    assert "metres" in verdict.slip


TASKS: list[tuple[Task, str, tuple[int, ...], str]] = [
    (OneOf(CHOICES, 1), "b", (1,), "C"),
    (SomeOf(CHOICES, (0, 2)), "c, A", (0, 2), "A"),
    (SomeOf(CHOICES, (0, 2)), "ca", (0, 2), "a b c"),
    (InOrder(CHOICES, (2, 0, 1)), "c a b", (2, 0, 1), "abc"),
    (Pairs(("one", "two"), CHOICES, (2, 0)), "1C 2A", (2, 0), "1A 2C"),
    (Pairs(("one", "two"), CHOICES, (2, 0)), "2-a, 1-c", (2, 0), "b a"),
    (PointAt(tuple(LabelledPlace(w, (0.0, i * 10.0), w) for i, w in enumerate(CHOICES)), 0), "A)", (0,), "b"),
    (SpotFault(CHOICES, 2), "C", (2,), "a"),
]


@pytest.mark.parametrize(("task", "typed", "answer", "wrong"), TASKS)
def test_typed_letters_are_read_and_judged(task: Task, typed: str, answer: tuple[int, ...], wrong: str) -> None:
    it = question(task, Slip("green", "Green is the other one."))
    read = read_answer(it, typed)
    assert not isinstance(read, Unclear | str)
    right, other = judge(it, read), judge(it, wrong)
    assert isinstance(right, Verdict) and right.right
    assert isinstance(other, Verdict) and not other.right
    assert judge(it, right_answer(it)) == right
    assert answer_text(it, right_answer(it)) == right.understood


@pytest.mark.parametrize(
    ("task", "typed"),
    [
        (OneOf(CHOICES, 1), "d"), (OneOf(CHOICES, 1), "a b"), (OneOf(CHOICES, 1), "ab"), (OneOf(CHOICES, 1), ""),
        (SomeOf(CHOICES, (0,)), ""), (SomeOf(CHOICES, (0,)), "a a"), (SomeOf(CHOICES, (0,)), "1"),
        (InOrder(CHOICES, (2, 0, 1)), "a b"), (InOrder(CHOICES, (2, 0, 1)), "aab"),
        (Pairs(("one", "two"), CHOICES, (2, 0)), "1C"), (Pairs(("one", "two"), CHOICES, (2, 0)), "1C 1A"),
        (Pairs(("one", "two"), CHOICES, (2, 0)), "1C 3A"), (Pairs(("one", "two"), CHOICES, (2, 0)), "C 1 A 2"),
    ],
)  # fmt: skip
def test_letters_that_can_be_no_answer_are_asked_for_again(task: Task, typed: str) -> None:
    verdict = judge(question(task), typed)
    assert isinstance(verdict, Unclear)
    assert verdict.why.endswith(".")


@given(st.text(max_size=60))
def test_no_text_whatever_breaks_the_reading(text: str) -> None:
    for task, *_rest in TASKS:
        assert isinstance(judge(question(task), text), Verdict | Unclear)
    assert isinstance(judge(LENGTH, text), Verdict | Unclear)


def test_a_wrong_choice_names_its_mistake() -> None:
    it = question(OneOf(CHOICES, 0), Slip("green", "Green is the other one."))
    verdict = judge(it, "B")
    assert isinstance(verdict, Verdict) and verdict.slip == "Green is the other one."


def test_indices_out_of_range_are_unclear() -> None:
    for task, *_rest in TASKS:
        assert isinstance(judge(question(task), (7,)), Unclear)


def test_the_nearest_place_is_found_within_reach() -> None:
    places = (LabelledPlace("1", (0.0, 0.0), "a"), LabelledPlace("2", (1000.0, 0.0), "b"))
    assert nearest_place(places, (900.0, 50.0), 300) == 1
    assert nearest_place(places, (500.0, 400.0), 300) is None


@given(st.integers(0, 10**6), st.integers(3, 8))
def test_shuffled_steps_and_pairs_keep_their_right_answer(seed: int, count: int) -> None:
    steps = tuple(f"step {i}" for i in range(count))
    ordered = in_order(steps, seed, "name")
    assert tuple(ordered.steps[i] for i in ordered.right) == steps
    assert ordered.steps != steps, "as shown they are never right"
    matched = {f"left {i}": f"right {i}" for i in range(count)}
    shown = pairs(matched, seed, "name")
    assert {a: shown.others[i] for a, i in zip(shown.left, shown.right, strict=True)} == matched
    assert shown.others != tuple(matched.values())
    assert (ordered, shown) == (in_order(steps, seed, "name"), pairs(matched, seed, "name")), "same seed, same order"


def test_every_shipped_question_can_be_asked_and_its_own_answer_is_right() -> None:
    files = sorted((level_paths()[0].parent / "bank").glob("*.yaml"))
    questions = [q for file in files for q in parse_bank(file.read_bytes(), file.name)]
    assert {q.topic for q in questions} == set(TOPICS)
    for written in questions:
        it = asked(written, 5)
        verdict = judge(it, right_answer(it))
        assert isinstance(verdict, Verdict) and verdict.right, written.id
        assert (it.kind, it.written) == (written.kind, True)
        assert replace(it, task=it.task) == it
