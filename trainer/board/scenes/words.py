"""The trade words in pictures: those on the screen first, and any of them by its name."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import pygame

from trainer.board.glossary import TERMS, Term
from trainer.board.icons import picture
from trainer.board.services import Services
from trainer.board.widgets import (
    Button,
    Canvas,
    Column,
    LineEntry,
    Listing,
    Paragraph,
    Prose,
    Row,
    Scroll,
    Widget,
    dialog,
)
from trainer.words import _

SHAPE = 240 / 140
"""Width of a picture of a word to its height."""
LARGE_TEXT = 1.5
"""From this size of text on there is room for few words under each other."""
TYPED = "words/typed"
"""Key of the line in which letters of a word are typed."""


class _Words:
    """Which word is looked at; ``here`` are those on the screen."""

    def __init__(self, services: Services, here: Sequence[Term], term: Term | None) -> None:
        self.services = services
        self.terms = {t.name: t for t in (*here, *TERMS)}
        self.here = {t.name for t in here}
        self.chosen = term.name if term is not None else next(iter(self.terms))
        self.typed = ""

    def found(self) -> list[str]:
        """Return the words that hold what was typed, in any of their forms; those that begin with it first."""
        typed = self.typed.casefold().strip()
        names = [n for n, t in self.terms.items() if any(typed in form.casefold() for form in t.forms)]
        return sorted(names, key=lambda name: bool(typed) and not name.casefold().startswith(typed))

    def write(self, typed: str) -> None:
        """Keep to the words that hold what is typed, and look at the first of them."""
        self.typed = typed
        if (found := self.found()) and self.chosen not in found[:1]:
            self.chosen = found[0]

    def step(self, by: int) -> None:
        """Look at the next of the words found, or the one before."""
        found = self.found()
        if found:
            now = found.index(self.chosen) if self.chosen in found else 0
            self.choose(found[max(0, min(len(found) - 1, now + by))])

    def choose(self, name: str) -> None:
        """Look at a word."""
        self.chosen = name
        self.services.ui.refresh()

    def dialog(self) -> Widget:
        """Return the word's picture and meaning, and the list of all."""
        look = self.services.look
        term = self.terms[self.chosen]
        small = look.scale < LARGE_TEXT
        here = _("on this screen")
        rows = [
            Row(name, name, second=here if name in self.here else "", drawing=partial(self._draw, self.terms[name]))
            if small else Row(name, name, here if name in self.here else "")
            for name in self.found()
        ]  # fmt: skip
        listing = Listing(
            _("Trade words"), rows, self.chosen, self.choose, key="words/list", tall=small, show=5 if small else 2,
            empty=_("No trade word here has these letters."),
        )  # fmt: skip
        field = LineEntry(_("Type some letters of a word"), self.typed, self.write, key=TYPED, step=self.step)
        image = Canvas(term.name, partial(self._draw, term), tall=150 if small else 90, ground="panel")
        meaning = Prose([Paragraph(term.text, space=0)], key="words/text")
        about = Scroll(Column([image, meaning], gap=8), term.name)
        about.grows = False
        close = Button(_("Close"), self.services.close, kind="primary", shortcut="Esc", key="words/close")
        head, pad = term.name.capitalize(), 24 if small else 12
        parts = [about, field, listing, close]
        return dialog(_("Trade words"), parts, head=head, gap=10, pad=pad, first="words/list")

    def _draw(self, term: Term, surface: pygame.Surface, rect: pygame.Rect) -> None:
        high = min(rect.height, round(rect.width / SHAPE))
        drawn = picture(self.services.look, term.picture, (round(high * SHAPE), high))
        surface.blit(drawn, (rect.centerx - drawn.get_width() // 2, rect.centery - high // 2))


def words_dialog(services: Services, here: Sequence[Term], term: Term | None = None) -> None:
    """Show the trade words; ``term`` is the one asked for, else the first that is on the screen."""
    services.ask(_Words(services, here, term).dialog)
