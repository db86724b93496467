"""Put a load on the roof."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import Screen, choice_of
from trainer.board.tools.tool import Tool
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
    makes = Load
    key = "Shift L"
    first_words = _("Choose what goes on the roof.")
    title = _("Load the roof")
    button = _("Load it")

    what: str = LOAD_KINDS[0]

    def controls(self, screen: Screen) -> list[Widget]:
        return [choice_of(screen, _("With"), self, "what", LOAD_KINDS, LOADS)]

    @classmethod
    def detail(cls, action: Load, site: Site) -> str:
        return LOADS.get(action.what, action.what)
