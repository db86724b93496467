"""A house of one's own, from nothing to practising on it, found after a restart and deleted: by mouse, by keys."""

from __future__ import annotations

from pathlib import Path

from board_person import Person
from board_table import paced, table_of
from test_board_table import Mouse, save

from trainer.board.scenes.home import Home
from trainer.board.scenes.work import Work
from trainer.board.table.files import DELETED, FOLDER
from trainer.cli.check import checked_level

OUTLINE = ((0, 0), (15_000, 0), (15_000, 12_000), (9000, 12_000), (9000, 7800), (0, 7800), (0, 0))
PACED = "15000 right, 12000 up, 6000 left, 4200 down, 9000 left, close"
LEAST_ACTS = 30


def home_again(data: Path, *, remembered: bool = False) -> Person:
    """The program started anew, once all houses are read."""
    person = Person(data=data, remembered=remembered)
    for _ in range(400):
        if not person.app.scene.library.waiting:  # type: ignore[attr-defined]
            break
        person.pass_time(50)
    person.wait()
    return person


def own_row(person: Person) -> str:
    (row,) = [row for row in person.see("list", "Houses").children if "Your own" in row.name]
    return row.key


def test_by_mouse_alone(tmp_path: Path) -> None:
    person = home_again(tmp_path)
    mouse = Mouse(person)
    mouse.button("Draw your own")
    person.wait(2)
    for corner in OUTLINE:
        mouse.press(corner)
    for wall, kind in (((0, 4000), "dutch gable"), ((12_000, 12_000), "beam on posts")):
        mouse.press(wall)
        mouse.button(kind)
    assert table_of(person).table.study.sound
    mouse.button("Go on", "tab")
    mouse.button("Practise it")
    mouse.button("Save it")
    person.wait(3)
    assert isinstance(person.app.scene, Work)
    assert mouse.acts <= LEAST_ACTS

    person = home_again(tmp_path)
    row = own_row(person)
    person.click_row("Houses", row)
    person.click_on("button", "Practise")
    person.wait(3)
    assert isinstance(person.app.scene, Work) or person.app.asking
    person = home_again(tmp_path)
    person.click_row("Houses", row)
    person.click_on("button", "Delete this house")
    person.click_on("button", "Delete it")
    person.click_on("button", "Close")
    assert not list((tmp_path / FOLDER).glob("*.yaml"))
    assert len(list((tmp_path / FOLDER / DELETED).glob("*.yaml"))) == 1


def test_own_houses_stand_at_the_top_and_the_last_one_is_chosen_after_a_restart(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, PACED)
    save(person, "Nest")
    assert "at the top, marked Your own" in table_of(person).table.said
    person = home_again(tmp_path, remembered=True)
    rows = person.see("list", "Houses").children
    assert rows[0].key == own_row(person)
    assert isinstance(person.app.scene, Home)
    assert person.app.scene.entry is not None
    assert person.app.scene.entry.id == "nest"


def test_by_keys_alone(tmp_path: Path) -> None:
    person = home_again(tmp_path)
    person.key("t")
    person.wait(2)
    person.key("p")
    person.write(PACED)
    person.key("enter")
    person.tab_to("plan", "Sheet")
    person.key("n", times=6)
    person.key("3")
    person.key("n", times=3)
    person.key("4")
    person.tab_to("tab", "Go on")
    person.key("enter")
    person.tab_to("button", "Practise it")
    person.key("enter")
    person.write("Heron Street")
    person.key("enter")
    person.wait(3)
    assert isinstance(person.app.scene, Work)
    file = tmp_path / FOLDER / "heron-street.yaml"
    level, layout, faults = checked_level(file.read_bytes(), file)
    assert level is not None and layout is not None and faults == ()

    person = home_again(tmp_path)
    assert own_row(person) == "heron-street"
    person.tab_to("list", "Houses")
    person.arrow_to("heron-street", "Houses")
    person.key("delete")
    person.tab_to("button", "Delete it")
    person.key("enter")
    person.key("escape")
    assert isinstance(person.app.scene, Home)
    assert not list((tmp_path / FOLDER).glob("*.yaml"))
