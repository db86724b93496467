"""The widget layer by itself: what entries, choices, lists, texts and scrolling panels do with keys and the mouse."""

import os

os.environ.setdefault("SDL_VIDEODRIVER", "dummy")

import random
from itertools import pairwise

import pygame
import pytest

from trainer.board.look import Look
from trainer.board.widgets import Choice, Column, Flow, Label, Listing, NumberEntry, Paragraph, Prose, Row, Scroll, Ui
from trainer.board.widgets.base import control_height
from trainer.board.widgets.line import LineEntry, TextEntry
from trainer.board.window import palettes

TEXT = "a truss stands on its station the right way round straight plumb braced and tied down ready for inspection"
WORDS = TEXT.split(" ")


@pytest.fixture
def ui() -> Ui:
    pygame.display.init()
    return Ui(Look(palettes()), lambda: None)


def press(key: int, typed: str = "", mod: int = 0) -> pygame.event.Event:
    return pygame.event.Event(pygame.KEYDOWN, key=key, mod=mod, unicode=typed)


def type_into(ui: Ui, entry: NumberEntry, text: str) -> None:
    ui.focus = entry.key
    for char in text:
        assert entry.on_key(ui, press(ord(char), char))


@pytest.mark.parametrize(
    ("typed", "taken"),
    [
        ("1800", 1800.0),
        ("7165.5", 7165.5),
        ("7165,5", 7165.5),
        ("-35", -35.0),
        ("0", 0.0),
        ("12.26", 12.5),
        ("99999999", 200_000.0),
    ],
)
def test_an_entry_takes_what_is_typed(ui: Ui, typed: str, taken: float) -> None:
    got: list[float] = []
    entered: list[bool] = []
    entry = NumberEntry("Along it", 600, got.append, enter=lambda: entered.append(True))
    type_into(ui, entry, typed)
    assert got == []
    assert entry.on_key(ui, press(pygame.K_RETURN))
    assert got == [taken] and entered == [True]


@pytest.mark.parametrize("typed", ["-", ".", "1-2", "1.2.3", ",,"])
def test_an_entry_leaves_what_is_no_number(ui: Ui, typed: str) -> None:
    got: list[float] = []
    entry = NumberEntry("Along it", 600, got.append)
    type_into(ui, entry, typed)
    entry.on_key(ui, press(pygame.K_RETURN))
    assert got == [] and entry.value == "600 mm"


def test_an_entry_leaves_letters_to_shortcuts_and_escape_drops_what_was_typed(ui: Ui) -> None:
    got: list[float] = []
    entry = NumberEntry("Along it", 600, got.append)
    type_into(ui, entry, "18")
    assert not entry.on_key(ui, press(pygame.K_t, "t"))
    assert entry.on_key(ui, press(pygame.K_ESCAPE))
    assert not entry.on_key(ui, press(pygame.K_ESCAPE))
    entry.commit(ui)
    assert got == []


def test_backspace_takes_the_last_figure_off(ui: Ui) -> None:
    got: list[float] = []
    entry = NumberEntry("Along it", 1800, got.append)
    ui.focus = entry.key
    entry.on_key(ui, press(pygame.K_BACKSPACE))
    entry.on_key(ui, press(pygame.K_5, "5"))
    entry.on_key(ui, press(pygame.K_RETURN))
    assert got == [1805.0 - 1800 + 1800]


def number_entry(ui: Ui, got: list[float]) -> NumberEntry:
    entry = NumberEntry("Along it", 600, got.append, nudge=10)
    entry.place(ui, pygame.Rect(0, 0, 220, entry.high(ui, 220)))
    return entry


def test_an_entry_is_nudged_by_arrows_and_its_two_ends_and_by_the_wheel_over_them(ui: Ui) -> None:
    got: list[float] = []
    entry = number_entry(ui, got)
    less, more = entry.steppers(ui)
    assert min(*less.size, *more.size) >= 24
    entry.on_key(ui, press(pygame.K_UP))
    entry.on_key(ui, press(pygame.K_DOWN, mod=pygame.KMOD_SHIFT))
    assert not entry.on_wheel(ui, -1, (5, 5)), "the wheel scrolls what the entry lies in"
    for stepper in (more, less):
        entry.on_press(ui, stepper.center, 1)
        entry.on_release(ui, stepper.center, 1)
    ui.focus = entry.key
    assert not entry.on_wheel(ui, -1, (5, 5))
    assert entry.on_wheel(ui, -1, less.center)
    assert got == [610, 500, 610, 590, 590]


