"""A quiz on the board: every kind answered by keys and by mouse, kept first, silent where it must be, gone on with."""

from __future__ import annotations

from pathlib import Path

import pygame
import pytest
from attempts import level_of
from board_person import Person
from board_quiz import HOUSE, by_keyboard, first, house, questions, quiz_choice, show
from sizes import some

from trainer.board.quiz_start import ALL, DUE, Wish, begin_quiz, due_now
from trainer.board.scenes.home import Home
from trainer.board.scenes.on_roof import OnRoof
from trainer.board.scenes.quiz import Quiz
from trainer.board.scenes.quiz_choice import QuizChoice
from trainer.board.scenes.work import Work
from trainer.drill import drills
from trainer.quiz.judge import right_answer
from trainer.quiz.question import Amount, InOrder, OneOf, Pairs, PointAt, SomeOf, SpotFault, Task
from trainer.records.errors import NotWritten
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.shipped import find_level

KINDS: tuple[tuple[type[Task], bool], ...] = (
    (OneOf, True), (OneOf, False), (SomeOf, True), (SomeOf, False), (Amount, True), (Amount, False), (InOrder, False),
    (Pairs, True), (Pairs, False), (PointAt, True), (SpotFault, True),
)  # fmt: skip
IDS = [f"{kind.__name__}-{'worked' if worked else 'written'}" for kind, worked in KINDS]


@pytest.mark.parametrize(("kind", "worked"), KINDS, ids=IDS)
def test_every_kind_is_answered_by_keys_alone(kind: type[Task], worked: bool) -> None:
    person, asked = Person(), first(kind, worked=worked)
    kept = show(person, (asked,))
    by_keyboard(person, asked)
    assert [given.right for given in kept] == [True]
    assert person.see("heading", "Right")
    assert any(asked.why in node.name or asked.why in node.value for node in person.tree().walk())
    person.key("enter")
    assert not isinstance(person.app.scene, Quiz), "of one question all is said by then"


def by_mouse(person: Person, asked) -> None:
    right = right_answer(asked)
    match asked.task:
        case Amount(value=value, decimals=decimals):
            person.click_on("entry", "Your answer")
            for letter in f"{value:.{decimals}f}":  # a number has to be typed
                person.key(letter)
        case InOrder():
            for place, index in enumerate(right):
                scene = person.app.scene
                now = scene.quiz.draft.chosen.index(index)
                person.click_row("The order, first to last", str(now))
                for _step in range(now - place):
                    person.click_on("button", "Move up")
        case Pairs():
            for number, index in enumerate(right, 1):
                for _step in range(int(index) + 1):
                    node = person.see("choice", f"{number}. ")
                    person.click((node.rect.right - 20, node.rect.bottom - 15))
        case _:
            for index in right:
                person.click_row("Choices", str(index))
    person.click_on("button", "Answer")


@pytest.mark.parametrize(("kind", "worked"), KINDS, ids=IDS)
def test_every_kind_is_answered_by_mouse(kind: type[Task], worked: bool) -> None:
    person, asked = Person(), first(kind, worked=worked)
    kept = show(person, (asked,))
    by_mouse(person, asked)
    assert [given.right for given in kept] == [True]


def test_a_place_is_pointed_at_on_the_plan_itself() -> None:
    person, asked = Person(), first(PointAt, worked=True)
    kept = show(person, (asked,))
    place = asked.task.places[asked.task.right]  # type: ignore[union-attr]
    person.click(person.plan.to_window(place.at))
    person.key("enter")
    assert [given.right for given in kept] == [True]


def test_a_long_question_stands_beside_its_choices_where_the_text_is_large() -> None:
    person = Person((1280, 800), scale=2.0)
    show(person, (first(OneOf, worked=True, longest=True),))
    assert person.focused.name == "Choices"

    def rect(key: str) -> pygame.Rect:
        return next(node for node in person.tree().walk() if node.key == key).rect

    assert rect("quiz/asked").right <= rect("quiz/scrolled").left, "the lines beside, not above"
    assert rect("quiz/scrolled").contains(rect("0")) and rect("quiz/answer").height > 0
    person.key("v")
    assert person.sees("button", "Hide the house") and not person.sees("scroll", "What is asked")
    person.key("v")
    person.key("a")
    person.key("enter")
    assert rect("quiz/scrolled").contains(rect("quiz/verdict")) and rect("quiz/go on").height > 0
    person = Person((1280, 800), scale=2.0)
    show(person, (first(Amount, worked=True, longest=True),))
    typed = next(node for node in person.tree().walk() if node.key == "quiz/typed")
    assert typed.focused and typed.rect.height > 0


