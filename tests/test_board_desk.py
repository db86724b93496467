"""The assessor's desk by keyboard alone: a class is handed out on a stick, sat, taken back and reported on."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from board_person import Person
from records_made import Clock
from sizes import by_size
from test_board_sitting import all_text, at_home, build, open_stick, push
from test_records_class import the_same_wherever_told
from test_records_cli import run

from trainer.board.scenes.closed import Closed
from trainer.board.scenes.desk import DeskScreen
from trainer.records.pack import MINUTE
from trainer.records.waiting import handed_out

PASSPHRASE = "an invented passphrase"
HOUSES = by_size(("pardalote",), ("pardalote",), ("pardalote", "thornbill", "fantail"))
CODES = [f"emu-{n:02}" for n in range(1, 1 + by_size(3, 4, 16))]


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
    press(person, "Assessor's desk")
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


def back_at_the_desk(person: Person, file: str) -> None:
    """Come to the desk again from the houses, and open the key there."""
    person.key("k")
    person.wait()
    screen = person.app.scene
    assert isinstance(screen, DeskScreen) and not screen.desk.open, "taking it back needs the passphrase"
    screen.file = file
    person.wait()
    open_again(person)


def open_again(person: Person) -> None:
    typed_into(person, "Passphrase", PASSPHRASE)
    person.key("enter")
    person.wait()


def test_a_class_over_a_stick_by_the_desks_own_buttons(tmp_path: Path) -> None:
    clock = Clock()
    person, screen = desk_at(tmp_path, clock)
    with_a_key(person)
    assert screen.desk.open and (tmp_path / "assessor.pem").exists()
    for house in HOUSES:
        sits(person, house)
    typed_into(person, "Code names", "\n".join([f"{CODES[0]},15", *CODES[1:]]))
    stick = tmp_path / "class"
    person.app.services.ui.memory["folders/last"] = tmp_path
    press(person, "Write the folder for the seats")
    press(person, "Make and use class")
    assert f"{len(CODES)} tickets are in it" in all_text(person)

    codes = {}
    for name in CODES[:-1]:
        # Everyone after the first leaves out what comes last.
        codes[name] = sat_at_a_seat(tmp_path / f"seat-{name}", stick, name, clock, None if name == CODES[0] else -2)
    clock.now += 11 * MINUTE
    person.wait()
    assert not screen.desk.open, "nobody was at the desk while the class sat"
    open_again(person)
    person.pass_time(5000)
    assert f"{CODES[-1]}: ticket given, result missing" in all_text(person), "the class fills while one looks"
    assert f"{CODES[0]}: Separate acts within 2 seconds" in all_text(person), "to be asked about before one signs"
    for name, code in codes.items():
        typed_into(person, f"{name}: the code at the close", code.lower())
    press(person, "Counter-sign by these codes, and take all in")
    assert "Counter-signed" in all_text(person)
    person.key("escape")
    same_everywhere(tmp_path)


def sat_at_a_seat(data: Path, stick: Path, name: str, clock: Clock, upto: int | None) -> str:
    """Sit as one candidate; return the code at the close."""
    seat = at_home(data, clock)
    open_stick(seat, stick)
    push(seat, "It is theirs")
    press(seat, f"Assessment, for {name}")
    push(seat, "Begin")
    for _house in HOUSES:
        seat.wait()
        build(seat, upto=upto)
        clock.now += 3 * MINUTE
        seat.work._hand_over()
        seat.wait()
    assert isinstance(seat.app.scene, Closed)
    kept = seat.app.services.records.seat()
    assert kept is not None
    (attempt,) = [each for id_ in kept.store.ids() for each in kept.store.attempts(id_)]
    return attempt.head_code


def same_everywhere(folder: Path) -> None:
    """List, table, xAPI, class and attempt reports say the same of everybody, and not the same of all."""
    rows = the_same_wherever_told(folder / "office", folder)
    assert [row["code"] for row in rows] == CODES[:-1]
    assert {row["trust"] for row in rows} == {"counter-signed"}
    assert [row["grades"]["allowed_minutes"] for row in rows if row["code"] in CODES[:2]] == [105, 90]
    scores = {row["code"]: [house["score"] for house in row["houses"]] for row in rows}
    assert all(len(each) == len(HOUSES) for each in scores.values())
    assert scores[CODES[0]] == [100] * len(HOUSES) and max(scores[CODES[1]]) < 100


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
    code = person.app.scene.made.head_code
    push(person, "Houses")
    back_at_the_desk(person, screen.file)
    typed_into(person, "emu-9: the code at the close", code.lower())
    press(person, "Counter-sign by these codes, and take all in")
    assert "Counter-signed: emu-9" in all_text(person) and "emu-9: counter-signed" in all_text(person)
    person.key("escape")
    (row,) = json.loads(run("records", "list", "--json", "--data", tmp_path / "office")[0])["attempts"]
    assert (row["code"], row["trust"], row["houses"][0]["score"]) == ("emu-9", "counter-signed", 100)


def test_another_candidate_at_this_machine_takes_nothing_from_the_first(tmp_path: Path) -> None:
    clock = Clock()
    person, screen = desk_at(tmp_path, clock)
    with_a_key(person)
    sits(person, "pardalote")
    for name in ("emu-8", "emu-9"):
        typed_into(person, "One code name", name)
        person.key("enter")
        push(person, "Begin")
        push(person, "Begin")
        person.app.services.go_home()
        person.wait()
        back_at_the_desk(person, screen.file)
        assert f"{name}: ticket given, result missing" in all_text(person), "one comes back to where the class stands"
        if name == "emu-8":
            person.click_on("tab", "Hand out")
            person.wait()
            assert "is sat, 1" in all_text(person), "the next one sits the same, unless something else is chosen"
            sits(person, "thornbill")
    packs, tickets = handed_out(tmp_path / "office")
    assert sorted(each.content.code for each in tickets) == ["emu-8", "emu-9"]
    assert all(each.content.pack in packs for each in tickets)


def test_a_ticket_that_is_left_before_it_begins_is_taken_back(tmp_path: Path) -> None:
    person, screen = desk_at(tmp_path, Clock())
    with_a_key(person)
    sits(person, "pardalote")
    typed_into(person, "One code name", "emu-9")
    person.key("enter")
    assert "To be built: A small gable." in all_text(person) and "No questions are asked." in all_text(person)
    push(person, "Begin")
    push(person, "Not now")
    assert handed_out(tmp_path / "office") == ({}, []), "nothing is missing, since nothing was handed out"
    back_at_the_desk(person, screen.file)
    assert "result missing" not in all_text(person)


def test_questions_alone_are_asked_about_before_they_are_handed_out(tmp_path: Path) -> None:
    person, _screen = desk_at(tmp_path, Clock())
    with_a_key(person)
    person.tab_to("entry", "Questions, 0 to 40")
    person.write("7")
    person.key("enter")
    typed_into(person, "Code names", CODES[0])
    person.app.services.ui.memory["folders/last"] = tmp_path
    press(person, "Write the folder for the seats")
    said = all_text(person)
    assert "No house is chosen: there is nothing to build, only questions. " in said
    assert "7 questions are asked." in said
    push(person, "Hand out questions only")
    press(person, "Make and use class")
    (pack,) = handed_out(tmp_path / "class")[0].values()
    assert pack.paper is not None and pack.paper.questions == 7 and not pack.houses


def test_a_class_never_replaces_one_that_was_handed_out(tmp_path: Path) -> None:
    person, _screen = desk_at(tmp_path, Clock())
    with_a_key(person)
    sits(person, HOUSES[0])
    typed_into(person, "Code names", "\n".join(CODES))
    person.app.services.ui.memory["folders/last"] = tmp_path
    for said in ("tickets are in it", "The folder was not written"):
        person.click_on("tab", "Hand out")
        person.wait()
        press(person, "Write the folder for the seats")
        push(person, "Make and use class")
        assert said in all_text(person)
        person.app.services.ui.memory["folders/last"] = tmp_path
    assert len(handed_out(tmp_path / "class")[1]) == len(CODES)
