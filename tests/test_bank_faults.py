"""What well-formed written questions can still get wrong: a guilty case and an innocent one for each."""

from collections.abc import Sequence

import pytest
import yaml

from trainer.quiz import TOPICS, UNIT_ITEMS, Question, bank_faults, parse_bank, question_faults
from trainer.quiz.bank_faults import FEWEST_JUDGED, LONGEST_SENTENCE


def asked(**values: object) -> dict[str, object]:
    """One innocent question as a bank file has it, with some of its keys changed."""
    plain = {
        "id": "q", "kind": "choose one", "topic": "terms", "difficulty": 1, "serves": ["plan"],
        "text": "What does a rabbit eat?", "choices": ["fresh grass", "old nails", "wet sand"], "answer": "A",
        "why": "Rabbits live on grass and leaves.", "source": "common practice, no source",
    }  # fmt: skip
    return plain | values


def bank(*questions: dict[str, object]) -> tuple[Question, ...]:
    return parse_bank(yaml.safe_dump({"schema": 1, "questions": list(questions)}, sort_keys=False), "bank.yaml")


def told(**values: object) -> list[str]:
    (question,) = bank(asked(**values))
    return [fault.what for fault in question_faults(question)]


def told_of_bank(questions: Sequence[Question]) -> list[str]:
    return [fault.what for fault in bank_faults(questions)]


def test_an_innocent_question_has_no_fault() -> None:
    assert told() == []


@pytest.mark.parametrize(
    "choice",
    [
        "All of the above", "None of the above", "all the above", "Any of the above", "Both of the above",
        "All of these", "Neither of them", "None of the others", "Both A and B", "A and C", "Neither B nor C",
        "Two of the above",
    ],
)  # fmt: skip
@pytest.mark.parametrize(("kind", "answer"), [("choose one", "A"), ("choose several", ["A", "B"])])
def test_a_choice_that_points_at_the_others_is_a_fault(choice: str, kind: str, answer: object) -> None:
    (what,) = told(kind=kind, answer=answer, choices=["grass", "leaves", "nails", choice])
    assert f"'{choice}'" in what


@pytest.mark.parametrize(
    "choice",
    ["None", "All four walls", "Both ends of the truss", "Any truss of the row", "From wall A to wall B",
     "Neither plate", "The plate above the window", "All the trusses", "None of the nails", "Walls A and C"],
)  # fmt: skip
def test_a_choice_that_only_sounds_like_it_is_none(choice: str) -> None:
    assert told(choices=["grass", "nails", choice]) == []


@pytest.mark.parametrize("key", ["text", "why", "safety"])
def test_a_long_sentence_is_a_fault_and_two_short_ones_are_none(key: str) -> None:
    half = "one two three four five six seven eight"
    (what,) = told(**{key: f"{half} {half}."})
    assert what.startswith("has 16 words") and LONGEST_SENTENCE < 16
    assert told(**{key: f"{half}. {half}."}) == []
    assert told(**{key: f"The load is 0.6 kN. {half}."}) == []


@pytest.mark.parametrize(
    "values",
    [
        {"choices": ["word " * 15 + "word", "old nails", "wet sand"]},
        {"kind": "put in order", "steps": ["word " * 15 + "word", "old nails", "wet sand"]},
        {"kind": "match", "pairs": {"a": "word " * 15 + "word", "b": "old nails", "c": "wet sand"}},
    ],
)
def test_long_choices_steps_and_pairs_are_faults_too(values: dict[str, object]) -> None:
    written = asked(**values)
    if "kind" in values:
        del written["answer"], written["choices"]
    (question,) = bank(written)
    (fault,) = question_faults(question)
    assert fault.what.startswith("has 16 words") and (fault.file, fault.line, fault.path) == ("bank.yaml", 3, "q")


def test_an_explanation_that_explains_nothing_is_a_fault() -> None:
    (what,) = told(why="It eats grass.")
    assert "say why" in what
    assert told(why="It eats grass daily.") == []


def test_an_id_given_twice_is_a_fault_and_says_where_the_first_stands() -> None:
    twice = bank(asked(), asked(text="Where do wombats sleep at noon?", choices=["burrow", "tree", "creek"]))
    (fault,) = [fault for fault in bank_faults(twice) if "the id" in fault.what]
    assert fault.path == "q" and fault.line == twice[1].place.line and "bank.yaml:3" in fault.what


def test_a_repeat_is_a_fault_also_when_it_is_reworded_a_little() -> None:
    again = asked(
        id="r", text="What, then, does the rabbit eat?", choices=["old bolts", "fresh grass", "mud"], answer="B"
    )
    (fault,) = [fault for fault in bank_faults(bank(asked(), again)) if "nearly the same" in fault.what]
    assert (fault.path, fault.line) == ("r", bank(asked(), again)[1].place.line)


