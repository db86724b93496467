"""The screens of the drawing table, each got to by keys."""

from board_person import Person

from trainer.board.scenes.drawing_table import DrawingTable

WREN = "13200 right, 11100 up, 5700 left, 3900 down, 7500 left, close"


def table_of(person: Person) -> DrawingTable:
    """The drawing table; for looking at what is drawn only."""
    assert isinstance(person.app.scene, DrawingTable)
    return person.app.scene


def empty_sheet(person: Person) -> None:
    person.wait_for_houses()
    person.key("t")


def paced(person: Person, walls: str = WREN) -> None:
    empty_sheet(person)
    person.key("p")
    person.write(walls)
    person.key("enter")


def drawn_wall(person: Person) -> None:
    """A house with its third wall a gable, and that wall chosen."""
    paced(person)
    person.tab_to("plan", "Sheet")
    person.key("n", times=3)
    person.key("2")


def open_outline(person: Person) -> None:
    paced(person, "12000 right, 7200 up")


def drawn_faulty(person: Person) -> None:
    """Two gables that meet at a corner: a fault at its place, and the roof still shown."""
    paced(person)
    person.tab_to("plan", "Sheet")
    for _wall in range(2):
        person.key("n")
        person.key("2")


def _tab(person: Person, name: str) -> None:
    drawn_wall(person)
    person.app.scene.open_tab(name)  # by mouse, a press on the tab


def drawn_sizes(person: Person) -> None:
    _tab(person, "sizes")


def drawn_job(person: Person) -> None:
    _tab(person, "job")


def drawn_lesson(person: Person) -> None:
    _tab(person, "lesson")


def drawn_next(person: Person) -> None:
    _tab(person, "go on")


TABLE = (empty_sheet, open_outline, drawn_wall, drawn_faulty, drawn_sizes, drawn_job, drawn_lesson, drawn_next)
