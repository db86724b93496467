"""After a fall that was reported: clear it away. New trusses come for what fell or was struck."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import DO_IT, Screen, faint
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Label, Widget
from trainer.site import to_clear
from trainer.site.actions import Clear
from trainer.words import _


@dataclass
class ClearTool(Tool[Clear]):
    """It is of all that lies."""

    key = "Shift F"
    of_site = True
    first_words = _("After a fall: report it, then clear it away.")
    title = _("Clear up after a fall")
    button = _("Clear it away")

    def take(self, screen: Screen, tag: str) -> None:
        screen.focus_on(DO_IT)

    def actions(self) -> Wanted:
        return _("Nothing has fallen. There is nothing to clear.") if to_clear(self.site) is None else [self.action()]

    @property
    def has_button(self) -> bool:
        return to_clear(self.site) is not None

    def controls(self, screen: Screen) -> list[Widget]:
        fall = to_clear(self.site)
        if fall is None:
            return [faint(_("Nothing has fallen."))]
        fell = ", ".join(tag for tag, lying in fall.lying.items() if not lying.struck)
        struck = ", ".join(tag for tag, lying in fall.lying.items() if lying.struck)
        lines = [_("It fell: {tags}.").format(tags=fell)]
        lines += [_("It was struck: {tags}.").format(tags=struck)] if struck else []
        advice = (
            _("It is reported. New trusses come into the yard for all of these.")
            if fall.reported
            else _("Keep people out. Report the fall before anything is touched.")
        )
        return [*(Label(line) for line in lines), faint(advice)]

    @property
    def ringed(self) -> frozenset[str]:
        return frozenset()
