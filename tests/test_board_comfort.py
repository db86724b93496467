"""Comfort: text size, colours and movement are remembered; everything is found by name; bars are dragged."""

import json
from pathlib import Path

import pygame
import pytest
from attempts import right
from board_person import Person

from trainer.board.command import Command, matching
from trainer.board.scenes.work import Work
from trainer.board.settings import FILE, Settings, read_settings, write_settings
from trainer.site import HandOver
from trainer.words import CAUTION, IN_SHORT


def test_what_is_chosen_is_remembered_for_the_next_start(tmp_path: Path) -> None:
    person = Person(data=tmp_path)
    person.wait_for_houses()
    person.key("+", ctrl=True, times=2)
    person.key("t", ctrl=True)
    person.key("f2")
    person.tab_to("choice", "Movement")
    person.key("right")
    assert person.app.look.still
    assert read_settings(tmp_path) == Settings("dark", 1.5, still=True, shown=True, guided=False)
    again = Person(data=tmp_path, remembered=True)
    assert (again.app.look.theme, again.app.look.scale, again.app.look.still) == ("dark", 1.5, True)


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("", Settings()),
        ("{", Settings()),
        ("[1]", Settings()),
        ('{"theme": "pink", "scale": 3.0, "still": true}', Settings(still=True)),
        ('{"theme": "dark", "scale": "large", "later": 1}', Settings(theme="dark")),
    ],
)
def test_a_spoilt_file_of_settings_costs_no_more_than_what_is_spoilt(tmp_path: Path, text: str, kept: Settings) -> None:
    (tmp_path / FILE).write_text(text, encoding="utf-8")
    assert read_settings(tmp_path) == kept


def test_settings_that_cant_be_written_disturb_nobody(tmp_path: Path) -> None:
    folder = tmp_path / "a file"
    folder.write_text("", encoding="utf-8")
    write_settings(folder, Settings(theme="dark"))
    assert folder.read_text(encoding="utf-8") == ""


def test_settings_are_a_small_plain_file(tmp_path: Path) -> None:
    write_settings(tmp_path, Settings(scale=1.25))
    assert json.loads((tmp_path / FILE).read_text(encoding="utf-8"))["scale"] == 1.25
    assert [path.name for path in tmp_path.iterdir()] == [FILE]


def test_an_action_is_found_by_a_word_of_its_name_and_done() -> None:
    person = Person()
    person.wait_for_houses()
    person.key("f", ctrl=True)
    person.write("practise")
    person.key("enter")
    assert isinstance(person.app.scene, Work)
    person.key("f", ctrl=True)
    person.write("tool straighten")
    assert [row.name for row in person.see("list", "What can be done").children] == ["Use a tool: Straighten P"]
    person.key("enter")
    assert person.work.tool.verb == "plumb"
    assert not person.app.asking


def test_an_action_is_found_and_done_by_mouse() -> None:
    person = Person()
    person.app.open("wren")
    person.wait(3)
    person.key("f", ctrl=True)
    rows = person.see("list", "What can be done").children
    assert len(rows) > 25
    person.click_row("What can be done", next(row.key for row in rows if row.name.startswith("Larger text")))
    assert person.app.look.scale == 1.25


def test_every_tool_and_everything_in_the_bar_is_in_the_list_of_commands() -> None:
    person = Person()
    person.app.open("wren")
    person.wait(3)
    names = " ".join(command.name for command in [*person.work.commands(), *person.app.navigator.everywhere()])
    for node in person.tree().walk():
        if node.role == "button" and node.key.startswith(("bar/", "tool/")):
            assert node.name.lower() in names.lower(), node.name


def test_words_are_found_wherever_they_stand_and_beginnings_come_first() -> None:
    commands = [Command(name, "", print) for name in ("Undo", "Go on", "Hand over the roof", "A don")]
    assert [c.name for c in matching(commands, "do")] == ["A don", "Undo"]
    assert [c.name for c in matching(commands, "ROOF hand")] == ["Hand over the roof"]
    assert matching(commands, "") == commands
    assert matching(commands, "zebra") == []


