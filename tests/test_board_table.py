"""The drawing table as somebody uses it: by mouse, by keyboard alone, saved, left in the middle, and gone on from."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pygame
import pytest
from board_person import Person
from board_table import WREN, empty_sheet, paced, table_of
from pydantic import BaseModel

from trainer.board.scenes.drill_choice import DrillChoice
from trainer.board.scenes.film import FilmScreen
from trainer.board.table.files import FOLDER, SHEET, kept_sheet
from trainer.board.table.job_panel import BRACING, NEAR_ENOUGH, TIE_DOWN, job_panel
from trainer.board.table.lesson_panel import lesson_panel
from trainer.board.table.panels import sizes_panel
from trainer.board.widgets import NumberEntry
from trainer.level import Level, parse_level
from trainer.shipped import find_level
from trainer.table import (
    FastenTruss,
    PutBehind,
    PutDanger,
    SetKind,
    SetValue,
    level_data,
    new_drawing,
    read_pace,
    study,
    usual_depth,
    wall_behind,
)

MOST_ACTS = 25


def save(person: Person, title: str = "My house") -> None:
    """Save a new house under a name."""
    person.key("s", ctrl=True)
    person.write(title)
    person.key("enter")


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
    mouse.press((10_350, 11_100))
    mouse.button("gable")
    mouse.button("Internal wall")
    mouse.drag((0, 4000), (6300, 4000))
    drawing = table_of(person).table.drawing
    house = table_of(person).table.study.house
    assert drawing.corners == wren.plates.outline
    assert house is not None
    assert house.plan == wren.house().plan
    assert mouse.acts <= MOST_ACTS


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
    person.key("w", times=2)
    mouse.drag((3000, 0), (6000, -900))
    assert (3000, -900) in scene.table.drawing.corners
    assert (6000, -900) in scene.table.drawing.corners
    assert scene.table.study.sound


def test_a_title_is_one_act_however_many_letters_it_has() -> None:
    person = Person()
    paced(person)
    scene = table_of(person)
    scene.open_tab("sizes")
    scene.services.focus("table/title")
    person.key("backspace", times=3)
    person.write("Nest")
    assert scene.table.drawing.at("title") == "My hoNest"
    person.key("z", ctrl=True)
    assert scene.table.drawing.at("title") == "My house"
    assert scene.table.drawing.closed


def test_letters_in_a_field_do_nothing_to_the_house() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    scene.table.choose("B")
    person.wait()
    person.key("f")
    before = scene.table.drawing
    for letter in "cmrgwv":
        person.key(letter)
    assert scene.table.drawing == before
    assert "Esc" in scene.table.said
    person.write("9000")
    person.key("left", times=3)
    person.write("5")
    person.key("delete")
    person.key("enter")
    assert scene.table.drawing.corners[2] == (12_000, 9500)
    person.key("p")
    person.write("c")
    assert scene.typed == "c"


def test_an_internal_wall_is_drawn_and_taken_out_by_mouse() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    mouse, scene = Mouse(person), table_of(person)
    person.tab_to("plan", "Sheet")
    person.key("w", times=3)
    mouse.drag((0, 4000), (6000, 4100))
    assert scene.table.drawing.inside == (((0, 4000), (6000, 4000)),)
    mouse.press((3000, 4000))
    assert scene.table.drawing.inside == ()


def test_a_beam_is_drawn_shorter_and_longer_by_its_ends_and_a_wall_put_behind_it_in_one_press() -> None:
    person = Person()
    paced(person, "13200 right, 7200 up, close")
    mouse, scene = Mouse(person), table_of(person)
    inside = 26 * scene.plan.camera.mm_per_px
    mouse.press((6000, 0))
    mouse.button("beam on posts")
    assert "far wall" in scene.table.said
    for start, finish, stretch in ((0, 3000, (3000, 13_200)), (13_200, 9000, (3000, 9000)), (3000, 9500, (8900, 9000))):
        mouse.drag((start, inside), (finish, 300))
        assert scene.table.drawing.walls[0].stretch == stretch
    mouse.drag((8900, inside), (2000, 900))
    person.wait(10)
    mouse.button("Put a wall there")
    assert scene.table.drawing.inside == (((2000, 0), (2000, 3000), (9000, 3000), (9000, 0)),)
    assert scene.table.study.sound
    mouse.button("Take that wall out")
    assert scene.table.drawing.inside == ()
    mouse.drag((2000, inside), (-900, 300))
    mouse.drag((9000, inside), (19_000, 300))
    assert scene.table.drawing.walls[0].stretch is None


def test_the_wall_behind_a_beam_is_in_line_with_a_corner_of_the_house_and_ends_at_its_walls() -> None:
    drawing = read_pace("13200 right, 11100 up, 5700 left, 3900 down, 7500 left, close").on(new_drawing())
    beam = SetKind("C", "beam").on(drawing)
    assert usual_depth(beam, "C") == 3900
    behind = PutBehind("C", 3900).on(beam)
    assert behind.inside == (((13_200, 7200), (7500, 7200)),)
    assert wall_behind(behind, "C") == (0, 3900)
    assert study(behind).sound


def test_posts_stand_where_they_are_typed_or_as_the_rules_put_them() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    person.tab_to("plan", "Sheet")
    person.key("n")
    person.key("4")
    scene.services.focus("table/posts")
    person.write("0, 4000 8000,12000")
    person.key("enter")
    assert scene.table.drawing.walls[0].posts == (0, 4000, 8000, 12_000)
    scene.table.type_posts("a few")
    scene.table.put_posts()
    assert "in mm" in scene.table.said
    scene.table.type_posts(" ")
    scene.table.put_posts()
    assert scene.table.drawing.walls[0].posts is None


def test_what_nobody_could_do_is_said_and_faults_are_listed() -> None:
    person = Person()
    paced(person, "12000 rigth")
    assert "right" in table_of(person).table.said
    person.key("backspace", times=20)
    person.write(WREN)
    person.key("enter")
    person.tab_to("plan", "Sheet")
    for _wall in range(2):
        person.key("n")
        person.key("2")
    person.wait()
    assert person.sees("list", "Faults")
    assert table_of(person).table.study.house is not None


def test_what_is_wrong_on_the_site_is_added_and_taken_off_and_a_truss_is_moved_by_hand() -> None:
    person = Person()
    paced(person, "12400 right, 7200 up, close")
    scene = table_of(person)
    scene.table.choose("A")
    scene.open_tab("lesson")

    def press(name: str) -> None:
        scene.services.focus(person.see("button", name).key)
        person.key("enter")

    press("Add it to the delivery")
    assert scene.table.said
    scene.table.name_truss("st9 ")
    press("Add it to the delivery")
    press("Add it to the walls")
    assert scene.table.drawing.at("site", "delivery") == [{"truss": "ST9", "fault": "broken web"}]
    assert scene.table.drawing.at("site", "walls") == [{"wall": "A", "fault": "bowed wall", "by": 15}]
    assert scene.table.study.sound
    press("Take off: truss: broken web")
    press("Take off: wall: bowed")
    assert scene.table.drawing.at("site") is None
    press("Suggest what it teaches")
    assert "off-station" in scene.table.drawing.at("lesson", "teaches")
    press("off-station")
    assert "off-station" not in scene.table.drawing.at("lesson", "teaches")
    scene.entries["station ST9"] = 4100.0
    scene.refresh()
    press("Move it there")
    assert scene.table.drawing.at("layout") == [{"truss": "ST9", "station": 4100}]
    assert person.sees("text", "ST9: 4100, by the rule 4000")
    press("Back to the rule")
    assert scene.table.drawing.at("layout") is None


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
    save(person)
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


def test_a_sheet_outlives_its_file_and_follows_what_was_changed_in_it_by_hand(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, "9000 right, 6000 up, close")
    save(person)
    drawing = table_of(person).table.drawing
    (file,) = (tmp_path / FOLDER).glob("*.yaml")
    file.write_text(file.read_text(encoding="utf-8").replace("pitch: 22.5", "pitch: 30"), encoding="utf-8")
    kept = kept_sheet(tmp_path)
    assert kept is not None
    assert kept[0].at("roof", "pitch") == 30
    file.unlink()
    left = kept_sheet(tmp_path)
    assert left is not None
    assert left[1] is None
    assert left[0].corners == drawing.corners


def test_what_was_written_into_a_file_while_it_lies_on_the_table_is_not_lost(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, "9000 right, 6000 up, close")
    save(person)
    (file,) = (tmp_path / FOLDER).glob("*.yaml")
    file.write_text(file.read_text(encoding="utf-8").replace("pitch: 22.5", "pitch: 30"), encoding="utf-8")
    table_of(person).table.act(SetKind("B", "gable"))
    table_of(person).save()
    text = file.read_text(encoding="utf-8")
    assert "pitch: 30" in text
    assert "gables: [B]" in text
    assert table_of(person).table.drawing.at("roof", "pitch") == 30


def test_a_second_house_of_the_same_name_gets_a_file_of_its_own(tmp_path: Path) -> None:
    for _ in range(2):
        person = Person(data=tmp_path)
        person.app.services.go_table()
        person.wait(2)
        table_of(person).shelf.new_sheet()
        person.key("p")
        person.write(WREN)
        person.key("enter")
        save(person)
    assert sorted(path.name for path in (tmp_path / FOLDER).glob("*.yaml")) == ["my-house-2.yaml", "my-house.yaml"]


def test_it_is_printed_watched_drilled_and_made_an_assessment_of(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person)
    scene = table_of(person)
    scene.open_tab("go on")
    for name in ("Print its sheets and its card model", "Make an assessment of it"):
        person.click(person.see("button", name).rect.center)
        person.wait()
        assert person.app.asking, name
        person.key("esc")
    assert {path.name for path in (tmp_path / "sheets").iterdir()} == {"my-house.pdf", "my-house-card-model.pdf"}
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
    person.key("enter")
    person.wait(2)
    assert table_of(person).table.drawing.at("id") == "my-wren"
    assert (tmp_path / FOLDER / "house-9-by-6-m.yaml").exists()


def test_a_house_with_faults_is_opened_again_from_its_file(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person, "9000 right, 6000 up, close")
    person.tab_to("plan", "Sheet")
    for wall in ("A", "B"):
        table_of(person).table.act(SetKind(wall, "gable"))
    save(person)
    drawing = table_of(person).table.drawing
    assert "fault" in table_of(person).table.said
    table_of(person).shelf.new_sheet()
    table_of(person).shelf.open_own()
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


def test_a_house_of_ones_own_is_deleted_put_back_and_deleted(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    paced(person)
    save(person, "Owl's nest")
    person.key("esc")
    person.wait(3)
    person.arrow_to("owl-s-nest", "Houses")
    file = tmp_path / FOLDER / "owl-s-nest.yaml"
    for last in ("Put it back", "Close"):
        assert file.exists()
        person.click(person.see("button", "Delete this house").rect.center)
        person.click(person.see("button", "Stay").rect.center)
        assert file.exists()
        person.key("delete")
        person.click(person.see("button", "Delete it").rect.center)
        assert not file.exists()
        person.click(person.see("button", last).rect.center)
        person.wait()
    assert (tmp_path / FOLDER / "deleted" / file.name).exists()
    assert all(row.key != "owl-s-nest" for row in person.see("list", "Houses").children)


def test_the_section_follows_the_wall_that_is_chosen_and_what_it_is() -> None:
    person = Person()
    paced(person)
    scene = table_of(person)
    layout = scene.table.study.layout
    assert layout is not None
    for wall in "ABD":
        scene.table.choose(wall)
        person.wait(3)
        member = layout.by_tag[scene.section.tag]
        assert f"plate {wall}" in {end.bears_on for end in member.ends}
    scene.table.choose("C")
    scene.table.make_it("gable")
    person.wait(3)
    layout = scene.table.study.layout
    assert layout is not None
    assert layout.by_tag[scene.section.tag].kind == "gable"


def test_nothing_moves_under_the_mouse_when_a_wall_gets_a_fault() -> None:
    person = Person()
    paced(person)
    scene = table_of(person)
    person.wait()
    sheet, kinds = scene.roots["plan"].rect.copy(), []
    for wall in ("E", "D", "C"):
        scene.table.choose(wall)
        scene.table.make_it("gable")
        person.wait()
        kinds.append(person.see("button", "gable").rect)
        assert scene.roots["plan"].rect == sheet
    assert scene.table.study.faults
    assert kinds[0] == kinds[1] == kinds[2]


def test_the_views_beside_the_sheet_follow_what_is_held() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    a, b = scene.plan.to_window((6000, 7200)), scene.plan.to_window((6000, 9600))
    handle = person.app.handle
    handle(pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=a, button=1))
    person.wait(10)
    span = scene.section.camera.box[2]
    handle(pygame.event.Event(pygame.MOUSEMOTION, pos=b, rel=(0, 0), buttons=(1, 0, 0)))
    person.wait(10)
    assert scene.table.drawing.corners[2] == (12_000, 7200)
    assert scene.section.camera.box[2] > span + 2000
    ahead = scene.table.seen.layout
    handle(pygame.event.Event(pygame.MOUSEBUTTONUP, pos=b, button=1))
    assert scene.table.study.layout == ahead
    assert scene.table.seen is scene.table.study


def test_every_instruction_of_the_form_is_a_key_of_the_level_and_what_it_shows_is_its_usual_value() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    usual = scene.table.study.level
    for said, way, shown, nudge, _unit in (*NEAR_ENOUGH, *BRACING, *TIE_DOWN):
        scene.table.act(SetValue(way, type(shown)(shown + nudge)))
        level = scene.table.study.level
        assert level is not None, (said, scene.table.study.faults)
        assert level != usual
        scene.table.undo()
        scene.table.act(SetValue(way, shown))
        assert scene.table.study.level == usual, said
        scene.table.undo()


def keys_of(block: type[BaseModel], way: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every key that a block of a level file can have, and those of the blocks in it."""
    for name, field in block.model_fields.items():
        here = (*way, field.alias or name)
        kinds = [field.annotation, *get_args(field.annotation)]
        under = [each for each in kinds if isinstance(each, type) and issubclass(each, BaseModel)]
        yield from keys_of(under[0], here) if under else [here]


