"""The drawing table as somebody uses it: by mouse, by keyboard alone, saved, left in the middle, and gone on from."""

from __future__ import annotations

import json
from pathlib import Path

import pygame
import pytest
from board_person import Person
from board_table import WREN, empty_sheet, paced, table_of

from trainer.board.scenes.drill_choice import DrillChoice
from trainer.board.scenes.film import FilmScreen
from trainer.board.scenes.work import Work
from trainer.board.table.files import FOLDER, SHEET, kept_sheet
from trainer.cli.check import checked_level
from trainer.level import parse_level
from trainer.shipped import find_level
from trainer.table import SetKind, level_data

MOST_ACTS = 25


class Mouse:
    """Counts what a hand does with the mouse on the sheet."""

    def __init__(self, person: Person) -> None:
        self.person = person
        self.acts = 0

    def press(self, place: tuple[float, float]) -> None:
        self.drag(place, place)

    def drag(self, start: tuple[float, float], finish: tuple[float, float]) -> None:
        self.acts += 1
        plan = table_of(self.person).plan
        a, b = plan.to_window(start), plan.to_window(finish)
        handle = self.person.app.handle
        handle(pygame.event.Event(pygame.MOUSEMOTION, pos=a, rel=(0, 0), buttons=(0, 0, 0)))
        handle(pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=a, button=1))
        handle(pygame.event.Event(pygame.MOUSEMOTION, pos=b, rel=(0, 0), buttons=(1, 0, 0)))
        handle(pygame.event.Event(pygame.MOUSEBUTTONUP, pos=b, button=1))
        self.person.wait()

    def button(self, name: str, role: str = "button") -> None:
        self.acts += 1
        self.person.click(self.person.see(role, name).rect.center)


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
def test_the_wren_is_drawn_by_mouse_in_few_acts(size: tuple[int, int]) -> None:
    person = Person(size)
    empty_sheet(person)
    wren = parse_level(find_level("wren").read_bytes(), "wren")
    mouse = Mouse(person)
    for corner in (*wren.plates.outline, wren.plates.outline[0]):
        mouse.press(corner)
    mouse.button("House", "tab")
    person.key("t", times=3)
    mouse.acts += 3
    mouse.press((10_350, 11_100))
    person.key("t", times=1)
    mouse.acts += 1
    mouse.drag((0, 4000), (6300, 4000))
    drawing = table_of(person).table.drawing
    house = table_of(person).table.study.house
    assert drawing.corners == wren.plates.outline
    assert house is not None
    assert house.plan == wren.house().plan
    assert mouse.acts <= MOST_ACTS


def test_an_l_with_a_dutch_gable_and_an_alfresco_by_keyboard_alone_up_to_practising(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, "15000 right, 12000 up, 6000 left, 4200 down, 9000 left, close")
    person.tab_to("plan", "Sheet")
    person.key("n", times=6)
    person.key("k", times=2)
    person.key("n", times=3)
    person.key("k", times=2)
    kinds = [wall.kind for wall in table_of(person).table.drawing.walls]
    assert kinds[5] == "dutch gable"
    person.key("k")
    assert [wall.kind for wall in table_of(person).table.drawing.walls][2] == "beam"
    assert table_of(person).table.study.faults == ()
    person.tab_to("tab", "Go on")
    person.key("enter")
    person.tab_to("button", "Practise it")
    person.key("enter")
    person.wait(3)
    assert isinstance(person.app.scene, Work)
    (file,) = (tmp_path / FOLDER).glob("*.yaml")
    level, layout, faults = checked_level(file.read_bytes(), file)
    assert level is not None
    assert layout is not None
    assert faults == ()


def test_walls_are_drawn_taken_back_and_done_again_by_keys() -> None:
    person = Person()
    paced(person)
    person.tab_to("plan", "Sheet")
    scene = table_of(person)
    person.key("n")
    person.key("down", shift=True)
    assert scene.table.drawing.corners[0] == (0, -1000)
    person.key("z", ctrl=True)
    assert scene.table.drawing.corners[0] == (0, 0)
    person.key("y", ctrl=True)
    assert scene.table.drawing.corners[0] == (0, -1000)
    person.key("z", ctrl=True, times=9)
    assert scene.table.drawing.corners == ()
    assert scene.table.said


def test_a_wall_is_drawn_out_and_a_bay_pushed_by_mouse() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    mouse = Mouse(person)
    scene = table_of(person)
    mouse.drag((6000, 7200), (6000, 8400))
    assert scene.table.drawing.corners[2] == (12_000, 8400)
    person.tab_to("plan", "Sheet")
    person.key("t", times=2)
    mouse.drag((3000, 0), (6000, -900))
    assert (3000, -900) in scene.table.drawing.corners
    assert (6000, -900) in scene.table.drawing.corners
    assert scene.table.study.sound


