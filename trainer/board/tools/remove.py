"""Take a truss down again."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import do_it, faint, heading
from trainer.board.tools.tool import Screen, TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import Remove
from trainer.words import _


@dataclass
class RemoveTool(TrussTool[Remove]):
    """It has nothing but the truss that is chosen."""

    verb = "remove"
    key = "R"
    first_words = _("Choose a truss that stands.")
    only_standing = True

    def actions(self) -> Wanted:
        return [Remove(tag=self.hand.truss)] if self.hand.stands else _("Choose a standing truss to take down.")

    def aim_at(self, action: Remove) -> str:
        self.hand.truss = action.tag
        return ""

    def after(self, action: Remove) -> None:
        self.hand.truss = ""

    def panel(self, screen: Screen) -> list[Widget]:
        head = _("Take {tag} down").format(tag=self.hand.truss) if self.hand.stands else _("Take a truss down")
        advice = _("Its bracing and fixings come off with it.") if self.hand.stands else _("Choose a standing truss.")
        return [heading(head), faint(advice), do_it(screen, _("Take it down"))]
