"""Straighten a truss: line and plumb."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import chosen, do_it, heading
from trainer.board.tools.tool import Screen, TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.site.actions import Plumb
from trainer.words import _


@dataclass
class PlumbTool(TrussTool[Plumb]):
    """It has nothing but the truss that is chosen."""

    verb = "plumb"
    key = "P"
    first_words = _("Choose a truss that stands. It is set straight and plumb.")
    only_standing = True

    def actions(self) -> Wanted:
        return [Plumb(tag=self.hand.truss)] if self.hand.stands else _("Choose a standing truss to straighten.")

    def aim_at(self, action: Plumb) -> str:
        self.hand.truss = action.tag
        return ""

    def panel(self, screen: Screen) -> list[Widget]:
        return [heading(_("Straighten")), chosen(self), do_it(screen, _("Set it plumb"))]
