"""Put temporary bracing on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import choice, chosen, do_it, entry, faint, heading, row
from trainer.board.tools.picking import PickingTool
from trainer.board.tools.tool import Screen, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import LEAST_EVERY, MOST_EVERY, Brace, BraceKind, Unbrace
from trainer.site.bracing import TYING
from trainer.site.model import Bracing, Site
from trainer.terms import thing
from trainer.words import _

KINDS: tuple[BraceKind, ...] = get_args(BraceKind)
KIND_NAMES: dict[BraceKind, str] = {
    "solid": _("solid: one truss to something that can't move"),
    "batten": _("batten: one truss to another"),
    "steel brace": _("steel brace: along the tops"),
    "diagonal": _("diagonal: across several"),
    "prop": _("prop: under one truss"),
}


def kind_in_words(piece: Bracing | Brace | Unbrace) -> str:
    """Say what bracing is; of battens, how far apart their rows are, where that was given."""
    kind = thing(piece.kind)
    return kind if piece.every is None else _("{kind}, rows every {every} mm").format(kind=kind, every=piece.every)


@dataclass
class BraceTool(PickingTool[Brace]):
    """``rows_every`` is the gap between rows of battens, mm, 0 before it is given."""

    verb = "brace"
    key = "B"
    first_words = _("Choose a truss that stands. C changes the kind of brace.")
    only_standing = True

    kind: BraceKind = "solid"
    rows_every: int = 0

    @property
    def picks(self) -> bool:
        return self.kind in TYING

    @property
    def pair(self) -> bool:
        return self.kind == "batten"

    def change_kind(self, kind: BraceKind) -> None:
        """Take another kind, with nothing picked for it yet."""
        self.kind, self.picked = kind, ()

    def actions(self) -> Wanted:
        if not self.picks:
            if not self.hand.stands:
                return _("Choose a standing truss to brace.")
            return [Brace(kind=self.kind, tags=(self.hand.truss,))]
        if len(self.picked) < 2:
            return _("Choose two standing trusses for the {kind}.").format(kind=self.kind)
        if self.kind != "batten":
            return [Brace(kind=self.kind, tags=self.picked)]
        if not LEAST_EVERY <= self.rows_every <= MOST_EVERY:
            return _("Type how far apart the rows of battens go. The job sheet says how much they may be.")
        return [Brace(kind=self.kind, tags=self.picked, every=self.rows_every)]

    def aim_at(self, action: Brace) -> str:
        self.kind, self.picked, self.hand.truss = action.kind, action.tags, action.tags[0]
        self.rows_every = action.every or self.rows_every
        return ""

    def after(self, action: Brace) -> None:
        """A batten is mostly followed by the next one along the row."""
        self.picked = self.picked[-1:] if self.pair else ()

    def panel(self, screen: Screen) -> list[Widget]:
        kind = choice(
            screen, _("With"), [KIND_NAMES[kind] for kind in KINDS], KINDS.index(self.kind),
            lambda i: self.change_kind(KINDS[i]), key="kind", shortcut="C",
        )  # fmt: skip
        rows = [] if self.kind != "batten" else [
            entry(screen, _("A row every"), self.rows_every, self._put_rows, nudge=300.0)
        ]  # fmt: skip
        what = chosen(self)
        if self.picks:
            text = _("Picked: {tags}. Pick two that stand.") if self.pair else _("Picked: {tags}.")
            what = faint(text.format(tags=self.picked_in_words))
        return [heading(_("Brace")), row(kind, *rows), what, do_it(screen, _("Brace it"))]

    def _put_rows(self, every: float) -> None:
        self.rows_every = round(every)

    @classmethod
    def detail(cls, action: Brace, site: Site) -> str:
        return kind_in_words(action)