DRAWN = frozenset({"plates.outline", "gables", "against", "dutch_gables", "beams", "posts", "internal_walls"})
NO_FIELD = frozenset({"schema", "id", "site.packs"})
"""What a file alone says: its edition, which is fixed; its short name, which follows the title; the packs."""
BY_BUTTONS = frozenset({"layout", "site.walls", "site.delivery", "site.dangers", "lesson.stages"})


def test_every_key_of_a_level_file_has_a_field() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    scene.table.act(SetValue(("site", "lifting"), {"by_hand": 60}))
    fields = set()
    for panel in (sizes_panel(scene.table), job_panel(scene.table), lesson_panel(scene.table, {})):
        fields |= {each.key.removeprefix("table/") for widget in panel for each in widget.walk()}
    elsewhere = DRAWN | NO_FIELD | BY_BUTTONS
    keys = [".".join(way) for way in keys_of(Level)]
    assert not [key for key in keys if key not in fields and not any(f"{key}.".startswith(f"{e}.") for e in elsewhere)]
    assert all(any(f"{key}.".startswith(f"{each}.") for key in keys) for each in elsewhere)


def test_notes_and_names_are_listed_and_a_title_may_stand_empty_while_it_is_typed() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    scene.open_tab("job")
    scene.services.focus("table/job_sheet")
    person.write("Girders first")
    person.key("enter")
    person.write("Mind the dog")
    assert scene.table.drawing.at("job_sheet") == ["Girders first", "Mind the dog"]
    scene.services.focus(person.see("button", "truncated first").key)
    person.key("enter")
    assert "truncated first" not in scene.table.drawing.at("order_advice")
    assert scene.table.study.sound
    scene.open_tab("sizes")
    scene.services.focus("table/title")
    person.key("a", ctrl=True)
    person.key("delete")
    assert person.focused.value == ""
    person.write("Nest")
    assert scene.table.drawing.at("title") == "Nest"


