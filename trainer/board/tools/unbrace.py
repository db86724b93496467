"""Take a piece of temporary bracing off again."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.brace import kind_in_words
from trainer.board.tools.panel import Screen, faint
from trainer.board.tools.tool import TrussTool, Wanted
from trainer.board.widgets import Row, Widget
from trainer.plan import Point
from trainer.site.actions import Unbrace
from trainer.site.model import Bracing, Site
from trainer.terms import thing
from trainer.words import _


def piece_in_words(piece: Bracing) -> str:
    """Say a piece of bracing: its kind and the trusses it is on."""
    return f"{kind_in_words(piece.kind, piece.every)}: {' – '.join(piece.tags)}"


@dataclass
class UnbraceTool(TrussTool[Unbrace]):
    """Its list has the bracing that is on; ``piece`` is the one chosen there, -1 the last one put on."""

    verb = "unbrace"
    makes = Unbrace
    key = "Shift B"
    first_words = _("Choose the piece of bracing to take off.")
    title = _("Take bracing off")
    button = _("Take it off")
    wanting = _("There is no bracing to take off.")
    list_name = _("Bracing")
    list_empty = _("No bracing is on yet.")
    at_once = False

    piece: int = -1

    @property
    def bracing(self) -> Bracing | None:
        """The piece that is chosen: the last one put on, until another is."""
        pieces = self.site.bracing
        if not pieces:
            return None
        return pieces[self.piece if -len(pieces) <= self.piece < len(pieces) else -1]

    def take_up(self) -> None:
        self.piece = -1

    def actions(self) -> Wanted:
        piece = self.bracing
        if piece is None:
            return self.wanting
        return [self.action(kind=piece.kind, tags=piece.tags, every=piece.every)]

    def aim_at(self, action: Unbrace) -> str:
        pieces = self.site.bracing
        same = [i for i, p in enumerate(pieces) if (p.kind, set(p.tags)) == (action.kind, set(action.tags))]
        self.piece = min(same, key=lambda i: pieces[i].every != action.every, default=-1)
        return ""

    def after(self, action: Unbrace) -> None:
        self.piece = -1

    def controls(self, screen: Screen) -> list[Widget]:
        return [faint(piece_in_words(self.bracing) if self.bracing else self.wanting)]

    def press_truss(self, place: Point, tag: str) -> None:
        super().press_truss(place, tag)
        pieces = list(enumerate(self.site.bracing))
        self.piece = next((i for i, piece in reversed(pieces) if tag in piece.tags), -1)

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        """The list goes from piece to piece, and not the arrows from truss to truss."""

    @property
    def ringed(self) -> frozenset[str]:
        return frozenset(self.bracing.tags) if self.bracing else frozenset()

    def rows(self) -> list[Row]:
        return [
            Row(str(i), " – ".join(piece.tags), second=thing(piece.kind)) for i, piece in enumerate(self.site.bracing)
        ]

    @property
    def row(self) -> str:
        return str(self.piece % len(self.site.bracing)) if self.site.bracing else ""

    def choose_row(self, row: str) -> None:
        self.piece = int(row)

    @classmethod
    def detail(cls, action: Unbrace, site: Site) -> str:
        return kind_in_words(action.kind, action.every)
