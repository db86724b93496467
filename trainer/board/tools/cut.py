"""Cut a truss somewhere."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import choice_of, chosen, do_it, heading
from trainer.board.tools.tool import DO_IT, Screen, TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import Cut
from trainer.site.model import Site
from trainer.terms import CUTS
from trainer.words import _

WHERES: tuple[str, ...] = get_args(Cut.model_fields["where"].annotation)


@dataclass
class CutTool(TrussTool[Cut]):
    """A press only chooses the truss: what is cut stays cut."""

    verb = "cut"
    key = "Shift X"
    first_words = _("Choose a truss, and where it is cut.")
    goes_to = DO_IT
    at_once = False

    where: str = WHERES[0]

    def actions(self) -> Wanted:
        if not self.hand.truss:
            return _("Choose the truss to cut.")
        return [Cut.model_validate({"tag": self.hand.truss, "where": self.where})]

    def aim_at(self, action: Cut) -> str:
        self.hand.truss, self.where = action.tag, action.where
        return ""

    def panel(self, screen: Screen) -> list[Widget]:
        where = choice_of(screen, _("Where"), self, "where", WHERES, CUTS)
        return [heading(_("Cut a truss")), chosen(self, standing=False), where, do_it(screen, _("Cut it"))]

    @classmethod
    def detail(cls, action: Cut, site: Site) -> str:
        return CUTS.get(action.where, action.where)
