"""Watching a house being built on the board, by keyboard and by mouse."""

from __future__ import annotations

import board_screens
from board_person import Person

from trainer.board.library import entry_of
from trainer.board.scenes.film import FilmScreen
from trainer.board.scenes.home import Home
from trainer.board.scenes.work import Work
from trainer.level import parse_level


def watching(person: Person, level: str = "thornbill") -> FilmScreen:
    """Open the film of a house by its key, and wait until it is made."""
    person.wait_for_houses()
    person.arrow_to(level, "Houses")
    person.key("w")
    scene = person.app.scene
    assert isinstance(scene, FilmScreen)
    for _frame in range(200):
        if scene.ready:
            break
        person.wait(1)
    person.wait(2)
    return scene


def until_asked(person: Person, scene: FilmScreen) -> None:
    """Let the film run, passing its captions, until it asks."""
    player = scene.player
    assert player is not None
    for _frame in range(2000):
        if player.asking is not None:
            break
        if player.held is not None:
            person.key("n")
        person.wait(1, 100)
    person.key("1")
    assert player.answer is None, "a key so soon was meant for what stood there before"
    person.wait(11, 100)


def test_it_plays_stops_and_asks_by_keyboard_alone() -> None:
    person = Person()
    scene = watching(person)
    assert scene.at_ms == 0 and "First the marks" in person.see("scroll", "What is shown").children[0].children[1].value
    until_asked(person, scene)
    assert person.focused.key == "film/option 0"
    answers = [node for node in person.tree().walk() if node.key.startswith("film/option")]
    assert len(answers) == 3 and all(node.rect.height for node in answers)
    right = next(n for n, option in enumerate(scene.film.stops[0].options) if option.right)
    person.key(str(right + 1))
    person.wait(1)
    said = " ".join(node.value for node in person.tree().walk() if node.key.startswith(("film/answer", "film/why")))
    assert said.startswith("Right") and person.focused.name == "Go on"
    before = scene.at_ms
    person.key("enter")
    person.wait(10, 100)
    assert scene.at_ms > before
    person.key("p")
    at = scene.at_ms
    person.wait(10, 100)
    assert scene.at_ms == at, "paused"
    person.key("b")
    person.wait(1)
    assert scene.at_ms < at
    person.key("esc")
    assert isinstance(person.app.scene, Home)


def test_by_mouse_it_shows_one_idea_alone_and_goes_on_to_building() -> None:
    person = Person()
    scene = watching(person)
    person.choose_by_mouse("Show", "The first truss")
    assert scene.player is not None and scene.player.part is not None
    assert scene.at_ms == scene.player.part.ranges[0][0]
    for _frame in range(400):
        if scene.player.ended:
            break
        if scene.player.held is not None:
            person.click_on("button", "Skip" if scene.player.asking else "Go on")
        person.wait(1, 100)
    assert "That part is shown." in {node.name for node in person.tree().walk()}
    person.click_on("button", "Build it yourself")
    assert isinstance(person.app.scene, Work)


def test_before_the_first_practice_on_a_house_its_film_is_offered() -> None:
    person = Person()
    person.app.comfort.remember(guided=True)
    person.wait_for_houses()
    person.arrow_to("thornbill", "Houses")
    person.key("p")
    assert person.app.asking and person.focused.name == "Watch it built"
    person.key("enter")
    assert isinstance(person.app.scene, FilmScreen)
    person.key("esc")
    person.key("p")
    person.click_on("button", "Skip")  # the four questions before a first house
    assert isinstance(person.app.scene, Work), "who has just watched it is not asked again"
    person.key("esc")
    person.arrow_to("pardalote", "Houses")
    person.key("p")
    person.click_on("button", "Build it now")
    assert isinstance(person.app.scene, Work)


def test_without_movement_there_are_still_pictures() -> None:
    person = Person()
    person.app.look.still = True
    scene = watching(person)
    assert not person.sees("button", "Play")
    at = scene.at_ms
    person.wait(40, 100)
    assert scene.at_ms == at == 0
    shown = set()
    for _step in range(12):
        person.key("n")
        person.wait(1)
        shown.add(scene.at_ms)
    assert len(shown) > 4


def test_there_is_none_of_a_house_kept_for_assessment() -> None:
    person = Person()
    person.wait_for_houses()
    person.arrow_to("avocet", "Houses")
    assert not person.sees("button", "Watch it built")
    person.key("w")
    assert isinstance(person.app.scene, Home)


def test_a_house_that_cannot_be_laid_out_says_why_and_leads_back() -> None:
    person = Person()
    person.wait_for_houses()
    text = board_screens.not_buildable_text()
    person.app.show(FilmScreen(person.app.services, entry_of(parse_level(text, "it"), text)))
    person.wait(4)
    assert person.app.asking and "There is no film" in person.tree().children[0].name
    person.key("esc")
    assert isinstance(person.app.scene, Home)


def test_one_idea_can_be_shown_alone() -> None:
    person = Person()
    person.wait_for_houses()
    entry = next(each for each in person.app.scene.library.entries if each.id == "fantail")  # type: ignore[attr-defined]
    scene = FilmScreen(person.app.services, entry)
    person.app.show(scene)
    while not scene.ready:
        person.wait()
    person.choose_by_mouse("Show", "Hips")
    person.wait(1)
    assert person.see("choice", "Show").value == "Hips" and person.sees("heading", "Hips")


def test_from_the_middle_of_the_work_and_back_again() -> None:
    person = Person()
    person.wait_for_houses()
    person.arrow_to("thornbill", "Houses")
    person.key("p")
    work = person.work
    person.key("f", ctrl=True)
    person.write("watch it")
    person.key("enter")
    assert isinstance(person.app.scene, FilmScreen)
    person.wait(3)
    person.key("esc")
    assert person.app.scene is work


def test_an_assessment_does_not_show_it() -> None:
    person = Person()
    person.wait_for_houses()
    person.arrow_to("thornbill", "Houses")
    person.key("a")
    assert "Watch it built" not in {command.name for command in person.work.commands()}