def test_a_stepper_that_is_held_steps_again_and_again_and_then_faster(ui: Ui) -> None:
    got: list[float] = []
    entry = number_entry(ui, got)
    more = entry.steppers(ui)[1]
    entry.on_press(ui, more.center, 1)
    assert not entry.on_hold(ui, 100)
    for held_ms in range(400, 2000, 20):
        entry.on_hold(ui, held_ms)
    entry.on_release(ui, more.center, 1)
    assert got[0] == 610
    assert 20 <= len(got) <= 25
    assert got[-1] == 700, "ten times as far"
    entry.on_press(ui, (5, entry.box(ui).centery), 1)
    assert not entry.on_hold(ui, 1000), "only a stepper goes on by itself"


def test_a_number_is_mended_in_its_middle_by_a_caret(ui: Ui) -> None:
    got: list[float] = []
    entry = number_entry(ui, got)
    ui.focus = entry.key
    for key, typed in ((pygame.K_HOME, ""), (pygame.K_RIGHT, ""), (pygame.K_DELETE, ""), (pygame.K_5, "5")):
        assert entry.on_key(ui, press(key, typed))
    entry.on_key(ui, press(pygame.K_RETURN))
    assert got == [650]
    entry.on_press(ui, (entry.box(ui).left + 1, entry.box(ui).centery), 1)
    entry.on_key(ui, press(pygame.K_1, "1"))
    entry.on_key(ui, press(pygame.K_RETURN))
    assert got == [650, 1600]


class Field:
    """A line that somebody types in, made afresh after each key as a screen makes it."""

    def __init__(self, ui: Ui, text: str, entry: type[LineEntry] = LineEntry) -> None:
        self.ui, self.text, self.entry = ui, text, entry
        ui.focus = self.made().key

    def made(self) -> LineEntry:
        made = self.entry("Its name", self.text, self.take, key="name")
        made.place(self.ui, pygame.Rect(0, 0, 220, made.high(self.ui, 220)))
        return made

    def take(self, text: str) -> None:
        self.text = text

    def keys(self, *keys: int, mod: int = 0) -> None:
        for key in keys:
            assert self.made().on_key(self.ui, press(key, mod=mod))

    def type(self, text: str) -> None:
        for char in text:
            assert self.made().on_key(self.ui, press(ord(char), char))


def test_a_line_is_mended_in_its_middle(ui: Ui) -> None:
    field = Field(ui, "")
    field.type("roof")
    field.keys(pygame.K_LEFT, pygame.K_LEFT)
    field.type("o")
    field.keys(pygame.K_BACKSPACE, pygame.K_BACKSPACE)
    assert field.text == "rof"
    field.keys(pygame.K_HOME, pygame.K_DELETE)
    field.keys(pygame.K_END)
    field.type("ters")
    field.keys(pygame.K_HOME)
    field.type("ra")
    assert field.text == "raofters"
    field.keys(pygame.K_DELETE)
    assert field.text == "rafters"


def test_all_of_a_line_or_a_part_is_marked_and_typed_over(ui: Ui) -> None:
    field = Field(ui, "wren")
    field.keys(pygame.K_a, mod=pygame.KMOD_CTRL)
    field.type("owl nest")
    field.keys(*[pygame.K_LEFT] * 4, mod=pygame.KMOD_SHIFT)
    field.type("s")
    assert field.text == "owl s"
    field.keys(pygame.K_a, mod=pygame.KMOD_CTRL)
    field.keys(pygame.K_DELETE)
    assert field.text == ""
    field.keys(pygame.K_DELETE, pygame.K_BACKSPACE)


def test_a_press_puts_the_caret_between_the_letters_that_it_meets(ui: Ui) -> None:
    field = Field(ui, "wrn")
    entry = field.made()
    entry.on_press(ui, (entry.box(ui).left + ui.look.px(8) + ui.look.width("wr", "strong"), entry.box(ui).centery), 1)
    field.type("e")
    assert field.text == "wren"


