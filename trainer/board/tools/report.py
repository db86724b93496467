"""Report something wrong with a wall or a truss."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import Screen, choice_of
from trainer.board.tools.tool import Wanted
from trainer.board.tools.wall_or_truss import WallOrTrussTool
from trainer.board.widgets import Widget
from trainer.level.as_found import TrussFault, WallFault
from trainer.site.actions import Report
from trainer.site.model import Event, Site
from trainer.terms import FAULTS
from trainer.words import _

FAULT_KINDS: tuple[str, ...] = (*get_args(WallFault), *get_args(TrussFault))


@dataclass
class ReportTool(WallOrTrussTool[Report]):
    """A press only chooses what is reported."""

    verb = "report"
    makes = Report
    key = "Shift R"
    first_words = _("Choose what is wrong, and the wall or the truss.")
    title = _("Report a fault")
    button = _("Report it")
    from_yard = True
    at_once = False

    fault: str = FAULT_KINDS[0]

    @property
    def subject(self) -> str:
        return self.fault

    def actions(self) -> Wanted:
        if not (self.of_wall or self.hand.truss):
            return _("Choose the truss that you report.")
        return [self.action(**self.subject_of)]

    def controls(self, screen: Screen) -> list[Widget]:
        fault = choice_of(screen, _("What is wrong"), self, "fault", FAULT_KINDS, FAULTS)
        return [fault, self.aim_control(screen, standing=False)]

    @classmethod
    def detail(cls, action: Report, site: Site) -> str:
        return FAULTS.get(action.fault, action.fault)

    @classmethod
    def reading(cls, event: Event) -> str:
        return _("It is put right.") if event.put_right else _("They look, and find no such fault.")
