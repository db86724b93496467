"""Cut a truss somewhere."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import Screen, choice_of, chosen
from trainer.board.tools.tool import TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import Cut
from trainer.site.model import Site
from trainer.terms import CUTS
from trainer.words import _

WHERES: tuple[str, ...] = get_args(Cut.model_fields["where"].annotation)


@dataclass
class CutTool(TrussTool[Cut]):
    """A press only chooses the truss: what is cut stays cut."""

    key = "Shift X"
    first_words = _("Choose a truss, and where it is cut.")
    title = _("Cut a truss")
    button = _("Cut it")
    at_once = False

    where: str = WHERES[0]

    def actions(self) -> Wanted:
        if not self.hand.truss:
            return _("Choose the truss to cut.")
        return [self.action(tag=self.hand.truss)]

    def controls(self, screen: Screen) -> list[Widget]:
        return [chosen(self.hand, standing=False), choice_of(screen, _("Where"), self, "where", WHERES, CUTS)]

    @classmethod
    def detail(cls, action: Cut, site: Site) -> str:
        return CUTS.get(action.where, action.where)
