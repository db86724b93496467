"""Bank files: what they give, and every fault of form at its line."""

import copy
from typing import get_args

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from trainer.quiz import TOPICS, UNIT_ITEMS, parse_bank
from trainer.quiz.unit import Topic, UnitItem
from trainer.read import Fault, Faulty

BANK = """\
schema: 1
questions:
  - id: wall-names
    kind: choose one
    topic: reading plans
    difficulty: 1
    serves: [plan]
    text: Which wall is drawn first?
    choices: [the top one, wall A, the longest]
    answer: B
    why: Walls are named in the order they are drawn.
    source: common practice, no source
  - id: sound-trees
    kind: choose several
    topic: terms
    difficulty: 2
    serves: [materials, site]
    text: Which of these are timbers?
    choices: [ironbark, basalt, blackbutt, slate]
    answer: [C, A]
    why: Ironbark and blackbutt are trees.
    safety: Wear gloves.
    source: common practice, no source
  - id: day
    kind: put in order
    topic: order
    difficulty: 1
    serves: [plan]
    text: Put the day in order.
    steps: [morning, noon, evening]
    why: The sun moves from east to west.
    source: common practice, no source
  - id: pairs
    kind: match
    topic: tools and PPE
    difficulty: 3
    serves: [tools]
    text: Match tool to use.
    pairs: {tape: length, level: slope, line: straightness}
    why: Each tool has its own use.
    source: common practice, no source
  - id: half
    kind: number
    topic: tolerances
    difficulty: 1
    serves: [erecting]
    text: What is half of 35?
    answer: 17.5
    unit: mm
    tolerance: 0.5
    why: Twice 17.5 makes 35 again.
    source: arithmetic
"""
LINES = (3, 13, 24, 33, 42)


def changed(index: int, **values: object) -> str:
    """The bank above with keys of one question given, or taken out where the value is ``...``."""
    data = copy.deepcopy(yaml.safe_load(BANK))
    for key, value in values.items():
        if value is ...:
            del data["questions"][index][key]
        else:
            data["questions"][index][key] = value
    return yaml.safe_dump(data, sort_keys=False)


def told(text: str | bytes) -> list[Fault]:
    with pytest.raises(Faulty) as caught:
        parse_bank(text, "bank.yaml")
    return list(caught.value.faults)


def test_a_bank_is_read_whole_and_every_question_knows_its_place() -> None:
    one, several, order, match, number = parse_bank(BANK, "bank.yaml")
    assert (one.kind, one.choices[one.right[0]]) == ("choose one", "wall A")
    assert (several.kind, [several.choices[i] for i in several.right]) == ("choose several", ["ironbark", "blackbutt"])
    assert several.serves == ("materials", "site") and several.safety == "Wear gloves." and one.safety is None
    assert (order.kind, order.steps) == ("put in order", ("morning", "noon", "evening"))
    assert (match.kind, next(iter(match.pairs.items()))) == ("match", ("tape", "length"))
    assert (number.kind, number.answer, number.unit, number.tolerance) == ("number", 17.5, "mm", 0.5)
    assert [question.place for question in (one, several, order, match, number)] == [
        ("bank.yaml", line) for line in LINES
    ]


def test_a_tolerance_not_given_is_none_at_all() -> None:
    assert parse_bank(changed(4, tolerance=...), "bank.yaml")[4].tolerance == 0