def test_a_truss_is_fastened_as_the_fabricators_drawing_has_it_and_a_danger_comes_when_it_is_said_to() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    scene.table.act(FastenTruss("ST1", "to", "tie-down strap"))
    layout = scene.table.study.layout
    assert layout is not None
    assert layout.by_tag["ST1"].ends[1].fixing == "tie-down strap"
    scene.table.act(FastenTruss("ST1", "to", None))
    assert scene.table.drawing.at("layout") is None
    scene.table.act(PutDanger("gust at noon", after=3))
    (entry,) = (
        each for widget in lesson_panel(scene.table, {}) for each in widget.walk() if "dangers.after" in each.key
    )
    assert isinstance(entry, NumberEntry)
    entry.take(5.0)
    assert scene.table.drawing.at("site", "dangers") == [{"what": "gust at noon", "after": 5}]


def test_fixings_are_chosen_in_the_form_of_the_job() -> None:
    person = Person()
    paced(person, "12000 right, 7200 up, close")
    scene = table_of(person)
    scene.open_tab("job")
    person.wait()
    scene.services.focus("table/fixings.jack")
    person.key("right")
    assert scene.table.drawing.at("fixings") == {"jack": "tie-down strap"}
    assert scene.table.study.sound
    person.key("right")
    assert scene.table.drawing.at("fixings") is None
