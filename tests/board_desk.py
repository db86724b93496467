"""The assessor's desk, screen by screen, for pictures and for tests of what every screen must hold to."""

from pathlib import Path

from board_packs import a_pack, put
from board_person import Person
from records_made import Clock

from trainer.board.scenes.desk import DeskScreen

PASSPHRASE = "an invented passphrase"


def desk_shut(person: Person) -> None:
    """The desk as one comes to it from the first screen."""
    person.wait_for_houses()
    seat = person.app.services.records.seat()
    assert seat is not None
    seat.clock = Clock()
    person.key("k")
    scene = person.app.scene
    assert isinstance(scene, DeskScreen)
    scene.file = str(seat.folder / "assessor.pem")


def desk_refused(person: Person) -> None:
    """No key lies there."""
    desk_shut(person)
    person.write(PASSPHRASE)
    person.key("enter")


def desk_out(person: Person) -> None:
    """The form of what is handed out, half filled."""
    desk_shut(person)
    for entry in ("Passphrase", "The passphrase again"):
        person.tab_to("entry", entry)
        person.write(PASSPHRASE)
    person.key("enter")
    person.wait()
    person.tab_to("list", "Houses to sit")
    person.key("down", times=2)
    person.key("enter")
    person.tab_to("choice", "A new house for each")
    person.key("right")


def desk_names(person: Person) -> None:
    """Further down: the code names, and one candidate here."""
    desk_out(person)
    person.tab_to("entry", "Code names")
    person.write("emu-1")
    person.key("enter")
    person.write("emu-2,15")
    person.tab_to("button", "Begin here")


def desk_eased(person: Person) -> None:
    """What one candidate is granted."""
    desk_names(person)
    person.tab_to("button", "Grant something")
    person.key("enter")


def desk_handing_over(person: Person) -> None:
    """What is said before one candidate sits at this machine."""
    desk_out(person)
    person.tab_to("entry", "One code name")
    person.write("emu-9")
    person.key("enter")


def desk_folder(person: Person) -> None:
    """Where the folder goes."""
    desk_names(person)
    person.app.services.ui.memory["folders/last"] = _data(person)
    person.tab_to("button", "Write the folder")
    person.key("enter")


def desk_back(person: Person) -> None:
    """A class of which nobody is back yet."""
    desk_out(person)
    put(_data(person), a_pack(), "wren-07")
    put(_data(person), a_pack(), "wren-08")
    scene = person.app.scene
    assert isinstance(scene, DeskScreen)
    scene.keep_class(_data(person))
    person.tab_to("tab", "Take back")
    person.key("enter")
    person.pass_time(5000)


def desk_class(person: Person) -> None:
    """The records, with nothing in them yet."""
    desk_out(person)
    person.tab_to("tab", "Class and records")
    person.key("enter")


def _data(person: Person) -> Path:
    seat = person.app.services.records.seat()
    assert seat is not None
    return seat.folder


DESK = (
    desk_shut,
    desk_refused,
    desk_out,
    desk_names,
    desk_eased,
    desk_handing_over,
    desk_folder,
    desk_back,
    desk_class,
)
