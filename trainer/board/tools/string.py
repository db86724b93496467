"""Pull a string line from the top of one truss to the top of another."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.overlay import ring_round
from trainer.board.tools.panel import Screen, faint
from trainer.board.tools.picking import PickingTool
from trainer.board.tools.tool import Wanted
from trainer.board.widgets import Widget
from trainer.picture.model import Item
from trainer.site.actions import String
from trainer.words import _


@dataclass
class StringTool(PickingTool[String]):
    """Two trusses are picked; a press on the second one pulls it, and by keys another Enter."""

    key = "G"
    first_words = _("Choose the outermost two standard trusses of a row. The string runs from top to top.")
    title = _("Pull a string line")
    button = _("Pull it")
    wanting = _("Choose two standing trusses for the string.")
    only_standing = True
    looked_over = True

    def actions(self) -> Wanted:
        if len(self.picked) < 2:
            return self.wanting
        return [String(start=self.picked[0], finish=self.picked[1])]

    def aim_at(self, action: String) -> str:
        self.picked = (action.start, action.finish)
        return ""

    def controls(self, screen: Screen) -> list[Widget]:
        return [faint(_("Picked: {tags}. Pick the outermost two standard trusses.").format(tags=self.picked_in_words))]

    def ghost(self, action: String) -> list[Item]:
        return [item for tag in (action.start, action.finish) for item in ring_round(self.site, tag, "ghost")]
