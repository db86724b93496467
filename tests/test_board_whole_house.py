"""A whole house on the board, from first start to hand-over: by keyboard alone, and by mouse alone."""

import pytest
from attempts import right
from board_person import ByKeyboard, ByMouse, Person, carriers_first
from sizes import by_size

from trainer.board.scenes.result import ResultScreen

SMALL = [("pardalote", 5)]
WHOLE = [*SMALL, ("wren", 11)]


def played_to_the_end(person: Person) -> None:
    assert isinstance(person.app.scene, ResultScreen)
    assert person.app.scene.findings == ()
    assert person.see("heading", "Practice mark met")
    assert person.see("label", "100 of 100")


@pytest.mark.parametrize(("house", "seed"), by_size(SMALL, WHOLE, WHOLE))
def test_a_house_by_keyboard_alone(house: str, seed: int) -> None:
    person = Person((1280, 800))
    person.wait_for_houses()
    person.arrow_to(house, "Houses")
    person.key("p")
    hands = ByKeyboard(person)
    for action in right(house, seed):
        hands.do(action)
        assert not person.sees("heading", "Have a look"), f"{action}: {person.see('scroll', 'What was found')}"
    played_to_the_end(person)


@pytest.mark.parametrize(("house", "seed"), by_size(SMALL, WHOLE, WHOLE))
def test_a_house_by_mouse_alone(house: str, seed: int) -> None:
    person = Person((1920, 1080))
    person.wait_for_houses()
    person.click_row("Houses", house)
    person.click_on("button", "Practise")
    hands = ByMouse(person)
    for action in carriers_first(right(house, seed)):
        hands.do(action)
        assert not person.sees("heading", "Have a look"), f"{action}: {[f.what for f in person.work.noted]}"
    played_to_the_end(person)
