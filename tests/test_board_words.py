"""The trade words: each has a picture and a plain meaning, and is reached from any text it stands in."""

import re

from board_person import Person

from trainer.board.glossary import TERMS, Term, met_in, term_of, words_in
from trainer.board.look import THEMES
from trainer.board.widgets import Prose
from trainer.picture.palette import PALETTE_FILE, parse_palettes
from trainer.shipped import art_path
from trainer.terms import KIND_NAMES
from trainer.words import CAUTION

LONGEST = 15
"""Words in a sentence for learners, at most."""


def picture_of(term: Term) -> str:
    return art_path(f"{term.picture}.svg").read_text(encoding="utf-8")


def test_a_word_has_a_picture_and_short_plain_sentences() -> None:
    for term in TERMS:
        svg = picture_of(term)
        assert svg.startswith("<svg") and svg.count("<") > 3, term.name
        for sentence in re.findall(r"[^.]+", term.text):
            assert len(sentence.split()) <= LONGEST, term.name


def test_a_picture_uses_only_colours_of_the_palette_so_that_every_theme_can_draw_it() -> None:
    palettes = parse_palettes(art_path(PALETTE_FILE).read_text(encoding="utf-8"))
    for term in TERMS:
        used = set(re.findall(r"#[0-9a-f]{6}", picture_of(term)))
        assert used and used <= set(palettes[THEMES[0]].values()), term.name


def test_every_word_of_the_trade_brief_that_is_met_on_the_board_is_there() -> None:
    """Every kind of truss, and the words that stand in the job sheet's headings and lines (common practice)."""
    for name in KIND_NAMES.values():
        assert term_of(name), name
    for word in ("overhang", "heel", "setback", "station", "hanger", "tie-down strap", "nailplate", "steel brace"):
        assert term_of(word), word


def test_no_form_belongs_to_two_words() -> None:
    forms = [form for term in TERMS for form in term.forms]
    assert len(forms) == len(set(forms))


def test_the_longest_word_is_found_and_parts_of_words_are_not() -> None:
    found = [term.name for _a, _b, term in words_in("Truncated girders carry hip trusses; ship shape, rowing.")]
    assert found == ["truncated girder", "hip truss"]
    assert [term.name for term in met_in(["webs and Webs", "a string line"])] == ["string line", "web"]
    assert words_in(CAUTION) == ()


def test_a_word_pressed_on_in_a_text_shows_its_picture() -> None:
    person = Person()
    person.app.open("wren")
    person.wait(3)
    sheet = next(w for w in person.work.roots["side"].walk() if isinstance(w, Prose))
    spot = next(
        (x, y)
        for y in range(sheet.visible_rect().top + 5, sheet.visible_rect().bottom, 6)
        for x in range(sheet.rect.left + 4, sheet.rect.right, 12)
        if sheet.word_at(person.app.ui, (x, y)).casefold() == "saddle trusses"
    )
    person.click(spot)
    assert person.see("region", "Trade words")
    assert person.see("heading", "Saddle truss")
    assert person.see("image", "saddle truss")
    person.key("esc")
    assert not person.app.asking


def test_by_keyboard_the_words_on_the_screen_come_first() -> None:
    person = Person()
    person.app.open("wren")
    person.wait(3)
    person.key("f8")
    rows = [row.name for row in person.see("list", "Trade words").children]
    assert len(rows) == len(TERMS)
    here = [row for row in rows if row.endswith("on this screen")]
    assert 8 < len(here) < len(TERMS)
    assert rows[: len(here)] == here
    person.key("down")
    assert person.see("heading", rows[1].removesuffix(" on this screen").capitalize())
