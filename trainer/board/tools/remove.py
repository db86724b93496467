"""Take a truss down again."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import Screen, faint
from trainer.board.tools.tool import TrussTool
from trainer.board.widgets import Widget
from trainer.site.actions import Remove
from trainer.words import _


@dataclass
class RemoveTool(TrussTool[Remove]):
    """It has nothing but the truss that is chosen."""

    key = "R"
    first_words = _("Choose a truss that stands.")
    button = _("Take it down")
    wanting = _("Choose a standing truss to take down.")
    only_standing = True

    def after(self, action: Remove) -> None:
        self.hand.truss = ""

    @property
    def title(self) -> str:
        return _("Take {tag} down").format(tag=self.hand.truss) if self.hand.stands else _("Take a truss down")

    def controls(self, screen: Screen) -> list[Widget]:
        advice = _("Its bracing and fixings come off with it.") if self.hand.stands else _("Choose a standing truss.")
        return [faint(advice)]
