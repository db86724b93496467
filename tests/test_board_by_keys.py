"""Small things that somebody at the keys stumbles over: where choices begin, and where the focus goes next."""

from collections.abc import Sequence

import pytest
from attempts import right
from board_person import Person

from trainer.board.library import read_entry
from trainer.board.sheet_view import ONLY_READ, SheetView
from trainer.board.tools.brace import KIND_NAMES
from trainer.board.tools.hand import FIRST_CORNER, OTHER_CORNER, yard
from trainer.board.tools.registry import TOOLS
from trainer.board.widgets import Choice
from trainer.picture.measures import figure, stations
from trainer.picture.model import Text
from trainer.shipped import find_level
from trainer.site.actions import AnyAction, Brace, Mark, Restrain, String
from trainer.terms import thing

WREN = right("wren", 4)


def at_work(house: str, done: Sequence[AnyAction] = ()) -> Person:
    person = Person((1600, 900))
    person.app.navigator.work(read_entry(find_level(house)), "practice")
    person.wait(3)
    person.build(done)
    return person


def mostly_built() -> Person:
    """At work on a house that stands but for its last trusses."""
    return at_work("wren", WREN[: len(WREN) * 4 // 5])


@pytest.mark.parametrize(
    ("first", "done"), [("diagonals", ()), ("between", (Mark(wall="A", at=1800),)), ("plumb", WREN[: len(WREN) // 2])]
)
def test_measuring_begins_with_what_the_stage_wants(first: str, done: Sequence[AnyAction]) -> None:
    person = at_work("wren", done)
    tool = person.work.tools["measure"]
    person.key("a")
    assert tool.what == tool.kinds[0] == first
    person.key("c", shift=True)
    chosen = tool.what
    person.key("m")
    person.key("a")
    assert tool.what == chosen != first, "a choice stays as long as the stage"


@pytest.mark.parametrize("house", ["wren", "swallow"])
def test_no_tool_is_taken_up_by_the_key_that_steps_a_choice_back(house: str) -> None:
    work = at_work(house).work
    with_shift = {tool.key[-1] for tool in TOOLS.values() if tool.key.startswith("Shift ")}
    work.choose(yard(work.site)[0])
    for verb in TOOLS:
        work.use(verb)
        controls = [each for control in work.tool.panel(work) for each in control.walk()]
        assert not {each.shortcut for each in controls if isinstance(each, Choice)} & with_shift, verb


def test_a_string_picked_by_keys_is_looked_over_before_it_is_pulled() -> None:
    person = mostly_built()
    string = next(action for action in WREN if isinstance(action, String))
    before = len(person.work.session.outcomes)
    person.key("g")
    for tag in (string.start, string.finish):
        person.arrow_to(tag, "Roof so far")
        person.key("enter")
    assert len(person.work.session.outcomes) == before
    assert f"{string.start} – {string.finish}" in person.status and person.focused.name == "Pull it"
    person.key("enter")
    assert person.work.session.outcomes[-1].action == string


def test_what_is_missing_for_a_batten_is_gone_to_and_typed() -> None:
    person = mostly_built()
    tie = next(action for action in WREN if isinstance(action, Brace) and action.kind == "batten")
    person.key("b")
    person.press_until("c", "With", KIND_NAMES["batten"])
    for tag in tie.tags[:2]:
        person.arrow_to(tag, "Roof so far")
        person.key("enter")
    assert person.focused.name == "A row every" and "how far apart" in person.status


def test_the_next_piece_is_typed_from_its_first_measure_on() -> None:
    person = mostly_built()
    piece = next(action for action in WREN if isinstance(action, Restrain))
    before = len(person.work.session.outcomes)
    person.key("z")
    person.press_until("c", "Kind", thing(piece.kind))
    names = ("Begins: across", "Begins: up", "Ends: across", "Ends: up")
    for name, number in zip(names, (*piece.start, *piece.finish), strict=True):
        person.tab_to("entry", name)
        person.type(number)
    person.key("enter")
    assert len(person.work.session.outcomes) == before + 1
    person.read_note()
    assert (person.focused.name, person.focused.value) == ("Begins: across", "")


def test_another_list_in_the_same_place_begins_at_its_top() -> None:
    person = mostly_built()
    person.key("o")
    person.key("end")
    person.key("b", shift=True)
    bracing = person.see("list", "Bracing")
    assert bracing.children[0].rect.top == bracing.rect.top


@pytest.mark.parametrize("corner", [FIRST_CORNER, OTHER_CORNER])
def test_the_layout_drawing_measures_from_where_the_tape_is_hooked(corner: int) -> None:
    person = at_work("wren")
    work, layout = person.work, person.work.site.layout
    person.key("f9")
    work.hand.hook("A", corner)
    work.refresh()
    person.wait(3)
    written = {item.text for item in work.views.view().still(0.1) if isinstance(item, Text)}
    for wall in layout.house.plan.walls:
        back = wall.name in work.hand.read_back
        reads = {figure(wall.length - run if back else run) for run in stations(layout, wall)}
        assert reads <= written, wall.name
    assert 0 < len(work.hand.read_back) < len(layout.house.plan.walls)


def test_the_layout_drawing_shows_what_was_marked_and_a_press_on_it_says_that_it_is_only_read() -> None:
    person = at_work("wren")
    person.key("f9")
    view = person.work.views.view()
    assert isinstance(view, SheetView) and not view.marks
    person.work.do([Mark(wall="A", at=1800)])
    person.wait(3)
    assert len(view.marks) == 1 and "you marked it" in view.note()
    before = len(person.work.session.outcomes)
    person.click(view.rect.center)
    assert person.work.message == ONLY_READ and len(person.work.session.outcomes) == before