def test_the_caret_of_a_long_line_stays_in_sight(ui: Ui) -> None:
    field = Field(ui, "a long line that is wider than its box by far")
    for key in (pygame.K_END, pygame.K_HOME, pygame.K_RIGHT):
        field.keys(key)
        seen = []
        for ui.focus in ("", "name"):
            surface = pygame.Surface((300, 100))
            ui.show_focus = False
            field.made().draw(ui, surface)
            seen.append(pygame.image.tobytes(surface, "RGB"))
        assert seen[0] != seen[1], "with the focus there is a caret"


def test_lines_are_gone_through_up_and_down(ui: Ui) -> None:
    field = Field(ui, "", TextEntry)
    field.type("ab")
    field.keys(pygame.K_RETURN)
    field.type("cd")
    field.keys(pygame.K_UP)
    field.type("x")
    assert field.text == "abx\ncd"
    field.keys(pygame.K_HOME)
    field.type("y")
    field.keys(pygame.K_DOWN, pygame.K_END)
    field.type("z")
    assert field.text == "yabx\ncdz"
    assert not field.made().on_key(ui, press(pygame.K_DOWN)), "there is no line below"


def test_a_choice_goes_round_both_ways(ui: Ui) -> None:
    got: list[int] = []
    choice = Choice("Wall", ["A", "B", "C"], 0, got.append)
    choice.place(ui, pygame.Rect(0, 0, 120, choice.high(ui, 120)))
    choice.on_key(ui, press(pygame.K_LEFT))
    choice.on_key(ui, press(pygame.K_RIGHT))
    choice.on_release(ui, (110, 40), 1)
    choice.on_release(ui, (10, 40), 1)
    assert got == [2, 1, 1, 2]


def rows(count: int) -> list[Row]:
    return [Row(str(i), f"Row {i}") for i in range(count)]


def test_a_list_follows_the_choice_and_the_wheel(ui: Ui) -> None:
    listing = Listing("Yard", rows(100), "60", lambda _row: None)
    high = control_height(ui) * 5
    listing.place(ui, pygame.Rect(0, 0, 300, high))
    assert listing.rect.contains(listing.row_rect(ui, 60))
    listing.on_wheel(ui, 3, (5, 5))
    assert not listing.rect.contains(listing.row_rect(ui, 60))
    again = Listing("Yard", rows(100), "60", lambda _row: None)
    again.place(ui, pygame.Rect(0, 0, 300, high))
    assert again.row_rect(ui, 60) == listing.row_rect(ui, 60), "a list made anew stays where it was scrolled to"


def test_each_row_of_a_list_is_as_high_as_its_own_words_and_is_taken_where_it_is(ui: Ui) -> None:
    taken: list[str] = []
    several = [Row("long", TEXT), *rows(4), Row("last", TEXT)]
    listing = Listing("Diary", several, "", lambda _row: None, take=taken.append, tall=True)
    listing.place(ui, pygame.Rect(0, 0, 300, 2000))
    places = [listing.row_rect(ui, index) for index in range(len(several))]
    assert all(above.bottom == below.top for above, below in pairwise(places))
    assert places[0].height == places[-1].height > places[1].height, "a short row has no room of a long one"
    for place in places:
        listing.on_press(ui, place.center, 1)
        listing.on_release(ui, place.center, 1)
    listing.on_press(ui, (5, places[-1].bottom), 1)
    listing.on_release(ui, (5, places[-1].bottom), 1)
    assert taken == [row.key for row in several], "and under the last there is none"


def test_a_list_follows_the_choice_when_the_rows_over_it_grow(ui: Ui) -> None:
    high = control_height(ui) * 5
    for grown in (rows(60), [Row(row.key, row.text, second=TEXT) for row in rows(60)]):
        listing = Listing("Drills", grown, "59", lambda _row: None, tall=True)
        listing.place(ui, pygame.Rect(0, 0, 300, high))
        assert listing.rect.contains(listing.row_rect(ui, 59))


