"""Where permanent bracing goes, in words: read back with a tape, they lead to the places they were said of."""

import re

import pytest
from attempts import SHIPPED, layout_of, level_of
from board_person import Person
from board_screens import HOUSE, _half_built

from trainer.board import diary_words
from trainer.board.bracing_words import NEAR, from_where_to_where
from trainer.board.tools.registry import Toolbox
from trainer.layout import Layout
from trainer.plan import Point
from trainer.session import Session, job_of
from trainer.site.actions import Restrain

PLATE = re.compile(r"the plate of wall (\w+), (\d+) from its first corner")
TOP = re.compile(r"the top of (\w+)")
ON = re.compile(r"(\w+), (?:(\d+) in from wall (\w+)|(\d+) from (\w+)|over the plate of wall (\w+))")
BOTH = re.compile(r"from (\w+) to (\w+), (.*)")
HOUSES = [name for name in SHIPPED if job_of(level_of(name), 1, layout=layout_of(name)).restraints]


def along_wall(layout: Layout, wall: str, at: float) -> Point:
    """A tape hooked on a wall's first corner."""
    edge = layout.house.plan.by_name[wall]
    part = at / edge.length
    return (edge.a[0] + (edge.b[0] - edge.a[0]) * part, edge.a[1] + (edge.b[1] - edge.a[1]) * part)


def tells(layout: Layout, text: str, point: Point) -> bool:
    """Whether somebody who does what the words say comes to the point."""
    if plate := PLATE.fullmatch(text):
        x, y = along_wall(layout, plate[1], float(plate[2]))
        width = layout.house.plan.plate_width
        return abs(x - point[0]) + abs(y - point[1]) <= width
    if top := TOP.fullmatch(text):
        member = layout.by_tag[top[1]]
        rect = next(wing.rect for wing in layout.wings if wing.id == member.wing)
        middle = ((rect[0] + rect[2]) / 2, (rect[1] + rect[3]) / 2)
        if member.kind == "half":
            middle = member.finish  # it is half of a truss, cut at its top
        straight_up = member.start[0] == member.finish[0]
        ridge = (member.start[0], middle[1]) if straight_up else (middle[0], member.start[1])
        return max(abs(ridge[0] - point[0]), abs(ridge[1] - point[1])) <= NEAR
    on = ON.fullmatch(text)
    assert on, text
    member = layout.by_tag[on[1]]
    across = 0 if member.start[0] == member.finish[0] else 1
    if abs(member.start[across] - point[across]) > member.width / 2 + NEAR:
        return False
    if on[4]:
        carrier = layout.by_tag[on[5]]
        return abs(abs(carrier.start[1 - across] - point[1 - across]) - float(on[4])) <= 1
    off = abs(layout.house.plan.by_name[on[3] or on[6]].a[1 - across] - point[1 - across])
    return off <= layout.house.plan.plate_width if on[6] else abs(off - float(on[2])) <= 1


@pytest.mark.parametrize("house", HOUSES)
def test_the_words_lead_to_both_ends_of_every_piece(house: str) -> None:
    site = Session(level_of(house), 1, layout=layout_of(house)).site
    for piece in site.job.restraints:
        said = from_where_to_where(site, Restrain(kind=piece.kind, start=piece.start, finish=piece.finish))
        both = BOTH.fullmatch(said)
        ends = [f"{both[1]}, {both[3]}", f"{both[2]}, {both[3]}"] if both else said.removeprefix("from ").split(", to ")
        assert len(ends) == 2, said
        for text, point in zip(ends, (piece.start, piece.finish), strict=True):
            assert tells(site.layout, text, point), f"{piece.name}: {said}, but it goes to {point}"


@pytest.mark.parametrize("house", HOUSES)
def test_no_two_pieces_of_a_house_are_said_alike(house: str) -> None:
    session = Session(level_of(house), 1, layout=layout_of(house))
    site, tools = session.site, Toolbox(session)
    said = [
        diary_words.to_do(Restrain(kind=piece.kind, start=piece.start, finish=piece.finish), tools)
        for piece in site.job.restraints
    ]
    assert len(set(said)) == len(said)
    assert not any("(" in text for text in said), "no coordinates"


def test_a_place_of_ones_own_is_told_as_a_tape_would() -> None:
    site = Session(level_of(HOUSE), 1, layout=layout_of(HOUSE)).site
    said = from_where_to_where(site, Restrain(kind="roof brace", start=(1000.0, 1111.0), finish=(2000.0, 2345.0)))
    assert said == "from wall F at 6089, 1000 in, to wall F at 4855, 2000 in", (
        "the nearest wall is the one along the left"
    )


def test_a_hint_on_the_board_speaks_so_and_not_in_coordinates() -> None:
    person = Person()
    _half_built(person)
    work = person.work
    hints = {hint.action for hint in work.session.hint() if isinstance(hint.action, Restrain)}
    while not hints or work.session.hint()[0].urgent:  # what holds a truss in hand is said before anything else
        work.session.do(work.session.hint()[0].action)
        hints = {hint.action for hint in work.session.hint() if isinstance(hint.action, Restrain)}
    work.changed()
    person.key("z")
    person.key("h", times=3)
    assert re.search(r"from .* to .*(wall|the top of|from) \w+", person.status)
    assert not re.search(r"\(\d", person.status)
