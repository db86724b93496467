"""Say where the first packs are to land, or put a load on the roof."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import Screen, choice, choice_of
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import Load, Pattern
from trainer.site.model import Site
from trainer.terms import LOADS, THINGS, thing
from trainer.words import _

LOAD_KINDS: tuple[str, ...] = get_args(Load.model_fields["what"].annotation)
PATTERNS: tuple[str, ...] = ("", *get_args(Pattern))
PATTERN_NAMES = {**THINGS, "": _("not said yet")}


@dataclass
class LoadTool(Tool[Load]):
    """It is aimed at the roof as a whole. ``later`` is whether it only says where the first packs are to land."""

    key = "Shift I"
    of_site = True
    first_words = _("Say where the first packs land once the roof is handed over. Or load it now.")
    button = _("Load it")

    what: str = LOAD_KINDS[0]
    pattern: str = ""
    later: bool = True

    def actions(self) -> Wanted:
        if not self.later:
            return [self.action(pattern=None)]
        if not self.pattern:
            return _("Choose where the first packs land.")
        return [self.action(what="packs")]

    def aim_at(self, action: Load) -> str:
        self.later = action.pattern is not None
        return super().aim_at(action)

    @property
    def title(self) -> str:
        return _("Where the first packs land") if self.later else _("Load the roof")

    @property
    def button_name(self) -> str:
        return _("Say so") if self.later else self.button

    def controls(self, screen: Screen) -> list[Widget]:
        when = choice(
            screen, _("When"), [_("after hand-over"), _("now")], int(not self.later),
            lambda i: setattr(self, "later", i == 0), key="later", shortcut="W",
        )  # fmt: skip
        if self.later:
            return [when, choice_of(screen, _("They land"), self, "pattern", PATTERNS, PATTERN_NAMES)]
        return [when, choice_of(screen, _("With"), self, "what", LOAD_KINDS, LOADS)]

    @classmethod
    def detail(cls, action: Load, site: Site) -> str:
        return thing(action.pattern) if action.pattern else LOADS.get(action.what, action.what)
