"""The assessor's desk: a class is handed out on a stick, sat, taken back and told of, by the desk's own buttons."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from board_person import Person
from records_made import Clock
from sizes import by_size
from test_board_sitting import all_text, at_home, build, open_stick, push
from test_records_cli import run

from trainer.board.scenes.closed import Closed
from trainer.board.scenes.desk import DeskScreen
from trainer.records.pack import MINUTE

PASSPHRASE = "an invented passphrase"
HOUSES = by_size(("pardalote",), ("pardalote",), ("pardalote", "thornbill", "fantail"))
CODES = [f"emu-{n}" for n in range(1, 1 + by_size(2, 3, 16))]


def typed_into(person: Person, entry: str, words: str) -> None:
    person.tab_to("entry", entry)
    first, *more = words.split("\n")
    person.write(first)
    for line in more:
        person.key("enter")
        person.write(line)


def press(person: Person, button: str) -> None:
    """Press a button by keyboard, wherever it is scrolled to."""
    person.tab_to("button", button)
    person.key("enter")
    person.wait()


def sits(person: Person, house: str) -> None:
    person.tab_to("list", "Houses to sit")
    person.arrow_to(house, "Houses to sit")
    person.key("enter")
    person.wait()


def desk_at(folder: Path, clock: Clock) -> tuple[Person, DeskScreen]:
    """An assessor who has come to the desk from the first screen."""
    person = at_home(folder / "office", clock)
    person.app.services.go_assessments()
    person.wait()
    push(person, "Assessor's desk")
    screen = person.app.scene
    assert isinstance(screen, DeskScreen)
    screen.file = str(folder / "assessor.pem")
    person.wait()
    return person, screen


def with_a_key(person: Person) -> None:
    typed_into(person, "Passphrase", PASSPHRASE)
    typed_into(person, "The passphrase again, for a new key", PASSPHRASE)
    person.key("enter")
    person.wait()


def test_a_class_over_a_stick_by_the_desks_own_buttons(tmp_path: Path) -> None:
    clock = Clock()
    person, screen = desk_at(tmp_path, clock)
    with_a_key(person)
    assert screen.desk.open and (tmp_path / "assessor.pem").exists()
    for house in HOUSES:
        sits(person, house)
    typed_into(person, "Code names", "\n".join(CODES))
    stick = tmp_path / "class"
    person.app.services.ui.memory["folders/last"] = tmp_path
    press(person, "Write the folder for the seats")
    push(person, "Make and use class")
    assert f"{len(CODES)} tickets are in it" in all_text(person)
    push(person, "Close")

    codes = {}
    for name in CODES[:-1]:
        codes[name] = sat_at_a_seat(tmp_path / f"seat-{name}", stick, name, clock)
    person.tab_to("tab", "Take back")
    person.key("enter")
    person.pass_time(5000)
    assert f"{CODES[-1]}: ticket given, result missing" in all_text(person), "the class fills while one looks"
    for name, code in codes.items():
        typed_into(person, f"{name}: the code at the close", code.lower())
    press(person, "Counter-sign by these codes, and take all in")
    assert "Counter-signed" in all_text(person)
    person.key("escape")
    same_everywhere(tmp_path)


def sat_at_a_seat(data: Path, stick: Path, name: str, clock: Clock) -> str:
    """Sit as one candidate; return the code at the close."""
    seat = at_home(data, clock)
    open_stick(seat, stick)
    push(seat, "It is theirs")
    push(seat, f"Assessment, for {name}")
    push(seat, "Begin")
    for _house in HOUSES:
        seat.wait()
        build(seat)
        clock.now += 3 * MINUTE
        seat.work._hand_over()
        seat.wait()
    assert isinstance(seat.app.scene, Closed)
    kept = seat.app.services.records.seat()
    assert kept is not None
    (attempt,) = [each for id_ in kept.store.ids() for each in kept.store.attempts(id_)]
    return attempt.head_code


def same_everywhere(folder: Path) -> None:
    """List, CSV, xAPI, class and attempt reports say the same of everybody."""
    data = folder / "office"
    listed = json.loads(run("records", "list", "--json", "--data", data)[0])
    rows = listed["attempts"] if isinstance(listed, dict) else listed
    assert [row["code"] for row in rows] == CODES[:-1]
    assert all([house["score"] for house in row["houses"]] == [100] * len(HOUSES) for row in rows)
    assert {row["trust"] for row in rows} == {"counter-signed"}
    run("report", "-o", folder / "class.csv", "--data", data)
    table = list(csv.DictReader(io.StringIO((folder / "class.csv").read_text(encoding="utf-8-sig"))))
    assert len(table) == len(rows) * len(HOUSES)
    assert {value for row in table for value in row.values()} >= {"100", "counter-signed", *CODES[:-1]}
    run("report", "-o", folder / "class.html", "--data", data)
    page = (folder / "class.html").read_text(encoding="utf-8")
    assert all(code in page for code in CODES[:-1]) and "counter-signed" in page


def test_the_key_is_forgotten_on_leaving_and_after_ten_idle_minutes(tmp_path: Path) -> None:
    clock = Clock()
    person, screen = desk_at(tmp_path, clock)
    with_a_key(person)
    clock.now += 11 * MINUTE
    person.wait()
    assert not screen.desk.open and person.sees("entry", "Passphrase")
    typed_into(person, "Passphrase", "another one")
    person.key("enter")
    assert not screen.desk.open
    typed_into(person, "Passphrase", PASSPHRASE)
    person.key("enter")
    assert screen.desk.open
    person.key("escape")
    assert not screen.desk.open


@pytest.mark.parametrize("names", ["", "a b", "emu-1\nemu-1"])
def test_what_is_no_list_of_code_names_is_said_before_anything_is_written(names: str, tmp_path: Path) -> None:
    person, _screen = desk_at(tmp_path, Clock())
    with_a_key(person)
    press(person, "Have this house sat")
    typed_into(person, "Code names", names)
    press(person, "Write the folder for the seats")
    assert "This is to be put right first" in all_text(person)
    assert not (tmp_path / "class").exists()


def test_one_candidate_at_this_very_machine(tmp_path: Path) -> None:
    clock = Clock()
    person, screen = desk_at(tmp_path, clock)
    with_a_key(person)
    sits(person, "pardalote")
    typed_into(person, "One code name", "emu-9")
    person.key("enter")
    assert "What one laptop can't show" in all_text(person)
    push(person, "Begin")
    assert not screen.desk.open, "the key is shut before the machine is handed over"
    push(person, "Begin")
    person.wait()
    build(person)
    clock.now += 3 * MINUTE
    person.work._hand_over()
    person.wait()
    assert isinstance(person.app.scene, Closed)