@pytest.mark.parametrize(
    "other",
    [
        asked(id="r", text="What does a dingo eat?", choices=["small animals", "old nails", "wet sand"]),
        asked(id="r", text="Where does a rabbit sleep?", choices=["a burrow", "a nest", "a creek"]),
    ],
)
def test_a_question_on_something_near_is_no_repeat(other: dict[str, object]) -> None:
    assert not [what for what in told_of_bank(bank(asked(), other)) if "nearly the same" in what]


def test_orders_and_matches_are_told_apart_by_what_they_hold() -> None:
    def steps(name: str, *held: str) -> dict[str, object]:
        question = asked(id=name, kind="put in order", text="Put these in order.", steps=list(held))
        del question["choices"], question["answer"]
        return question

    apart = bank(steps("a", "dawn", "noon", "dusk"), steps("b", "seed", "shoot", "leaf"))
    alike = bank(steps("a", "dawn", "noon", "dusk"), steps("b", "dawn", "noon", "night"))
    assert not [what for what in told_of_bank(apart) if "nearly the same" in what]
    assert [what for what in told_of_bank(alike) if "nearly the same" in what]


def covering() -> list[dict[str, object]]:
    """Questions on all topics and all items of the unit, nothing else wrong with them."""
    birds = (
        "emu", "brolga", "jabiru", "bustard", "kestrel", "harrier", "plover", "curlew", "jacana", "tern", "noddy",
        "gannet", "booby", "ibis", "egret", "bittern",
    )  # fmt: skip
    items = list(UNIT_ITEMS)
    return [
        asked(id=bird, topic=topic, serves=[items[i % len(items)]], text=f"How fast is the {bird}?",
              choices=[f"{i} {bird}", f"{i} legs", f"{i} eggs"], answer="ABC"[i % 3])
        for i, (bird, topic) in enumerate(zip(birds, TOPICS, strict=True))
    ]  # fmt: skip


def test_a_bank_that_covers_everything_has_no_fault() -> None:
    assert bank_faults(bank(*covering())) == []


@pytest.mark.parametrize("topic", TOPICS)
def test_a_topic_with_no_question_is_a_fault_of_the_bank(topic: str) -> None:
    kept = [question | {"serves": list(UNIT_ITEMS)} for question in covering() if question["topic"] != topic]
    (fault,) = bank_faults(bank(*kept), "my bank")
    assert f"'{topic}'" in fault.what and str(fault).startswith("my bank:1: questions:")


@pytest.mark.parametrize("item", UNIT_ITEMS)
def test_a_unit_item_that_nothing_serves_is_a_fault_of_the_bank(item: str) -> None:
    rest = [other for other in UNIT_ITEMS if other != item]
    (what,) = told_of_bank(bank(*(question | {"serves": rest} for question in covering())))
    assert f"'{item}'" in what


def many(places: str, lengths: Sequence[int] = (0,), wrong: Sequence[int] = (0,)) -> tuple[Question, ...]:
    """Choose-one questions of four choices: the letter that is right, and how much longer right and wrong ones are."""
    questions = []
    for i, letter in enumerate(places):
        choices = [f"{name} {i:03}" + "o" * wrong[i % len(wrong)] for name in ("ant", "bee", "cow", "dog")]
        right = "ABCD".index(letter)
        choices[right] = choices[right][:7] + "o" * lengths[i % len(lengths)]
        questions.append(asked(id=f"q{i}", text=f"Which one is number {i:03}?", choices=choices, answer=letter))
    return bank(*questions)


def habits(questions: Sequence[Question]) -> list[str]:
    return [what for what in told_of_bank(questions) if "right" in what]


def test_a_bank_whose_right_choices_are_evenly_placed_has_no_habit() -> None:
    assert habits(many("ABCD" * 10)) == []


def test_right_choices_that_stand_first_too_often_are_a_fault() -> None:
    (first, *rest) = habits(many("A" * 22 + "BCD" * 6))
    assert "have A right 22 times, where an even share is 10" in first and "from A" in first
    assert all("to " in what for what in rest)


def test_a_letter_that_is_never_right_is_a_fault() -> None:
    assert any("have D right 0 times" in what and "to D" in what for what in habits(many("ABC" * 14)))


def test_a_right_choice_that_is_often_the_longest_is_a_fault() -> None:
    (what,) = habits(many("ABCD" * 10, lengths=(5, 0)))
    assert "as the longest in 20 of 40" in what
    assert habits(many("ABCD" * 10, lengths=(5, 0, 0, 0))) == []


def test_a_right_choice_that_is_often_the_shortest_is_a_fault() -> None:
    (what,) = habits(many("ABCD" * 10, wrong=(5, 0)))
    assert "as the shortest in 20 of 40" in what
    assert habits(many("ABCD" * 10, wrong=(5, 0, 0, 0))) == []


def test_as_long_as_another_does_not_stand_out() -> None:
    assert habits(many("ABCD" * 10, lengths=(5,), wrong=(5,))) == []


def test_habits_are_not_read_into_a_handful_of_questions() -> None:
    assert habits(many("A" * (FEWEST_JUDGED - 1), lengths=(5,))) == []
    assert habits(many("A" * FEWEST_JUDGED, lengths=(5,))) != []
