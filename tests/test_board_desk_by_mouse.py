"""The assessor's desk by mouse alone, in few acts: a new house for each candidate, and the board eased for one."""

from __future__ import annotations

from pathlib import Path

import pytest
from board_person import Person
from records_made import BY_HAND, Clock
from test_board_sitting import all_text, at_home, build, open_stick, push

from trainer.board.scenes.closed import Closed
from trainer.board.scenes.desk import DeskScreen
from trainer.records.pack import MINUTE
from trainer.records.waiting import handed_out

PASSPHRASE = "an invented passphrase"
CODES = ("emu-1", "emu-2")
MOST_ACTS = 12


class AssessorsMouse:
    """Whoever holds it presses and types, and never uses a key for anything else. ``acts`` are its presses."""

    def __init__(self, person: Person) -> None:
        self.person = person
        self.acts = 0

    def press(self, role: str, name: str) -> None:
        self._reach(role, name)
        self.acts += 1
        self.person.click_on(role, name)
        self.person.wait()

    def type_into(self, entry: str, words: str) -> None:
        self._reach("entry", entry)
        node = self.person.see("entry", entry)
        self.person.click((node.rect.left + 20, node.rect.bottom - 12))
        first, *more = words.split("\n")
        self.person.write(first)
        for line in more:
            self.person.key("enter")
            self.person.write(line)

    def choose(self, choice: str, wanted: str) -> None:
        self._reach("choice", choice)
        for _ in range(30):
            node = self.person.see("choice", choice)
            if node.value == wanted:
                return
            self.acts += 1
            self.person.click((node.rect.right - 12, node.rect.bottom - 12))
        raise AssertionError(wanted)

    def _reach(self, role: str, name: str) -> None:
        if self.person.app.asking or not isinstance(self.person.app.scene, DeskScreen):
            return
        for way in (-1, 1):
            for _ in range(40):
                if self.person.see(role, name).rect.height >= (60 if role == "entry" else 30):
                    return
                self.person.wheel((1015, 780), way)
        raise AssertionError(f"the wheel never came to {name}")


def at_desk(folder: Path, clock: Clock) -> tuple[Person, DeskScreen, AssessorsMouse]:
    person = at_home(folder / "office", clock)
    person.wait_for_houses()
    mouse = AssessorsMouse(person)
    mouse.press("button", "Assessor")
    screen = person.app.scene
    assert isinstance(screen, DeskScreen)
    screen.file = str(folder / "assessor.pem")
    person.app.services.ui.memory["folders/last"] = folder
    person.wait()
    return person, screen, mouse


def sat(data: Path, stick: Path, name: str, clock: Clock) -> str:
    """Sit at a seat; return the code at the close."""
    seat = at_home(data, clock)
    open_stick(seat, stick)
    push(seat, "It is theirs")
    person_of = next(node.name for node in seat.tree().walk() if node.role == "button" and name in node.name)
    push(seat, person_of)
    said = all_text(seat)
    push(seat, "Begin")
    seat.wait()
    eased = name == CODES[1]
    assert ("text 150" in said) is eased
    assert (seat.app.look.scale, seat.app.look.theme) == ((1.5, "contrast") if eased else (1.0, "light"))
    build(seat)
    clock.now += 3 * MINUTE
    seat.work._hand_over()
    seat.wait()
    assert isinstance(seat.app.scene, Closed)
    seat.app.services.go_home()
    assert (seat.app.look.scale, seat.app.look.theme) == (1.0, "light"), "and it is given back"
    kept = seat.app.services.records.seat()
    assert kept is not None
    (attempt,) = [each for id_ in kept.store.ids() for each in kept.store.attempts(id_)]
    return attempt.head_code


def test_a_class_of_new_houses_takes_few_presses_and_two_passphrases(tmp_path: Path) -> None:
    clock = Clock(BY_HAND)
    person, _screen, mouse = at_desk(tmp_path, clock)
    mouse.type_into("Passphrase", PASSPHRASE)
    mouse.type_into("The passphrase again, for a new key", PASSPHRASE)
    mouse.press("button", "Make a new key")
    mouse.choose("A new house for each", "gable")
    mouse.type_into("Code names", "\n".join(CODES))
    mouse.press("button", "Write the folder for the seats")
    mouse.press("button", "Make and use class")
    handed = handed_out(tmp_path / "class")
    assert len({pack.houses for pack in handed[0].values()}) == len(CODES), "no two houses are the same"

    clock.now += 11 * MINUTE
    person.wait()
    mouse.type_into("Passphrase", PASSPHRASE)
    mouse.press("button", "Open the key")
    assert "ticket given, result missing" in all_text(person), "one comes back to where one was"


def test_what_one_candidate_is_granted_is_set_at_the_seat_and_on_record(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock, opened = Clock(BY_HAND), list[Path]()
    monkeypatch.setattr("trainer.board.open_file.open_by_system", lambda path: opened.append(path) or True)
    person, screen, mouse = at_desk(tmp_path, clock)
    screen.passphrase = screen.again = PASSPHRASE
    screen.make_key()
    person.wait()
    mouse.choose("A new house for each", "gable")
    mouse.type_into("Code names", "\n".join(CODES))
    before = mouse.acts
    mouse.press("button", "Grant something to one of them")
    mouse.choose("Who", CODES[1])
    mouse.choose("Text size", "150 %")
    mouse.press("button", "High contrast")
    mouse.press("button", "Put it in the list")
    mouse.acts = before  # few have an adjustment; what is held to a number of presses is a class without any
    assert screen.parts[0].names == "emu-1\nemu-2,0,0,text 150,high contrast"  # type: ignore[union-attr]
    mouse.press("button", "Write the folder for the seats")
    mouse.press("button", "Make and use class")
    codes = {name: sat(tmp_path / name, tmp_path / "class", name, clock) for name in CODES}
    screen.desk.touch()
    person.pass_time(6000)
    for name, code in codes.items():
        mouse.type_into(f"{name}: the code at the close", code)
    mouse.press("button", "Counter-sign by these codes, and take all in")
    assert "Counter-signed: emu-1 and emu-2." in all_text(person)
    mouse.press("button", "Report on the class")
    mouse.press("button", "Open the page")
    assert mouse.acts + len(("make a key", "open it again")) <= MOST_ACTS
    mouse.press("button", "Report on the class")
    mouse.press("button", "Open the PDF, to print it")
    assert [path.name for path in opened] == ["class-attempt.html", "class-attempt.pdf"]
    page = opened[0].read_text(encoding="utf-8")
    assert "The houses differed: each candidate built a new one." in page
    assert "All that was taken in on this machine, from every folder" in page
    assert "text 150; high contrast" in page
