"""Stop lifting: when the wind gets up, or anything else is not safe."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.board.tools.panel import DO_IT, Screen, faint
from trainer.board.tools.tool import Tool
from trainer.board.widgets import Label, Widget
from trainer.site import come_up
from trainer.site.actions import Stop
from trainer.site.model import Event
from trainer.words import _


@dataclass
class StopTool(Tool[Stop]):
    """It is of the whole site, and has nothing to choose."""

    key = "Shift S"
    of_site = True
    first_words = _("Stop lifting when the wind gets up. First make safe what stands.")
    title = _("Stop lifting")
    button = _("Stop the lift")

    def take(self, screen: Screen, tag: str) -> None:
        screen.focus_on(DO_IT)

    def controls(self, screen: Screen) -> list[Widget]:
        came = [Label(flaw.in_words) for flaw in come_up(self.site)]
        return [*came, faint(_("Every truss that stands has to be held. Lifting may go on once it is safe."))]

    @property
    def ringed(self) -> frozenset[str]:
        return frozenset()

    @classmethod
    def reading(cls, event: Event) -> str:
        return (
            _("The wind has dropped. Lifting may go on.")
            if event.put_right
            else _("Lifting may go on once it is safe.")
        )
