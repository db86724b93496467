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


class _Words:
    """Which word is looked at; ``here`` are those on the screen."""

    def __init__(self, services: Services, here: Sequence[Term], term: Term | None) -> None:
        self.services = services
        self.terms = {t.name: t for t in (*here, *TERMS)}
        self.here = {t.name for t in here}
        self.chosen = term.name if term is not None else next(iter(self.terms))

    def choose(self, name: str) -> None:
        """Look at a word."""
        self.chosen = name
        self.services.ui.refresh()

    def dialog(self) -> Widget:
        """Return the word's picture and meaning, and the list of all."""
        look = self.services.look
        term = self.terms[self.chosen]
        rows = [
            Row(name, name, second=_("on this screen") if name in self.here else "", drawing=partial(self._draw, t))
            for name, t in self.terms.items()
        ]
        listing = Listing(
            _("Trade words"), rows, self.chosen, self.choose, key="words/list", tall=True,
            show=3 if look.scale < 1.5 else 2,
        )  # fmt: skip
        image = Canvas(term.name, partial(self._draw, term), tall=150 if look.scale < 1.5 else 90, ground="panel")
        meaning = Prose([Paragraph(term.text, space=0)], key="words/text")
        about = Scroll(Column([image, meaning], gap=8), term.name)
        about.grows = False
        close = Button(_("Close"), self.services.close, kind="primary", shortcut="Esc", key="words/close")
        head = term.name.capitalize()
        return dialog(_("Trade words"), [about, listing, close], head=head, gap=10, first="words/list")

    def _draw(self, term: Term, surface: pygame.Surface, rect: pygame.Rect) -> None:
        high = min(rect.height, round(rect.width / SHAPE))
        drawn = picture(self.services.look, term.picture, (round(high * SHAPE), high))
        surface.blit(drawn, (rect.centerx - drawn.get_width() // 2, rect.centery - high // 2))


def words_dialog(services: Services, here: Sequence[Term], term: Term | None = None) -> None:
    """Show the trade words; ``term`` is the one asked for, else the first that is on the screen."""
    services.ask(_Words(services, here, term).dialog)
