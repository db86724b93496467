"""Put temporary bracing on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from trainer.board.tools.panel import MEASURE, Screen, choice, chosen, entry, faint, row
from trainer.board.tools.picking import PickingTool
from trainer.board.tools.tool import Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import LEAST_EVERY, MOST_EVERY, Brace, BraceKind
from trainer.site.bracing import TYING
from trainer.site.model import Event, Site
from trainer.terms import thing
from trainer.words import _

KINDS: tuple[BraceKind, ...] = get_args(BraceKind)
KIND_NAMES: dict[BraceKind, str] = {
    "solid": _("solid: one truss to a braced wall or the floor"),
    "batten": _("batten: ties one truss to the next"),
    "steel brace": _("steel brace: along the tops"),
    "diagonal": _("diagonal: across several"),
    "prop": _("prop: under one truss"),
    "wall tie": _("wall tie: one top to a higher wall, for good"),
}


ROWS = tuple(2400.0 + 300.0 * n for n in range(5))
"""Where the gap between rows of battens stops when it is stepped up, mm: for nearer rows it is typed, or stepped down
to.
"""
GAP_FIRST = _("First type how far apart the rows go, as the job sheet says. It stays for the trusses that follow.")
PICK_TWO = _("Pick two trusses that stand: press on them, or Space picks in the list.")
HOLDS: tuple[str, ...] = (_("the ground, the floor or a braced wall"), _("the verandah beam"))
"""What a solid brace can be fixed to, where there is a beam."""


def kind_in_words(kind: str, every: int | None, to: str | None = None) -> str:
    """Say what bracing is; of battens, how far apart their rows are, where that was given."""
    said = thing(kind) if to is None else _("{kind}, to the verandah beam").format(kind=thing(kind))
    return said if every is None else _("{kind}, rows every {every} mm").format(kind=said, every=every)


@dataclass
class BraceTool(PickingTool[Brace]):
    """``every`` is the gap between rows of battens, mm, 0 before it is given; ``on_beam``: a solid brace is fixed to a
    verandah beam.
    """

    key = "B"
    first_words = _("Choose a truss that stands. C changes the kind of brace.")
    title = _("Brace")
    button = _("Brace it")
    wanting = _("Choose a standing truss to brace.")
    only_standing = True

    kind: BraceKind = "solid"
    every: int = 0
    on_beam: bool = False

    @property
    def picks(self) -> bool:
        return self.kind in TYING

    @property
    def pair(self) -> bool:
        return self.kind == "batten"

    def change_kind(self, kind: BraceKind) -> None:
        """Take another kind, with nothing picked for it yet."""
        self.kind, self.picked = kind, ()

    def fix_to(self, number: int) -> None:
        """Fix a solid brace to what has this number in ``HOLDS``."""
        self.on_beam = bool(number)

    def actions(self) -> Wanted:
        if not self.picks:
            to: Literal["beam"] | None = "beam" if self.on_beam and self.kind == "solid" else None
            return [Brace(kind=self.kind, tags=(self.hand.truss,), to=to)] if self.hand.stands else self.wanting
        if len(self.picked) < 2:
            return _("Choose two standing trusses for the {kind}.").format(kind=self.kind)
        if self.kind != "batten":
            return [Brace(kind=self.kind, tags=self.picked)]
        if not LEAST_EVERY <= self.every <= MOST_EVERY:
            return _("Type how far apart the rows of battens go. The job sheet says how much they may be.")
        return [Brace(kind=self.kind, tags=self.picked, every=self.every)]

    def pick(self, screen: Screen, tag: str) -> None:
        """Pick a truss; where only the gap between rows of battens is missing then, go to where it is typed."""
        super().pick(screen, tag)
        if self.pair and len(self.picked) > 1 and not self.every:
            screen.focus_on(MEASURE)

    def aim_at(self, action: Brace) -> str:
        self.picked, self.hand.truss = action.tags, action.tags[0]
        self.on_beam = action.to is not None
        return super().aim_at(action)

    def after(self, action: Brace) -> None:
        super().after(action)
        self.on_beam = False

    def controls(self, screen: Screen) -> list[Widget]:
        kind = choice(
            screen, _("With"), [KIND_NAMES[kind] for kind in KINDS], KINDS.index(self.kind),
            lambda i: self.change_kind(KINDS[i]), key="kind", shortcut="C",
        )  # fmt: skip
        rows: list[Widget] = [] if self.kind != "batten" else [
            entry(
                screen, _("A row every"), self.every, lambda mm: setattr(self, "every", round(mm)), nudge=300.0,
                stops=ROWS, blank=not self.every,
            )
        ]  # fmt: skip
        if self.kind == "solid" and self.site.layout.house.plan.beams:
            rows = [choice(screen, _("To"), HOLDS, int(self.on_beam), self.fix_to, key="to")]
        if not self.picks:
            return [row(kind, *rows), chosen(self.hand)]
        picked = faint(_("Picked: {tags}.").format(tags=self.picked_in_words))
        gap_first = [faint(GAP_FIRST)] if self.pair and not self.every else []
        return [*([faint(PICK_TWO)] if self.pair else []), row(kind, *rows), *gap_first, picked]

    @classmethod
    def reading(cls, event: Event) -> str:
        """Say of a prop what it does and what it doesn't."""
        if isinstance(event.action, Brace) and event.action.kind == "prop":
            return _("A prop carries an extension. It keeps no row from going over: that takes a brace or a tie.")
        return super().reading(event)

    @classmethod
    def detail(cls, action: Brace, site: Site) -> str:
        return kind_in_words(action.kind, action.every, action.to)
