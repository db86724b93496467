"""Houses kept for assessment are used for nothing else: no practice, questions, drills or papers; one being sat too."""

from dataclasses import replace
from pathlib import Path

import pytest
from board_person import Person
from records_made import NOON, Clock, uuid_of
from typer.testing import CliRunner

from trainer.board.keeping import Records
from trainer.board.library import read_entry
from trainer.board.path import Path as BoardPath
from trainer.board.scenes.drilling import can_practise
from trainer.board.scenes.home import Home
from trainer.board.scenes.work import Work
from trainer.cli import app
from trainer.cli.questions import the_house
from trainer.records.keys import new_key
from trainer.records.pack import make_pack, make_ticket
from trainer.records.sitting import OpenSitting
from trainer.records.store import FILE, Store
from trainer.records.waiting import being_sat, plan_of
from trainer.shipped import find_level, level_paths
from trainer.shipped.course import course

KEPT = ("dotterel", "avocet", "jabiru")
SAID = "kept for assessment"


@pytest.fixture(scope="module")
def person() -> Person:
    made = Person()
    made.wait_for_houses()
    made.wait(3)
    return made


def test_these_are_the_ones() -> None:
    marked = {path.stem for path in level_paths() if "unseen: true" in path.read_text(encoding="utf-8")}
    assert marked == set(KEPT)


def at_home(person: Person, house: str) -> Home:
    person.app.services.go_home()
    person.wait(3)
    home = person.app.scene
    assert isinstance(home, Home)
    home.choose(house)
    person.wait(2)
    return home


@pytest.mark.parametrize("house", KEPT)
def test_on_the_board_it_can_only_be_sat(person: Person, house: str) -> None:
    at_home(person, house)
    assert person.sees("button", "Be assessed")
    for name in ("Practise", "Quiz", "Drills", "Watch it built", "Change this house"):
        assert not person.sees("button", name), name
    for key in ("p", "q", "d", "w", "e"):
        home = at_home(person, house)
        person.key(key)
        assert person.app.scene is home, key
        if key in "pqd":
            assert person.see("heading").name == "This house is kept for assessment"
            person.key("esc")
    person.key("a")
    person.wait(3)
    assert isinstance(person.app.scene, Work) and person.app.scene.session.mode == "assessment"


def test_the_program_opened_with_it_does_not_practise_on_it(person: Person) -> None:
    person.app.open("avocet")
    person.wait(3)
    assert person.see("heading").name == "This house is kept for assessment"
    person.key("esc")


def test_what_went_wrong_on_it_is_practised_on_a_house_of_the_course() -> None:
    level = read_entry(find_level("dotterel")).level
    assert can_practise(level, "stood-before-last-tied")


CLOSED = [
    ["drills", "HOUSE"], ["quiz", "--level", "HOUSE"], ["paper", "--level", "HOUSE"], ["layout", "HOUSE"],
    ["roof", "HOUSE"],
    ["rehearse", "HOUSE", "--seed", "1"], ["draw", "HOUSE", "-o", "a.svg"], ["sheet", "HOUSE", "-o", "a.pdf"],
    ["cutout", "HOUSE", "-o", "a.pdf"], ["film", "HOUSE", "-o", "a.html"],
]  # fmt: skip
"""What a learner's seat closes before such a house is sat: to see it, to watch it, to practise on it."""


