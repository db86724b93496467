"""Put a load on the roof."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import choice_of, do_it, heading
from trainer.board.tools.tool import Screen, Tool, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import Load
from trainer.site.model import Site
from trainer.terms import LOADS
from trainer.words import _

LOAD_KINDS: tuple[str, ...] = get_args(Load.model_fields["what"].annotation)


@dataclass
class LoadTool(Tool[Load]):
    """It is aimed at the roof as a whole."""

    verb = "load"
    key = "Shift L"
    first_words = _("Choose what goes on the roof.")

    what: str = LOAD_KINDS[0]

    def actions(self) -> Wanted:
        return [Load.model_validate({"what": self.what})]

    def aim_at(self, action: Load) -> str:
        self.what = action.what
        return ""

    def panel(self, screen: Screen) -> list[Widget]:
        what = choice_of(screen, _("With"), self, "what", LOAD_KINDS, LOADS)
        return [heading(_("Load the roof")), what, do_it(screen, _("Load it"))]

    @classmethod
    def detail(cls, action: Load, site: Site) -> str:
        return LOADS.get(action.what, action.what)