def test_an_answer_that_says_nothing_is_asked_for_again_and_costs_nothing() -> None:
    person, asked = Person(), first(Amount, worked=True)
    kept = show(person, (asked,))
    person.key("enter")
    assert not kept and person.sees("label", "Type a number first.")
    for letter in "about":
        person.key(letter)
    person.key("enter")
    assert not kept and person.app.scene.unclear  # type: ignore[attr-defined]


def test_a_wrong_answer_is_explained_with_what_led_to_it() -> None:
    asked = next(q for q in questions() if isinstance(q.task, OneOf) and q.slips and not q.written)
    person = Person()
    kept = show(person, (asked,))
    slip = next(s for s in asked.slips if s.text in asked.task.choices)  # type: ignore[union-attr]
    person.key("ABCDEF"[asked.task.choices.index(slip.text)].lower())  # type: ignore[union-attr]
    person.key("enter")
    told = " ".join(node.name + node.value for node in person.tree().walk())
    assert [given.right for given in kept] == [False]
    assert slip.why in told and asked.why in told and asked.source in told


def test_an_assessment_says_nothing_before_its_end() -> None:
    asked = tuple(q for q in questions() if isinstance(q.task, OneOf))[:3]
    person = Person()
    kept = show(person, asked, "assessment")
    assert not person.sees("button", "Hint")
    for question in asked:
        assert all(question.why not in node.name + node.value for node in person.tree().walk())
        by_keyboard(person, question)
    assert len(kept) == 3 and person.see("label", "3 of 3 right")
    person.key("home")
    told = " ".join(node.name + node.value for node in person.tree().walk())
    assert asked[0].why in told


def test_a_hint_is_kept_with_the_answer() -> None:
    asked = next(q for q in questions() if isinstance(q.task, Amount) and len(q.working) > 1)
    person = Person()
    kept = show(person, (asked,))
    person.key("h", ctrl=True)
    assert person.sees("label", f"Hint: {asked.working[0]}")
    by_keyboard(person, asked)
    assert kept[0].right and kept[0].hinted


def test_the_roof_is_shown_and_one_comes_back_to_the_quiz() -> None:
    asked = next(q for q in questions() if isinstance(q.task, OneOf) and len(q.about) > 1)
    person = Person()
    show(person, (asked,))
    by_keyboard(person, asked)
    person.key("r")
    assert isinstance(person.app.scene, OnRoof)
    rows = {row.key for row in person.see("list", "Trusses").children}
    assert rows == {tag for tag in asked.about if tag in house().layout.by_tag}
    person.key("esc")
    assert isinstance(person.app.scene, Quiz) and person.see("heading", "Right")
    person.key("r")
    person.key("p")
    assert isinstance(person.app.scene, Work) and person.app.scene.entry.id == HOUSE


def test_an_answer_that_can_not_be_kept_is_not_given(monkeypatch: pytest.MonkeyPatch) -> None:
    person, asked = Person(), first(OneOf, worked=True)
    show(person, (asked,))

    def full(*_args: object) -> None:
        raise NotWritten("The disk is full.")

    monkeypatch.setattr(person.app.scene.quiz, "_keep", full)  # type: ignore[attr-defined]
    by_keyboard(person, asked)
    assert person.app.asking
    assert not person.app.scene.quiz.sitting.given  # type: ignore[attr-defined]