@pytest.mark.parametrize("command", CLOSED, ids=lambda command: command[0])
def test_commands_say_so_and_stop(command: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(app, ["dotterel" if word == "HOUSE" else word for word in command])
    assert done.exit_code == 1
    assert SAID in done.stderr and done.stdout == ""
    assert not [*tmp_path.iterdir()]


def test_an_assessor_names_its_file() -> None:
    done = CliRunner().invoke(app, ["layout", str(find_level("dotterel"))])
    assert done.exit_code == 0 and "set-out" in done.stdout


def test_judging_it_is_open_as_it_is_what_the_house_is_for(tmp_path: Path) -> None:
    diary = tmp_path / "diary.yaml"
    diary.write_text("schema: 1\nlevel: dotterel\nseed: 1\nactions: []\n", encoding="utf-8")
    assert CliRunner().invoke(app, ["grade", "dotterel", str(diary)]).exit_code == 0


def test_a_paper_is_never_about_it_by_chance_and_the_course_never_leads_to_it() -> None:
    assert not {the_house(None, seed).level.id for seed in range(40)} & set(KEPT)
    assert not {house for step in course().steps for house in (step.watch, step.whole, *step.finish)} & set(KEPT)


@pytest.fixture(scope="module")
def seat(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The data folder of a seat on which a sitting of two houses was begun."""
    folder, key = tmp_path_factory.mktemp("seat"), new_key()
    texts = [find_level(house).read_text(encoding="utf-8") for house in ("pardalote", "thornbill")]
    pack = make_pack(key, "Invented", texts, NOON, 7)
    ticket = make_ticket(key, pack, "wren-07", "ab" * 16, NOON - 1, NOON + 10**9)
    with Store.open(folder / FILE) as store:
        OpenSitting.begin(store, pack, "wren-07", ticket, uuid_of(1), new_key(), Clock())
    return folder


@pytest.mark.parametrize("command", [*CLOSED, ["grade", "HOUSE", "a.yaml"]], ids=lambda command: command[0])
def test_while_a_house_is_sat_the_commands_about_it_are_closed_on_that_seat(
    command: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seat: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    words = ["pardalote" if word == "HOUSE" else word for word in command]
    for call in ([*words, "--data", str(seat)], ["--data", str(seat), *words]):
        done = CliRunner().invoke(app, call)
        assert done.exit_code == 1
        assert "is being sat here" in done.stderr and done.stdout == ""
    file = [str(find_level("pardalote")) if word == "HOUSE" else word for word in command]
    assert "is being sat here" in CliRunner().invoke(app, [*file, "--data", str(seat)]).stderr, "by its file too"
    assert not [*tmp_path.iterdir()]


@pytest.mark.parametrize("command", [*CLOSED, ["grade", "HOUSE", "a.yaml"]], ids=lambda command: command[0])
def test_under_another_id_and_title_it_is_the_same_house(
    command: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seat: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    for house in ("pardalote", "thornbill"):
        text = find_level(house).read_text(encoding="utf-8").replace(f"id: {house}", "id: my-own")
        (tmp_path / "my-own.yaml").write_text(text.replace("title: ", "title: My "), encoding="utf-8")
        words = ["my-own.yaml" if word == "HOUSE" else word for word in command]
        done = CliRunner().invoke(app, [*words, "--data", str(seat)])
        assert done.exit_code == 1 and "is being sat here" in done.stderr and done.stdout == "", house
    assert [path.name for path in tmp_path.iterdir()] == ["my-own.yaml"]


def test_on_the_board_too(tmp_path: Path, seat: Path) -> None:
    entry = read_entry(find_level("thornbill"))
    own = replace(entry, level=entry.level.model_copy(update={"id": "my-own"}), text=entry.text + "# mine")
    other = read_entry(find_level("wren"))
    with Store.read(seat / FILE) as store:
        path = BoardPath(Records(tmp_path), sat=being_sat(store, seat, level_paths()))
    assert path.in_sitting(entry) and path.in_sitting(own) and not path.in_sitting(other)


def test_a_plan_is_the_same_wherever_it_lies_and_begins_and_another_by_a_millimetre() -> None:
    corners = [(0, 0), (9000, 0), (9000, 4000), (5000, 4000), (5000, 8000), (0, 8000)]
    moved = [(x + 500, y - 70) for x, y in (*corners[2:], *corners[:2])]
    assert plan_of(moved) == plan_of(corners)
    assert plan_of([(x + (x == 9000), y) for x, y in corners]) != plan_of(corners)


def test_other_houses_and_seats_stay_open_and_so_is_this_one_after_the_close(tmp_path: Path, seat: Path) -> None:
    def opens(house: str, folder: Path) -> bool:
        return CliRunner().invoke(app, ["layout", house, "--data", str(folder)]).exit_code == 0

    assert opens("wren", seat) and opens("pardalote", tmp_path) and not opens("pardalote", seat)
    assert not opens("thornbill", seat), "it comes next, as the ticket says"
    assert "pardalote" not in {the_house(None, seed, seat).level.id for seed in range(10)}
    with Store.open(seat / FILE) as store:
        (left,) = store.unfinished()
        store.append(store.tip(left), {"kind": "close", "at": NOON + 10**6})
    assert opens("pardalote", seat)