def drag(person: Person, start: tuple[int, int], finish: tuple[int, int]) -> None:
    person.press(start)
    for part in (0.5, 1.0):
        y = round(start[1] + (finish[1] - start[1]) * part)
        person.app.handle(pygame.event.Event(pygame.MOUSEMOTION, pos=(start[0], y), rel=(0, 1), buttons=(1, 0, 0)))
        person.wait(ms=5)
    person.let_go(finish)


def test_the_bar_of_a_list_is_dragged_by_mouse() -> None:
    person = Person()
    person.wait_for_houses()
    person.wait(3)
    listing = person.see("list", "Houses")
    x = listing.rect.right - 4
    drag(person, (x, listing.rect.top + 6), (x, listing.rect.bottom - 2))
    after = person.see("list", "Houses")
    assert after.children[-1].rect.bottom == listing.rect.bottom
    assert after.value == listing.value, "dragging the bar chooses nothing"
    drag(person, (x, listing.rect.bottom - 6), (x, listing.rect.top))
    assert person.see("list", "Houses").children[0].rect.top == listing.rect.top


def test_the_bar_of_a_text_is_dragged_by_mouse() -> None:
    person = Person()
    person.wait_for_houses()
    person.key("f1")
    panel = person.see("scroll", "Keys")
    text = panel.children[0]
    x = panel.rect.right - 4
    drag(person, (x, panel.rect.top + 6), (x, panel.rect.bottom + 300))
    moved = person.see("scroll", "Keys").children[0]
    assert moved.value == text.value
    assert person.app.ui.memory["scroll:Keys"] > 100


@pytest.mark.parametrize("size", [(1280, 800), (1366, 768)])
def test_the_houses_keep_title_and_caution_in_sight_at_twice_the_text(size: tuple[int, int]) -> None:
    person = Person(size, scale=2.0)
    person.wait_for_houses()
    person.arrow_to("wren", "Houses")
    person.wait(3)
    title = person.see("heading", "Broken hip and valley")
    assert (
        title.rect.height and not title.cut and IN_SHORT in " ".join(person.app.scene.plan._note_lines(person.app.ui))
    )
    person.tab_to("choice", "Show")
    while person.see("choice", "Show").value != "About this house":
        person.key("right")
    assert not person.sees("list", "Houses")
    assert any(CAUTION in node.name or CAUTION in node.value for node in person.tree().walk())


def test_a_large_screen_is_offered_larger_text_at_the_first_start_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pygame.display, "get_desktop_sizes", lambda: [(2560, 1440)])
    person = Person((1920, 1080), data=tmp_path, remembered=True)
    while not person.sees("button", "Skip"):
        person.wait()
    for scale in (1.25, 1.5):
        person.tab_to("button", "Larger text")
        person.key("enter")
        assert person.app.look.scale == scale
    assert not person.sees("button", "Larger text")
    again = Person((1920, 1080), data=tmp_path)
    again.wait_for_houses()
    again.key("f")
    assert not again.sees("button", "Larger text")


def at_work(person: Person) -> None:
    """Stand before a whole roof."""
    person.wait_for_houses()
    person.arrow_to("wren", "Houses")
    person.key("p")
    person.build(action for action in right("wren", 4) if not isinstance(action, HandOver))
    person.wait(3)


def test_a_magnifying_glass_letters_what_the_plan_has_no_room_for() -> None:
    person = Person(scale=2.0)
    at_work(person)
    assert person.plan._left_out_in_words()
    person.key("f10")
    person.move(person.plan.rect.center)
    person.wait(2)
    glass = person.plan.magnifier
    assert glass is not None and glass._lettered is not None and person.plan._painted is not None
    assert len(glass._lettered.left_out) < len(person.plan._painted.left_out)
    person.key("f10")
    person.wait()
    assert person.plan.magnifier is None
