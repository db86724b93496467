"""Who works by keyboard with large text: keys are shown, the page fits the window, and what is said can be read."""

from itertools import product

import pygame
import pytest
from attempts import level_of, right
from board_person import ByKeyboard, Person
from board_screens import at

from trainer.board.scenes.work_frame import bar
from trainer.board.small_window import least
from trainer.board.tools.measure import MeasureTool
from trainer.board.widgets import Button, Scroll
from trainer.board.widgets.listing import Listing, Row
from trainer.board.window import _first_size
from trainer.session import Session
from trainer.site.actions import Brace, HandOver, Mark, Measure, Stand
from trainer.site.holding import held_by_own
from trainer.site.model import Event, Reading

ALL_BUT_HAND_OVER = right("thornbill", 1)[:-1]
SCALES = (1.0, 1.5, 2.0)


@pytest.fixture(scope="module", params=SCALES)
def building(request: pytest.FixtureRequest) -> Person:
    return at("unbrace", (1280, 800), request.param, "light")


def test_the_keys_of_what_helps_are_shown_at_every_text_size(building: Person) -> None:
    shown = {w.name: w for w in building.app.scene.roots["bar"].walk() if isinstance(w, Button)}
    keys = {"Houses": "Esc", "Undo": "U", "Hint": "H", "Help": "F1", "Hand over": "Ctrl Enter"}
    assert {name: shown[name].shortcut for name in keys} == keys
    assert bar(building.work).children[0].wide(building.app.ui) <= 1280


def test_the_keys_of_the_views_and_of_the_column_are_shown(building: Person) -> None:
    keys = {w.name: w.shortcut for w in building.app.scene.roots["views"].walk() if getattr(w, "kind", "") == "tab"}
    assert keys == {"Plan": "F3", "Angled": "F4", "Section": "F5", "Truss": "F7", "Layout": "F9"}
    shown = " ".join(w.shortcut for w in building.app.scene.roots["side"].walk() if getattr(w, "shortcut", ""))
    assert set("YOJD") <= set(shown.split())


def test_a_key_with_shift_is_drawn_beside_the_icon(building: Person) -> None:
    """The tools' column is wide enough for the icon and the longest key beside it."""
    look = building.app.look
    for tool in (w for w in building.app.scene.roots["rail"].walk() if isinstance(w, Button) and w.kind == "tool"):
        assert tool.shortcut
        room = tool.rect.width - look.width(tool.shortcut, "small") - look.px(12)
        assert room >= tool._icon_size(building.app.ui)


def test_where_the_key_stands_under_the_name_nothing_is_cut(building: Person) -> None:
    under = [w for root in building.app.scene.roots.values() for w in root.walk() if getattr(w, "key_under", False)]
    assert under or building.app.look.scale == 1.0
    for button in under:
        assert button.rect.height >= button.high(building.app.ui, button.rect.width) and not button.cut


@pytest.mark.parametrize("desktop", [(1280, 800), (1366, 768), (1280, 720)])
def test_at_half_as_large_again_a_page_is_no_larger_than_the_window_that_opens(
    desktop: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pygame.display, "get_desktop_sizes", lambda: [desktop])
    wide, high = _first_size()
    assert least(1.5)[0] <= wide and least(1.5)[1] <= high


@pytest.mark.parametrize(
    ("key", "wanted"),
    [
        (pygame.K_END, "r8"),
        (pygame.K_HOME, "r0"),
        (pygame.K_DOWN, "r0"),
        (pygame.K_PAGEDOWN, "r2"),
        (pygame.K_UP, "r0"),
    ],
)
def test_keys_go_where_they_say_in_a_list_with_nothing_chosen(key: int, wanted: str) -> None:
    ui = Person().app.ui
    taken: list[str] = []
    listing = Listing("list", [Row(f"r{n}", f"row {n}") for n in range(9)], "", taken.append)
    listing.place(ui, pygame.Rect(0, 0, 300, 4 * listing.row_height(ui, 300)))
    listing.on_key(ui, pygame.event.Event(pygame.KEYDOWN, key=key, mod=0, unicode=""))
    assert taken == [wanted]


LONG = "The tape is hooked at the other corner, and what was typed is read from there. " * 4


