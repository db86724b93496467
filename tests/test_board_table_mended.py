"""The drawing table where a stranger stumbled: what is typed stays, the view holds, and keys go where one looks."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from board_person import Person
from board_table import empty_sheet, paced, table_of
from test_board_table import Mouse, save

from trainer.board.command import matching
from trainer.board.scenes.home import Home
from trainer.board.settings import Settings
from trainer.board.table.faults_said import fault_said, faults_said
from trainer.board.table.files import FOLDER
from trainer.layout import lay_out
from trainer.level import parse_level
from trainer.picture.finished import finished
from trainer.picture.space import Turn
from trainer.roof import solve
from trainer.session.job_sheet import _walls
from trainer.shipped import find_level
from trainer.table import SetValue, new_drawing, read_pace, study, suggested_title

PLAIN = "12000 right, 7200 up, close"


def drawn(person: Person) -> None:
    paced(person, PLAIN)
    person.key("n")


def test_either_end_of_a_beam_is_set_and_the_other_stays() -> None:
    person = Person()
    drawn(person)
    person.key("4")
    table = table_of(person).table
    table_of(person).services.focus("table/beam from")
    person.type(3000)
    person.key("enter")
    entry = next(each for each in person.tree().all("entry", "to") if each.key == "table/beam to")
    person.click((entry.rect.right - 36, entry.rect.bottom - 12))
    assert table.drawing.walls[0].stretch == (3000, 11_900)


def measured(person: Person, key: str, number: float) -> None:
    table_of(person).services.focus(key)
    person.type(number)
    person.key("enter")


def test_a_length_that_is_in_metres_by_its_look_is_asked_back() -> None:
    person = Person()
    drawn(person)
    table = table_of(person).table
    before = table.drawing
    measured(person, "table/length", 7)
    assert table.drawing == before
    assert "Did you mean 7000?" in table.said
    measured(person, "table/length", 7000)
    assert table.drawing.length(0) == 7000
    before = table.drawing
    measured(person, "table/out", 1.2)
    person.click_on("button", "Move it out")
    assert table.drawing == before
    assert "Did you mean 1200?" in table.said
    table.choose("A")
    person.key("4")
    measured(person, "table/beam from", 90)
    assert table.drawing.walls[0].stretch == (90, 7000)
    measured(person, "table/beam from", 3)
    assert table.drawing.walls[0].stretch == (90, 7000)
    table_of(person).open_tab("sizes")
    measured(person, "table/roof.overhang", 0.6)
    assert table.drawing.at("roof", "overhang") == 450
    assert "Did you mean 600?" in table.said
    measured(person, "table/roof.overhang", 0)
    assert table.drawing.at("roof", "overhang") == 0


def test_a_fault_says_what_it_is_about_and_how_it_is_put_right() -> None:
    person = Person()
    paced(person, "12000 right, 2000 up, close")
    person.key("n", times=2)
    person.key("3")
    table = table_of(person).table
    (row,) = person.see("list", "Faults").children
    assert row.name.startswith("1. Dutch gable on wall B: the girder in from the wall is 1800, but")
    assert row.name.endswith("Change its measures or the wall's length, or let the wall be an eave or a gable.")
    person.key("1")
    table_of(person).open_tab("sizes")
    measured(person, "table/roof.pitch", 95)
    (row,) = person.see("list", "Faults").children
    assert row.name == "1. Pitch: is 95; write a number from 5 to 60 degrees."
    person.key("esc")
    crossed = replace(table.drawing, corners=((0, 0), (6000, 0), (6000, 3000), (3000, 3000), (3000, -900), (0, -900)))
    fault = next(each for each in study(replace(crossed, walls=crossed.walls[:1] * 6)).faults if "meets" in each.what)
    said = fault_said(crossed, fault)
    assert said.startswith("Wall D meets wall A at [3000, 0]; ")
    assert said.endswith("or undo.")


def test_the_same_fault_is_said_once() -> None:
    drawing = read_pace(PLAIN).on(new_drawing())
    faulty = SetValue(("site", "delivery"), [{"truss": "ST99", "fault": "broken web"}]).on(drawing)
    faults = study(faulty).faults
    assert len(faults) == len(set(faults)) == len(faults_said(faulty, faults))


def test_a_press_on_the_end_of_a_beam_chooses_the_wall_under_it() -> None:
    person = Person()
    drawn(person)
    person.key("4")
    scene, mouse = table_of(person), Mouse(person)
    inside = 26 * scene.plan.camera.mm_per_px
    mouse.press((12_000, inside))
    assert scene.table.wall == "B"
    assert scene.table.drawing.walls[0].stretch is None
    scene.table.choose("A")
    mouse.drag((12_000, inside), (9000, inside))
    assert scene.table.wall == "A"
    assert scene.table.drawing.walls[0].stretch == (0, 9000)


@pytest.mark.parametrize("word", ["alfresco", "verandah", "patio", "carport"])
def test_a_beam_on_posts_is_found_by_what_it_is_for(word: str) -> None:
    person = Person()
    drawn(person)
    assert [found.name for found in matching(table_of(person).commands(), word)] == ["Let the wall be: beam on posts"]


def test_sheets_are_said_to_be_made_first_and_where_they_lie_if_nothing_opens_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("trainer.board.open_file.shutil.which", lambda _name: None)
    person = Person(data=tmp_path)
    drawn(person)
    table_of(person).open_tab("go on")
    person.click_on("button", "Print its sheets and its card model")
    assert person.sees("status", "Making the sheets …")
    assert not (tmp_path / "sheets").exists()
    person.wait()
    person.click_on("button", "Open the sheets, to print them")
    said = " ".join(f"{node.name} {node.value}" for node in person.tree().walk())
    assert "No program on this machine opens it" in said
    assert str(tmp_path / "sheets" / "my-house.pdf") in said


def test_a_house_is_named_by_what_its_plan_is_for_sure() -> None:
    person = Person()
    paced(person, "12000 right, 7000 up, 3000 left, 2000 down, 3000 left, 4000 up, 6000 left, close")
    assert suggested_title(table_of(person).table.drawing).startswith("House with 8 corners, ")


def test_the_job_sheet_says_what_each_wall_is() -> None:
    level = parse_level(find_level("wren").read_bytes(), "wren")
    bare = level.model_copy(update={"gables": ()})
    assert _walls(bare) == ["Every wall is an eave."]
    said = _walls(bare.model_copy(update={"dutch_gables": {"C": None}, "beams": {"A": None}}))
    assert any("Dutch gable" in line and "**C**" in line for line in said)
    assert any("beam" in line and "**A**" in line for line in said)
    assert said[-1] == "Every other wall is an eave."


def test_a_house_with_a_beam_stands_on_its_posts_in_its_picture() -> None:
    person = Person()
    drawn(person)
    person.key("4")
    house = table_of(person).table.study.house
    assert house is not None
    roof, turn = solve(house.roof_plan, house.roof), Turn()
    assert len(finished(house, roof, turn, lay_out(house))) > len(finished(house, roof, turn)) + 4


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
def test_the_view_holds_while_the_outline_is_drawn(size: tuple[int, int]) -> None:
    person = Person(size)
    empty_sheet(person)
    mouse, camera, seen = Mouse(person), table_of(person).plan.camera, set()
    for corner in ((0, 0), (12_000, 0), (12_000, 7000), (5000, 7000), (5000, 4000)):
        mouse.press(corner)
        seen.add(camera.view)
    assert len(seen) == 1


def test_what_ends_nearly_in_line_with_the_first_corner_makes_no_tiny_wall() -> None:
    person = Person()
    empty_sheet(person)
    mouse, scene = Mouse(person), table_of(person)
    for corner in ((0, 0), (12_000, 0), (12_000, 7000)):
        mouse.press(corner)
    off = 3 * scene.plan.camera.mm_per_px
    mouse.press((off, 7000))
    mouse.press((off, off))
    assert scene.table.drawing.corners == ((0, 0), (12_000, 0), (12_000, 7000), (0, 7000))


def test_esc_on_what_was_deleted_only_closes_it_and_the_sheet_is_clear(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, PLAIN)
    save(person, "Nest")
    person.key("esc")
    person.wait(3)
    person.arrow_to("nest", "Houses")
    person.key("delete")
    assert person.focused.name == "Stay"
    person.click_on("button", "Delete it")
    assert person.focused.name == "Close"
    person.key("esc")
    assert not person.app.asking
    assert not (tmp_path / FOLDER / "nest.yaml").exists()
    person.key("t")
    assert table_of(person).table.drawing.corners == ()


def test_houses_on_the_welcome_page_goes_to_the_houses() -> None:
    person = Person()
    person.app.comfort.settings = Settings()
    person.app.services.go_first()
    person.wait()
    person.click_on("button", "Houses")
    assert isinstance(person.app.scene, Home)


def test_the_chosen_wall_stays_chosen_where_another_is_cut() -> None:
    person = Person()
    drawn(person)
    table = table_of(person).table
    table.choose("C")
    before = table.drawing.ends(2)
    table.take_tool("cut")
    Mouse(person).press((6000, 0))
    assert table.wall == "D"
    assert table.drawing.ends(3) == before
    assert "Beam from" in table.study.faults[0].what


def test_what_the_table_does_is_found_by_name() -> None:
    person = Person()
    drawn(person)
    names = " ".join(command.name.casefold() for command in table_of(person).commands())
    for word in ("beam", "practise", "cut", "quiz"):
        assert word in names


def test_keys_go_to_the_form_and_stay_there_from_wall_to_wall() -> None:
    person = Person()
    drawn(person)
    person.key("4")
    person.key("f")
    assert person.focused.key == "table/length"
    person.tab_to("entry", "Beam from")
    person.type(600)
    person.key("n")
    assert table_of(person).table.drawing.walls[0].stretch == (600, 12_000)
    assert person.focused.key == "table/length"
    assert table_of(person).table.wall == "B"
    person.key("esc")
    assert person.focused.role == "plan"


def test_an_empty_sheet_has_no_blank_stops_and_digits_begin_a_wall() -> None:
    person = Person()
    empty_sheet(person)
    assert not any(view.reachable() for view in (table_of(person).angled, table_of(person).section))
    person.key("9")
    assert person.focused.value == "9"
    person.key("esc")
    assert person.focused.role == "plan"
    assert table_of(person).typed == "9"


def test_a_house_one_drew_is_not_called_new(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, PLAIN)
    save(person, "Nest")
    person.key("esc")
    person.wait(3)
    person.app.comfort.settings = Settings(shown=True, guided=True)
    person.arrow_to("nest", "Houses")
    person.key("p")
    person.wait()
    assert not isinstance(person.app.scene, Home)