def test_what_is_left_in_the_middle_is_gone_on_with_after_a_crash(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    _choose(person)
    scene = person.app.scene
    assert isinstance(scene, Quiz)
    ids = tuple(scene.quiz.questions)
    by_keyboard(person, scene.quiz.questions[ids[0]])
    again = Person(data=tmp_path)  # the first window was never closed
    again.wait_for_houses()
    again.key("q")
    again.key("g")
    scene = again.app.scene
    assert isinstance(scene, Quiz)
    assert tuple(scene.quiz.questions) == ids and len(scene.quiz.sitting.given) == 1
    assert scene.quiz.sitting.given[0].right
    for name in ids[1:]:
        by_keyboard(again, scene.quiz.questions[name])
        again.key("enter")
    assert again.see("heading", "The quiz is done")
    with Store.read(tmp_path / FILE) as store:
        (attempt,) = store.attempts(store.ids()[0])
    assert attempt.closed and attempt.fault is None and len(attempt.answers) == len(ids) and len(attempt.gaps) == 1


def _choose(person: Person) -> None:
    person.wait_for_houses()
    person.arrow_to(HOUSE, "Houses")
    person.key("q")
    assert isinstance(person.app.scene, QuizChoice)
    person.key("enter")
    person.wait(2)


def test_what_was_got_wrong_is_due_and_comes_back(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    _choose(person)
    scene = person.app.scene
    assert isinstance(scene, Quiz)
    seat = person.app.services.records.seat()
    assert seat is not None and not due_now(seat)
    wrong = next(q for q in scene.quiz.questions.values() if isinstance(q.task, OneOf))
    while scene.quiz.asked is not None and scene.quiz.asked.id != wrong.id:
        by_keyboard(person, scene.quiz.asked)
        person.key("enter")
    person.key("ABCD"[(wrong.task.right + 1) % 3].lower())  # type: ignore[union-attr]
    person.key("enter")
    clock = seat.clock
    seat.clock = lambda: clock() + 3_600_000  # an hour on
    names = {card.name for card in due_now(seat)}
    own = f"question {wrong.id}" if wrong.written else f"family {wrong.id.split('.')[0]}"
    assert own in names
    again = begin_quiz(Wish(DUE, person.app.services.library.entries[0], 5, "practice", 3), seat)  # type: ignore[union-attr]
    assert again.questions


def test_leaving_in_the_middle_is_asked_about() -> None:
    person = Person()
    asked = tuple(q for q in questions() if isinstance(q.task, OneOf))[:2]
    show(person, asked)
    person.key("esc")
    assert isinstance(person.app.scene, Home), "nothing was answered yet"
    show(person, asked)
    by_keyboard(person, asked[0])
    person.key("esc")
    assert person.app.asking


def test_topics_can_be_chosen_and_the_same_seed_asks_the_same() -> None:
    entry = next(e for e in _entries() if e.id == HOUSE)
    one, two = (begin_quiz(Wish("saddles", entry, 5, "practice", 9), None) for _turn in range(2))
    assert list(one.questions) == list(two.questions) and len(one.questions) == 5
    assert {q.topic for q in one.questions.values()} == {"saddles"}
    assert len(begin_quiz(Wish(ALL, entry, 40, "practice", 9), None).questions) == 40


def test_whoever_has_met_nothing_is_asked_what_is_easy_unless_everything_is_asked_for() -> None:
    person = Person()
    hardest = {}
    for everything in (False, True):
        person.app.services.go_home()
        quiz_choice(person)
        person.wait(3)
        if everything:
            person.tab_to("choice", "Asks about")
            person.key("right")
        person.app.scene.begin()
        person.wait(3)
        scene = person.app.scene
        assert isinstance(scene, Quiz)
        hardest[everything] = max(question.difficulty for question in scene.quiz.questions.values())
    assert hardest[False] == 1 < hardest[True]


def _entries() -> list:
    person = Person()
    person.wait_for_houses()
    return person.app.services.library.entries  # type: ignore[union-attr]


def test_a_mistake_on_a_roof_comes_back_as_a_question_and_as_a_drill(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    person.wait_for_houses()
    seat = person.app.services.records.seat()
    assert seat is not None
    going = seat.begin(find_level(HOUSE).read_text(encoding="utf-8"), 1, "practice")
    for action in rehearse(level_of(HOUSE), 1, "off-station").actions:
        going.do(action)
    going.finish()
    clock = seat.clock
    seat.clock = lambda: clock() + 3_600_000  # an hour on
    person.arrow_to(HOUSE, "Houses")
    person.key("q")
    (row,) = [row for row in person.see("list", "What about?").children if row.key == DUE]
    assert "1 due" in row.name and row.value == "chosen"
    person.key("d")
    assert isinstance(person.app.scene, Work) and person.app.asking, "the drill says its task"
    person.key("esc")
    person.key("esc")
    assert person.see("list", "What about?"), "left, the drill leads back to the quiz that it was begun from"
    person.key("enter")
    assert isinstance(person.app.scene, Quiz)
    (asked,) = person.app.scene.quiz.questions.values()
    assert "off-station" in asked.rules


@pytest.mark.parametrize("kind", some([kind.name for kind in drills()], 5))
def test_every_drill_is_begun_from_the_path(kind: str) -> None:
    person = Person()
    person.wait_for_houses()
    person.arrow_to(HOUSE, "Houses")
    person.key("d")
    person.arrow_to(kind, "Which skill?")
    person.key("enter")
    assert person.app.asking, "the drill says its task, or why this house has none"
    task = person.see("heading").name
    person.key("esc")
    if isinstance(person.app.scene, Work):
        assert not person.app.scene.session.findings and task
    else:
        # A house in order has no plates to mend, and this one has no beam and no higher wall.
        assert task == "No drill for this here" and kind in {"true-plates", "beam-and-posts", "tie-it-to-the-wall"}