def test_a_press_takes_the_row_that_was_pressed_even_if_choosing_scrolls(ui: Ui) -> None:
    taken: list[str] = []
    state = {"chosen": "0"}

    def made() -> Listing:
        listing = Listing(
            "Yard",
            rows(50),
            state["chosen"],
            lambda row: state.update(chosen=row),
            take=taken.append,
            carry=lambda _pos: None,
        )
        listing.place(ui, pygame.Rect(0, 0, 300, control_height(ui) * 5 + 20))
        return listing

    first = made()
    last_shown = (10, first.rect.bottom - 4)
    first.on_press(ui, last_shown, 1)
    made().on_release(ui, last_shown, 1)
    assert taken == ["5"]


@pytest.mark.parametrize("seed", range(12))
def test_wrapped_text_keeps_every_word_and_fits(ui: Ui, seed: int) -> None:
    dice = random.Random(seed)
    text = " ".join(dice.choices(WORDS, k=60))
    width = dice.randint(90, 500)
    ui.look.set("light", dice.choice((1.0, 1.5, 2.0)))
    lines = ui.look.wrap(text, "body", width)
    if max(ui.look.width(word, "body") for word in text.split()) <= width:
        assert " ".join(lines) == text
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert all(ui.look.width(line, "body") <= width for line in lines)


def test_a_word_wider_than_the_line_is_broken_not_cut(ui: Ui) -> None:
    label = Label("C:/a/very/long/path/that/has/no/spaces/in/it/at/all.yaml")
    label.place(ui, pygame.Rect(0, 0, 100, label.high(ui, 100)))
    label.draw(ui, pygame.Surface((200, 400)))
    assert not label.cut
    assert label.high(ui, 100) > 3 * ui.look.line("body")


def test_a_label_without_room_says_that_it_is_cut(ui: Ui) -> None:
    label = Label("One line and another and another")
    label.place(ui, pygame.Rect(0, 0, 100, ui.look.line("body")))
    label.draw(ui, pygame.Surface((200, 400)))
    assert label.cut


def test_prose_says_its_text_without_marks(ui: Ui) -> None:
    prose = Prose([Paragraph("Pitch **22.5°**, **no** more."), Paragraph("Heel **90** mm.", bullet="–")])
    assert prose.value == "Pitch 22.5°, no more.\n– Heel 90 mm."
    assert prose.high(ui, 80) > prose.high(ui, 400)


def test_a_panel_scrolls_by_keys_and_wheel_as_far_as_there_is_text(ui: Ui) -> None:
    text = Prose([Paragraph(" ".join(WORDS * 20))])
    scroll = Scroll(text, "Job sheet")

    def placed() -> int:
        scroll.place(ui, pygame.Rect(0, 0, 300, 200))
        return text.rect.top

    assert placed() == 0 and scroll.reachable()
    scroll.on_key(ui, press(pygame.K_END))
    assert placed() == -scroll.overflow
    assert text.rect.top + text.high(ui, text.rect.width) <= 200 + 1
    assert not scroll.on_wheel(ui, -1, (5, 5))
    scroll.on_key(ui, press(pygame.K_HOME))
    assert placed() == 0
    scroll.on_wheel(ui, -2, (5, 5))
    assert placed() < 0


def test_a_panel_with_room_enough_is_no_stop(ui: Ui) -> None:
    scroll = Scroll(Label("Short."), "Note")
    scroll.place(ui, pygame.Rect(0, 0, 300, 200))
    assert not scroll.reachable() and scroll.value == "all shown"


def test_what_grows_takes_the_room_that_is_left(ui: Ui) -> None:
    listing = Listing("Yard", rows(30), "", lambda _row: None)
    top, foot = Label("Top"), Label("Foot")
    Column([top, listing, foot], gap=10).place(ui, pygame.Rect(0, 0, 200, 600))
    assert top.rect.top == 0 and foot.rect.bottom == 600
    assert listing.rect.height == 600 - top.rect.height - foot.rect.height - 2 * ui.look.px(10)


def test_a_flow_goes_on_in_the_next_line(ui: Ui) -> None:
    labels = [Label(word * 3) for word in WORDS[:8]]
    flow = Flow(labels)
    flow.place(ui, pygame.Rect(0, 0, 180, flow.high(ui, 180)))
    assert all(label.rect.left >= 0 and label.rect.right <= 180 + 1 for label in labels)
    assert len({label.rect.top for label in labels}) > 1
    assert max(label.rect.bottom for label in labels) <= flow.rect.bottom