def test_at_large_text_what_is_said_is_all_in_sight_and_takes_no_more_of_the_plan_than_a_third(
    building: Person,
) -> None:
    scale, work = building.app.look.scale, building.work
    before = work.places(work.size)
    for text in (LONG, LONG * 6):
        work.say(text)
        building.wait(2)
        strip, plan = work.roots["strip"].rect, work.roots["plan"].rect
        assert plan.bottom == strip.top and strip.bottom == 800
        grown = strip.height - before["strip"].height
        assert (grown > 0) == (scale >= 1.5)
        assert strip.height <= max(before["strip"].height, (plan.height + strip.height) / 3 + 1)
    said = next(w for w in work.roots["strip"].walk() if isinstance(w, Scroll))
    said.move(building.app.ui, 200)
    work.say("Another. " + LONG * 6)
    building.wait(2)
    said = next(w for w in work.roots["strip"].walk() if isinstance(w, Scroll))
    assert said.children[0].rect.top == said.rect.top, "another text begins at its first line"


def test_the_tape_stays_hooked_at_the_same_end_of_the_row_when_the_wall_changes() -> None:
    """Wall C runs back: its own first corner is at the other end of the row."""
    person = Person((1280, 800))
    person.app.open("thornbill")
    hands = ByKeyboard(person)
    hands.do(Mark(wall="A", at=900.0))
    person.key("m")
    person.press_until("w", "Wall", "C")
    assert "from corner CD" in person.status and person.see("choice", "Tape from").value == "corner CD"
    person.type(900)
    person.key("enter")
    assert person.work.session.outcomes[-1].action == Mark(wall="C", at=4500.0)
    person.key("k")
    person.key("k")
    while person.see("choice", "Tape from").value != "corner BC":
        person.key("k")
    person.key("s")
    person.arrow_to("ST1", "Yard")
    person.key("enter")
    assert "Wall A: the tape reads from corner AB" in person.status
    person.type(4500)
    person.key("enter")
    assert person.work.site.stood["ST1"].start[0] == 900.0


def test_a_reading_within_what_is_allowed_is_said_to_be() -> None:
    reading = Event(0, Measure(what="plumb", tag="ST1"), reading=Reading(3.5, 0.0, 10.0))
    assert MeasureTool.reading(reading) == "It reads 3.5 mm. 3.5 mm out: within the 10 allowed."
    session = Session(level_of("thornbill"), 1)
    session.replay(ALL_BUT_HAND_OVER)
    for what, tag in product(("plumb", "bow", "apex"), session.site.stood):
        event = session.do(Measure.model_validate({"what": what, "tag": tag})).event
        if what == "apex" and event is None:
            continue  # no string runs over it
        assert event and event.reading and event.reading.within is not None, "a right roof is within what is allowed"
    silent = Session(level_of("thornbill"), 1, "assessment")
    silent.replay(ALL_BUT_HAND_OVER)
    event = silent.do(Measure(what="plumb", tag="ST1")).event
    assert event and event.reading and event.reading.within is None


def test_what_stands_is_listed_along_the_row() -> None:
    person = Person((1280, 800))
    person.app.open("thornbill")
    person.build(ALL_BUT_HAND_OVER)
    person.key("o")
    rows = [child.key for child in person.see("list", "Roof so far").children]
    assert rows == ["GT1", "ST1", "ST2", "ST3", "ST4", "ST5", "GT2"]


def test_last_found_goes_once_it_is_put_right() -> None:
    person = Person((1280, 800))
    person.app.open("thornbill")
    acts = [act for act in ALL_BUT_HAND_OVER if not isinstance(act, Brace)]
    second = [n for n, act in enumerate(acts) if isinstance(act, Stand)][1]
    person.build(acts[: second + 1])
    assert person.work.findings, "the first truss was let go unheld"
    assert person.sees("button", "Last found")
    for _time in range(12):
        if "ST5" in held_by_own(person.work.site):
            break
        assert person.sees("button", "Last found")
        person.work.do([person.work.session.hint()[0].action])
    person.work.close_note()
    person.wait(2)
    assert "ST5" in held_by_own(person.work.site) and not person.sees("button", "Last found")


def test_hints_are_counted_to_the_last() -> None:
    """Why it may be handed over is a hint as well."""
    session = Session(level_of("thornbill"), 1)
    session.replay(ALL_BUT_HAND_OVER)
    session.take_hint(1)
    session.do(HandOver())
    assert session.hint_depths == (1,)


def test_restrain_opens_with_nothing_typed_and_its_entries_first() -> None:
    person = at("restrain", (1280, 800), 1.5, "light")
    person.key("z")
    entries = [person.see("entry", name) for name in ("Begins: across", "Begins: up", "Ends: across", "Ends: up")]
    assert entries[0].rect.bottom <= 800
    person.work.hand.point = (0.0, 0.0)
    person.work.refresh()
    assert all(not person.see("entry", entry.name).value.startswith("0") for entry in entries)
    person.type(1200)
    assert person.work.hand.points[0] == (1200.0, 0.0), "the plan shows what is being typed"
    person.key("enter")
    assert "Press where it begins" in person.status, "the other measures are still to be typed"
