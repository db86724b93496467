"""A whole house on the board, from first start to hand-over: by keyboard alone, and by mouse alone."""

import pytest
from attempts import level_of
from board_person import ByKeyboard, ByMouse, Person, carriers_first

from trainer.board.scenes.result import ResultScreen
from trainer.rehearse import rehearse


def played_to_the_end(person: Person) -> None:
    assert isinstance(person.app.scene, ResultScreen)
    assert person.app.scene.findings == ()
    assert person.see("heading", "Practice mark met")
    assert person.see("label", "100 of 100")


@pytest.mark.parametrize(("house", "seed"), [("pardalote", 5), ("wren", 11)])
def test_a_house_by_keyboard_alone(house: str, seed: int) -> None:
    person = Person((1280, 800))
    person.wait_for_houses()
    person.arrow_to(house, "Houses")
    person.key("p")
    hands = ByKeyboard(person)
    for action in rehearse(level_of(house), seed).actions:
        hands.do(action)
        assert not person.sees("heading", "Have a look"), f"{action}: {person.see('scroll', 'What was found')}"
    played_to_the_end(person)


@pytest.mark.parametrize(("house", "seed"), [("pardalote", 6), ("wren", 12)])
def test_a_house_by_mouse_alone(house: str, seed: int) -> None:
    person = Person((1920, 1080))
    person.wait_for_houses()
    person.click_row("Houses", house)
    person.click_on("button", "Practise")
    hands = ByMouse(person)
    for action in carriers_first(rehearse(level_of(house), seed).actions):
        hands.do(action)
        assert not person.sees("heading", "Have a look"), f"{action}: {[f.what for f in person.work.noted]}"
    played_to_the_end(person)
