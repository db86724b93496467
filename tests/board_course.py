"""The screens of the course: today before its first part and once it is done, and an exercise to be finished."""

from collections.abc import Callable

from board_person import Person


def _today(person: Person) -> None:
    person.wait_for_houses()
    person.wait(3)
    person.key("y")
    person.wait(3)


def today(person: Person) -> None:
    """What today holds, before any of it is done."""
    _today(person)


def today_done(person: Person) -> None:
    """Today once it is done."""
    _today(person)
    day = person.app.ui.memory["today/day"]
    day.reviewed = day.asked_why = True
    day.done += day.left
    person.app.scene.refresh()
    person.wait(2)


def finish_it(person: Person) -> None:
    """A house that is built but for one idea."""
    _today(person)
    day = person.app.ui.memory["today/day"]
    day.done.append(day.left[0])
    person.key("enter")
    person.key("esc")
    person.wait(2)


SCREENS: tuple[Callable[[Person], None], ...] = (today, today_done, finish_it)