@pytest.mark.parametrize(
    ("index", "values", "path", "words"),
    [
        (0, {"id": "Wall Names"}, "questions[0].id", "small letters, digits and hyphens"),
        (0, {"kind": "choose on"}, "questions[0].kind", "did you mean 'choose one'?"),
        (0, {"kind": ...}, "questions[0].kind", "is missing"),
        (0, {"topic": "reading plan"}, "questions[0].topic", "did you mean 'reading plans'?"),
        (0, {"difficulty": 4}, "questions[0].difficulty", "from 1 to 3"),
        (0, {"difficulty": "1"}, "questions[0].difficulty", "without quotes"),
        (0, {"serves": []}, "questions[0].serves", "at least 1"),
        (0, {"serves": ["plans"]}, "questions[0].serves[0]", "did you mean 'plan'?"),
        (0, {"serves": ["plan", "plan"]}, "questions[0].serves", "names 'plan' twice"),
        (0, {"text": ""}, "questions[0].text", "text on one line"),
        (0, {"text": "Two\nlines?"}, "questions[0].text", "text on one line"),
        (0, {"why": ...}, "questions[0].why", "is missing"),
        (0, {"why": " "}, "questions[0].why", "text on one line"),
        (0, {"source": ...}, "questions[0].source", "is missing"),
        (0, {"safty": "Wear gloves."}, "questions[0].safty", "did you mean 'safety'?"),
        (0, {"answer": ["A", "B"]}, "questions[0].answer", "is a list; write one letter from A to F"),
        (0, {"answer": "b"}, "questions[0].answer", "did you mean 'B'?"),
        (0, {"answer": "D"}, "questions[0]", "has answer D, but its last choice is C"),
        (0, {"answer": ...}, "questions[0].answer", "is missing"),
        (0, {"choices": ["one", "two"]}, "questions[0].choices", "3 to 6 entries"),
        (0, {"choices": ["Wall A.", "wall  a", "wall B"]}, "questions[0]", "has two choices that are alike"),
        (1, {"answer": "A"}, "questions[1].answer", "write a list"),
        (1, {"answer": ["A"]}, "questions[1].answer", "at least 2 entries"),
        (1, {"answer": ["A", "A"]}, "questions[1].answer", "names 'A' twice"),
        (1, {"answer": ["A", "E"]}, "questions[1]", "has answer E, but its last choice is D"),
        (1, {"answer": ["A", "B", "C", "D"]}, "questions[1]", "has no wrong choice"),
        (2, {"steps": ["one", "two", "One"]}, "questions[2]", "has two steps that are alike"),
        (2, {"steps": ["one", "two"]}, "questions[2].steps", "3 to 8 entries"),
        (3, {"pairs": {"a": "x", "b": "y", "c": "X"}}, "questions[3]", "has two right sides that are alike"),
        (3, {"pairs": {"a": "x", "A": "y", "c": "z"}}, "questions[3]", "has two left sides that are alike"),
        (4, {"answer": "17.5"}, "questions[4].answer", "without quotes or unit"),
        (4, {"unit": "metres"}, "questions[4].unit", "one of: mm"),
        (4, {"tolerance": -1}, "questions[4].tolerance", "from 0 to 1000"),
        (4, {"choices": ["a", "b", "c"]}, "questions[4].choices", "is not known here"),
    ],
)  # fmt: skip
def test_each_fault_of_form_is_told_at_its_place(index: int, values: dict[str, object], path: str, words: str) -> None:
    (fault,) = told(changed(index, **values))
    assert fault.path == path and words in fault.what
    assert fault.file == "bank.yaml" and fault.line > 1


def test_all_faults_are_told_at_once_each_at_its_line() -> None:
    text = BANK.replace("answer: B", "answer: E").replace("topic: terms", "topic: term").replace("unit: mm", "unit: cm")
    assert [(fault.line, fault.path) for fault in told(text)] == [
        (3, "questions[0]"), (15, "questions[1].topic"), (49, "questions[4].unit")
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text", ["", "schema: 1", "schema: 2\nquestions: []", "[]", "questions: 3", b"\xff\xfe\x00", BANK[: len(BANK) // 2]]
)
def test_a_file_that_is_no_bank_is_told_as_such(text: str | bytes) -> None:
    assert all(fault.file == "bank.yaml" and fault.what for fault in told(text))


@given(st.text(alphabet="abc:-[]{}&*!|>'\"#\n ", max_size=80))
def test_whatever_stands_in_a_bank_file_it_is_questions_or_faults(text: str) -> None:
    with pytest.raises(Faulty):
        parse_bank("schema: 1\nquestions:\n" + text, "bank.yaml")


def test_the_unit_items_in_words_are_those_a_question_may_serve() -> None:
    assert tuple(UNIT_ITEMS) == get_args(UnitItem)
    assert get_args(Topic) == TOPICS and len(set(TOPICS)) == 16
