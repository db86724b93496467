"""Straighten a truss: line and plumb."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import Screen
from trainer.board.tools.tool import TrussTool, Wanted
from trainer.board.widgets import Widget
from trainer.session.hands import straighten_along
from trainer.site.actions import Plumb
from trainer.site.query import row_of
from trainer.words import _


@dataclass
class PlumbTool(TrussTool[Plumb]):
    """It has nothing but the truss that is chosen, or its row."""

    key = "P"
    first_words = _("Choose a truss that stands. It is set straight and plumb.")
    title = _("Straighten")
    button = _("Set it plumb")
    wanting = _("Choose a standing truss to straighten.")
    only_standing = True
    routine = "straighten along"
    one_or_all = (_("this truss"), _("all of its row"))

    def actions(self) -> Wanted:
        if not self.in_one_go or not self.hand.stands:
            return super().actions()
        row = row_of(self.site, self.hand.truss)
        if not any(row_of(self.site, first) == row for first, _last in self.site.strings):
            return _("Pull a string line along this row first. Then the row is straightened after it.")
        return straighten_along(self.site, self.hand.truss) or _("All of this row that can be moved is straightened.")

    def controls(self, screen: Screen) -> list[Widget]:
        return [*super().controls(screen), *self.go_choice(screen)]
