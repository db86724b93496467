"""The screens of what happens on the day: looking round, the lift plan, a stop, a fall and clearing it, the packs."""

from itertools import takewhile

from attempts import right
from board_person import Person

from trainer.site import Brace, Stand
from trainer.site.actions import Report, Unbrace

LOOKED = "kookaburra"
"""A house with a service line over it, and a platform missing; it asks for a lift plan and for the first packs."""
WINDY = "brolga"
"""A house with a gust at noon."""
FALLS = "wren"
ROW = ("ST12", "ST13", "ST14", "ST15", "ST16")


def open_house(person: Person, house: str) -> None:
    person.wait_for_houses()
    person.arrow_to(house, "Houses")
    person.key("p")


def look_round(person: Person) -> None:
    open_house(person, LOOKED)
    person.key("q")
    person.key("down")


def danger_seen(person: Person) -> None:
    look_round(person)
    person.key("enter")
    person.key("n")
    person.work.act()


def plan_lifts(person: Person) -> None:
    open_house(person, LOOKED)
    person.key("p", shift=True)
    person.press_until("c", "By", "crane")
    person.type(2)
    person.key("tab")


def report_what(person: Person) -> None:
    open_house(person, LOOKED)
    person.key("r", shift=True)
    person.key("down", times=3)
    person.key("enter")


def first_packs(person: Person) -> None:
    open_house(person, LOOKED)
    person.key("i", shift=True)


def stop_lifting(person: Person) -> None:
    """The gust has come."""
    open_house(person, WINDY)
    person.build(takewhile(lambda action: action.do != "stop", right(WINDY, 4)))
    person.key("s", shift=True)


def fell(person: Person) -> None:
    """The only solid brace of a row was taken off, and the row went over."""
    open_house(person, FALLS)
    for number, tag in enumerate(ROW):
        member = person.work.site.layout.by_tag[tag]
        kind = Brace(kind="batten", tags=ROW[number - 1 : number + 1]) if number else Brace(kind="solid", tags=(tag,))
        for action in (Stand(tag=tag, start=member.start, finish=member.finish), kind):
            person.work.session.do(action)
    person.work.do([Unbrace(kind="solid", tags=ROW[:1])])
    person.wait_long(2000)


def fallen(person: Person) -> None:
    fell(person)
    person.key("f4")
    person.wait_long(2000)


def _put_away(person: Person) -> None:
    fell(person)
    person.read_note()


def fallen_on_plan(person: Person) -> None:
    _put_away(person)


def fallen_in_space(person: Person) -> None:
    _put_away(person)
    person.key("f4")


def fallen_in_section(person: Person) -> None:
    _put_away(person)
    person.key("f5")


def fallen_truss(person: Person) -> None:
    _put_away(person)
    person.work.choose("ST14")
    person.key("f7")


def clear_up(person: Person) -> None:
    _put_away(person)
    person.work.do([Report(fault="a fall")])
    person.key("f", shift=True)


SITE = (
    look_round, danger_seen, plan_lifts, report_what, first_packs, stop_lifting, fell, fallen, fallen_on_plan,
    fallen_in_space, fallen_in_section, fallen_truss, clear_up,
)  # fmt: skip
