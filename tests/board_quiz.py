"""A person taking a quiz on the board, and the screens that belong to it."""

from functools import lru_cache

from attempts import level_of
from board_person import Person

from trainer.board.quiz_start import bank
from trainer.board.quizzing import Quizzing
from trainer.board.scenes.quiz import Quiz
from trainer.quiz.judge import LETTERS, right_answer
from trainer.quiz.paper import make_paper
from trainer.quiz.question import Amount, Asked, InOrder, OneOf, Pairs, PointAt, SomeOf, SpotFault, Task
from trainer.quiz.sitting import Given, Sitting
from trainer.quiz.worked import FAMILIES, Subject, subject_of
from trainer.terms import Mode

HOUSE = "wren"


@lru_cache(1)
def house() -> Subject:
    return subject_of(level_of(HOUSE))


@lru_cache(1)
def questions() -> tuple[Asked, ...]:
    """One paper's questions and more, so that every kind is among them, worked and written."""
    papers = [q for seed in (4, 5) for q in make_paper(bank(), [house()], seed, 100).questions]
    return (*papers, *(q for name in ("match-carriers", "point-at-line") for seed in range(9)
            if (q := FAMILIES[name].ask(house(), seed))))  # fmt: skip


def first(kind: type[Task], *, worked: bool, longest: bool = False) -> Asked:
    """A question of a kind; the one with the most to read, where that is asked for."""
    found = [q for q in questions() if isinstance(q.task, kind) and q.written != worked]
    return max(found, key=lambda q: len(repr(q.task)) + len(q.text)) if longest else found[0]


def show(person: Person, asked: tuple[Asked, ...], mode: Mode = "practice") -> list[Given]:
    """Put a quiz of these questions on the screen; return the list that its answers go into."""
    kept: list[Given] = []
    sitting = Sitting(mode, 4, HOUSE, tuple(q.id for q in asked))
    quiz = Quizzing(asked, {HOUSE: house()}, sitting, lambda _q, given, _took: kept.append(given), lambda: None)
    person.wait_for_houses()
    person.app.show(Quiz(person.app.services, quiz))
    person.wait(2)
    return kept


def by_keyboard(person: Person, asked: Asked) -> None:
    """Answer the question on the screen rightly, with keys alone."""
    right = right_answer(asked)
    match asked.task:
        case Amount(value=value, decimals=decimals):
            for letter in f"{value:.{decimals}f}":
                person.key(letter)
        case SomeOf():
            for index in right:
                person.key(LETTERS[int(index)].lower())
            person.key("enter", ctrl=True)
            return
        case InOrder():
            for place, index in enumerate(right):
                person.key("home")
                now = person.app.scene.quiz.draft.chosen.index(index)  # type: ignore[attr-defined]
                person.key("down", times=now)
                person.key("up", times=now - place, alt=True)
        case Pairs():
            for index in right:
                person.key("right", times=int(index) + 1)
                person.key("tab")
            person.tab_to("button", "Answer")
        case _:
            person.key(LETTERS[int(right[0])].lower())
    person.key("enter")


def quiz_choice(person: Person) -> None:
    person.wait_for_houses()
    person.arrow_to(HOUSE, "Houses")
    person.key("q")


def quiz_one(person: Person) -> None:
    show(person, (first(OneOf, worked=True, longest=True),))


def quiz_written(person: Person) -> None:
    show(person, (first(OneOf, worked=False, longest=True),))


def quiz_several(person: Person) -> None:
    show(person, (first(SomeOf, worked=True, longest=True),))


def quiz_number(person: Person) -> None:
    show(person, (first(Amount, worked=True, longest=True),))


def quiz_order(person: Person) -> None:
    show(person, (first(InOrder, worked=False, longest=True),))


def quiz_match(person: Person) -> None:
    show(person, (first(Pairs, worked=False, longest=True),))


def quiz_point(person: Person) -> None:
    show(person, (first(PointAt, worked=True),))
    person.key("b")


def quiz_point_wrong(person: Person) -> None:
    """The wrong place was chosen: the right one and the one chosen are on the plan."""
    asked = first(PointAt, worked=True)
    show(person, (asked,))
    assert isinstance(asked.task, PointAt)
    person.key(str(1 + (asked.task.right + 1) % len(asked.task.places)))
    person.key("enter")


def quiz_spot(person: Person) -> None:
    show(person, (first(SpotFault, worked=True, longest=True),))


def quiz_right(person: Person) -> None:
    asked = first(OneOf, worked=True, longest=True)
    show(person, (asked,))
    by_keyboard(person, asked)


def quiz_wrong(person: Person) -> None:
    asked = first(OneOf, worked=True, longest=True)
    show(person, (asked,))
    person.key(LETTERS[(asked.task.right + 1) % len(asked.task.choices)].lower())  # type: ignore[union-attr]
    person.key("enter")


def quiz_done(person: Person) -> None:
    asked = tuple(first(OneOf, worked=worked) for worked in (True, False))
    show(person, asked)
    for _question in asked:
        person.key("a")
        person.key("enter")
        person.key("enter")


def quiz_roof(person: Person) -> None:
    asked = next(q for q in questions() if isinstance(q.task, OneOf) and len(q.about) > 1)
    show(person, (asked,))
    by_keyboard(person, asked)
    person.key("r")


def drill_choice(person: Person) -> None:
    person.wait_for_houses()
    person.arrow_to(HOUSE, "Houses")
    person.key("d")


SCREENS = (
    drill_choice, quiz_choice, quiz_one, quiz_written, quiz_several, quiz_number, quiz_order, quiz_match, quiz_point,
    quiz_point_wrong, quiz_spot, quiz_right, quiz_wrong, quiz_done, quiz_roof,
)  # fmt: skip
