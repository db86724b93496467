"""The screens of what is recorded: going on, looking back, drills and their end, sittings and their close.

Each needs somebody with a data folder; see ``KEPT`` and :func:`board_screens.at`.
"""

from pathlib import Path

from attempts import level_of, right
from board_packs import a_pack, put
from board_person import Person
from records_made import Clock

from trainer.drill import make_drill
from trainer.records.store import FILE
from trainer.rehearse import rehearse
from trainer.site import HandOver
from trainer.site.actions import Inspect

HOUSE = "wren"
CODE = "wren-07-of-the-second-class-of-the-year"
"""A code name as long as they come."""


def _data(person: Person) -> Path:
    folder = person.app.services.records.folder
    assert folder is not None
    return folder


def _home(person: Person) -> None:
    person.wait_for_houses()
    person.wait(3)
    person.arrow_to(HOUSE, "Houses")


def _part_built(person: Person, mode: str = "p") -> None:
    """A part of the house is built, then left for the houses."""
    _home(person)
    person.key(mode)
    for action in right(HOUSE, 4)[:12]:
        person.work.do_recorded([action])
    person.work.changed()


def _left(person: Person) -> None:
    _part_built(person)
    person.key("esc")
    person.tab_to("button", "Leave")
    person.key("enter")
    person.wait(3)


def begin_again(person: Person) -> None:
    _left(person)
    person.key("p")


def begun_house(person: Person) -> None:
    """The houses, where the chosen one is begun and was looked at before: every button there is."""
    _anew(person)
    person.key("esc")
    person.wait(3)


def _anew(person: Person) -> None:
    begin_again(person)
    _begin_anew(person)


def _begin_anew(person: Person) -> None:
    """What was begun is put away; a little is built, and left."""
    person.tab_to("button", "Begin anew")
    person.key("enter")
    for action in right(HOUSE, 4)[:3]:
        person.work.do_recorded([action])
    person.key("esc")
    person.tab_to("button", "Leave")
    person.key("enter")
    person.wait(3)


def offered(person: Person) -> None:
    """The next start of the program."""
    _left(person)
    person.app.ui.memory.pop("home/offered")
    person.app.services.go_home()
    person.wait(6)


def leaving_kept(person: Person) -> None:
    _part_built(person)
    person.key("esc")


def look_back_choice(person: Person) -> None:
    _anew(person)
    person.key("p")
    _begin_anew(person)
    person.key("l")


def unfinished_result(person: Person) -> None:
    _anew(person)
    person.key("l")


def _drill(person: Person, kind: str) -> None:
    _home(person)
    person.key("d")
    person.arrow_to(kind, "Which skill?")
    person.key("enter")


def drill_task(person: Person) -> None:
    _drill(person, "find-the-fault")


def drill_at_work(person: Person) -> None:
    _drill(person, "brace-the-row")
    person.key("esc")


def _reject(person: Person, *, right: bool) -> None:
    drill_task(person)
    person.key("esc")
    faults = make_drill("find-the-fault", level_of(HOUSE), person.work.session.job.seed).faults
    tag = next(tag for tag in person.work.site.stood if (tag in faults) == right)
    person.work.do([Inspect(tag=tag, accept=False)])


def drill_done(person: Person) -> None:
    _reject(person, right=True)


def drill_wrong(person: Person) -> None:
    _reject(person, right=False)


def drills_done(person: Person) -> None:
    drill_done(person)
    person.tab_to("button", "Back to the drills")
    person.key("enter")


def no_assessment(person: Person) -> None:
    _home(person)
    person.key("s")


def _with_a_pack(person: Person, code: str | None, questions: int = 0, minutes: int = 30) -> None:
    put(_data(person), a_pack(questions, minutes=minutes), code)
    _home(person)
    seat = person.app.services.records.seat()
    assert seat is not None
    seat.clock = Clock()
    person.key("s")


def assessments(person: Person) -> None:
    _with_a_pack(person, CODE)


def before_sitting(person: Person) -> None:
    assessments(person)
    person.key("enter")


def before_sitting_without_a_ticket(person: Person) -> None:
    _with_a_pack(person, None, 4)
    person.key("enter")
    person.write(" !")
    person.key("enter")


def sitting(person: Person) -> None:
    before_sitting(person)
    person.key("enter")


def leaving_a_sitting(person: Person) -> None:
    sitting(person)
    for action in rehearse(level_of(person.work.entry.id), person.work.session.job.seed).actions[:3]:
        person.work.do([action])
    person.key("esc")


def closed(person: Person) -> None:
    sitting(person)
    for _house in range(2):
        level = level_of(person.work.entry.id)
        for action in rehearse(level, person.work.session.job.seed).actions:
            if not isinstance(action, HandOver):
                person.work.assignment.do([action])
        person.work._hand_over()


def recorded(person: Person) -> None:
    _home(person)
    person.app.navigator.recorded()


def diary_saved(person: Person) -> None:
    _part_built(person)
    person.key("s", ctrl=True)


def not_recorded(person: Person) -> None:
    """The records can't be read: the house is built all the same."""
    (_data(person) / FILE).write_bytes(b"no records" * 100)
    _home(person)
    person.key("p")


def elsewhere(person: Person) -> None:
    """The house went on in another window, and this one is told so."""
    _part_built(person)
    other = Person(person.surface.get_size(), data=_data(person))
    other.wait_for_houses()
    other.wait(3)
    other.key("enter")
    other.work.do_recorded([right(HOUSE, 4)[12]])
    person.work.do([right(HOUSE, 4)[13]])
    other.app.services.records.close()


KEPT = (
    begin_again, begun_house, offered, leaving_kept, look_back_choice, unfinished_result, drill_task, drill_at_work,
    drill_done, drill_wrong, drills_done, no_assessment, assessments, before_sitting, before_sitting_without_a_ticket,
    sitting, leaving_a_sitting, closed, recorded, diary_saved, not_recorded, elsewhere,
)  # fmt: skip
