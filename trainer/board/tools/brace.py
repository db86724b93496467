"""Put temporary bracing on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import Screen, choice, chosen, entry, faint, row
from trainer.board.tools.picking import PickingTool
from trainer.board.tools.tool import Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import LEAST_EVERY, MOST_EVERY, Brace, BraceKind
from trainer.site.bracing import TYING
from trainer.site.model import Site
from trainer.terms import thing
from trainer.words import _

KINDS: tuple[BraceKind, ...] = get_args(BraceKind)
KIND_NAMES: dict[BraceKind, str] = {
    "solid": _("solid: one truss to something that can't move"),
    "batten": _("batten: one truss to another"),
    "steel brace": _("steel brace: along the tops"),
    "diagonal": _("diagonal: across several"),
    "prop": _("prop: under one truss"),
    "wall tie": _("wall tie: one top to a higher wall, for good"),
}


def kind_in_words(kind: str, every: int | None) -> str:
    """Say what bracing is; of battens, how far apart their rows are, where that was given."""
    said = thing(kind)
    return said if every is None else _("{kind}, rows every {every} mm").format(kind=said, every=every)


@dataclass
class BraceTool(PickingTool[Brace]):
    """``every`` is the gap between rows of battens, mm, 0 before it is given."""

    verb = "brace"
    makes = Brace
    key = "B"
    first_words = _("Choose a truss that stands. C changes the kind of brace.")
    title = _("Brace")
    button = _("Brace it")
    wanting = _("Choose a standing truss to brace.")
    only_standing = True

    kind: BraceKind = "solid"
    every: int = 0

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
            return [Brace(kind=self.kind, tags=(self.hand.truss,))] if self.hand.stands else self.wanting
        if len(self.picked) < 2:
            return _("Choose two standing trusses for the {kind}.").format(kind=self.kind)
        if self.kind != "batten":
            return [Brace(kind=self.kind, tags=self.picked)]
        if not LEAST_EVERY <= self.every <= MOST_EVERY:
            return _("Type how far apart the rows of battens go. The job sheet says how much they may be.")
        return [Brace(kind=self.kind, tags=self.picked, every=self.every)]

    def aim_at(self, action: Brace) -> str:
        self.picked, self.hand.truss = action.tags, action.tags[0]
        return super().aim_at(action)

    def after(self, action: Brace) -> None:
        """A batten is mostly followed by the next one along the row."""
        self.picked = self.picked[-1:] if self.pair else ()

    def controls(self, screen: Screen) -> list[Widget]:
        kind = choice(
            screen, _("With"), [KIND_NAMES[kind] for kind in KINDS], KINDS.index(self.kind),
            lambda i: self.change_kind(KINDS[i]), key="kind", shortcut="C",
        )  # fmt: skip
        rows = [] if self.kind != "batten" else [
            entry(screen, _("A row every"), self.every, lambda mm: setattr(self, "every", round(mm)), nudge=300.0)
        ]  # fmt: skip
        what = chosen(self.hand)
        if self.picks:
            text = _("Picked: {tags}. Pick two that stand.") if self.pair else _("Picked: {tags}.")
            what = faint(text.format(tags=self.picked_in_words))
        return [row(kind, *rows), what]

    @classmethod
    def detail(cls, action: Brace, site: Site) -> str:
        return kind_in_words(action.kind, action.every)