def test_what_nobody_could_do_is_said_and_faults_are_listed() -> None:
    person = Person()
    paced(person, "12000 rigth")
    assert "right" in table_of(person).table.said
    person.key("backspace", times=20)
    person.write(WREN)
    person.key("enter")
    person.tab_to("plan", "Sheet")
    person.key("n", times=5)
    person.key("k")
    person.wait()
    assert person.sees("list", "Faults")
    assert table_of(person).table.study.house is not None


def test_a_crash_loses_nothing_that_was_done(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, "12000 right, 7200 up")
    drawing = table_of(person).table.drawing
    kept = kept_sheet(tmp_path)
    assert kept is not None
    assert level_data(kept[0]) == level_data(drawing)
    assert not kept[0].closed
    again = Person(data=tmp_path)  # the first was never closed
    again.app.services.go_table()
    again.wait(3)
    assert table_of(again).table.drawing.corners == drawing.corners


@pytest.mark.parametrize(
    "damage", ["", "{", "[]", '{"closed": 1, "level": []}', '{"closed": true, "level": {}, "file": ""}']
)
def test_a_sheet_that_was_damaged_is_an_empty_one(tmp_path: Path, damage: str) -> None:
    (tmp_path / SHEET).write_text(damage, encoding="utf-8")
    person = Person(data=tmp_path)
    person.app.services.go_table()
    person.wait(3)
    assert table_of(person).table.drawing.corners == ()


def test_a_saved_house_stands_on_the_path_and_only_what_was_changed_is_written(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person)
    person.key("s", ctrl=True)
    (file,) = (tmp_path / FOLDER).glob("*.yaml")
    by_hand = file.read_text(encoding="utf-8").replace("id:", "# mine\nid:")
    file.write_text(by_hand, encoding="utf-8")
    again = Person(data=tmp_path)
    for _ in range(100):
        again.wait()
    again.arrow_to("my-house", "Houses")
    again.key("e")
    again.wait(2)
    again.tab_to("plan", "Sheet")
    again.key("n")
    again.key("down")
    again.key("s", ctrl=True)
    before, after = by_hand.split("\n"), file.read_text(encoding="utf-8").split("\n")
    differ = [(a, b) for a, b in zip(before, after, strict=True) if a != b]
    assert [a.startswith("plates:") for a, _b in differ] == [True]


def test_a_second_house_of_the_same_name_gets_a_file_of_its_own(tmp_path: Path) -> None:
    for _ in range(2):
        person = Person(data=tmp_path)
        person.app.services.go_table()
        person.wait(2)
        table_of(person).new_sheet()
        person.key("p")
        person.write(WREN)
        person.key("enter")
        person.key("s", ctrl=True)
    assert sorted(path.name for path in (tmp_path / FOLDER).glob("*.yaml")) == ["my-house-2.yaml", "my-house.yaml"]


def test_it_is_printed_watched_drilled_and_made_an_assessment_of(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person)
    scene = table_of(person)
    scene.open_tab("go on")
    for name in ("Print its sheets", "Make an assessment of it"):
        person.click(person.see("button", name).rect.center)
        assert person.app.asking, name
        person.key("esc")
    assert list((tmp_path / "sheets").iterdir())
    pack = json.loads(next((tmp_path / "packs").glob("*.json")).read_text(encoding="utf-8"))
    assert "my-house" in json.dumps(pack)
    person.click(person.see("button", "Watch it built").rect.center)
    assert isinstance(person.app.scene, FilmScreen)
    person.key("esc")
    table_of(person).open_tab("go on")
    assert table_of(person).table.drawing.corners
    person.click(person.see("button", "Drills on it").rect.center)
    assert isinstance(person.app.scene, DrillChoice)


def test_a_sheet_that_is_not_saved_is_not_lost_by_opening_another(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, "9000 right, 6000 up, close")
    mine = table_of(person).table.drawing
    person.key("esc")
    person.wait_for_houses()
    person.arrow_to("wren", "Houses")
    person.key("e")
    person.wait(2)
    assert person.app.asking
    assert table_of(person).table.drawing.corners == mine.corners
    person.key("enter")
    person.wait(2)
    assert table_of(person).table.drawing.at("id") == "my-wren"
    assert (tmp_path / FOLDER / "my-house.yaml").exists()


def test_a_house_with_faults_is_opened_again_from_its_file(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, "9000 right, 6000 up, close")
    person.tab_to("plan", "Sheet")
    for wall in ("A", "B"):
        table_of(person).table.act(SetKind(wall, "gable"))
    person.key("s", ctrl=True)
    drawing = table_of(person).table.drawing
    assert "fault" in table_of(person).table.said
    table_of(person).new_sheet()
    table_of(person).open_own()
    person.wait()
    person.key("enter")
    person.wait()
    assert table_of(person).table.drawing == drawing
    assert table_of(person).table.study.faults


def test_a_shipped_house_is_drawn_on_as_a_copy(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    person.wait_for_houses()
    person.arrow_to("wren", "Houses")
    person.key("e")
    person.wait(2)
    drawing = table_of(person).table.drawing
    assert drawing.at("id") == "my-wren"
    assert drawing.corners == parse_level(find_level("wren").read_bytes(), "wren").plates.outline
    assert table_of(person).table.study.sound
