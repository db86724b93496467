"""Report something wrong with a wall or a truss."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from trainer.board.tools.panel import choice_of, do_it, heading
from trainer.board.tools.tool import DO_IT, Screen, Wanted
from trainer.board.tools.wall_or_truss import WallOrTrussTool
from trainer.board.widgets import Widget
from trainer.level.as_found import TrussFault, WallFault
from trainer.site.actions import Report
from trainer.site.model import Site
from trainer.terms import FAULTS
from trainer.words import _

FAULT_KINDS: tuple[str, ...] = (*get_args(WallFault), *get_args(TrussFault))


@dataclass
class ReportTool(WallOrTrussTool[Report]):
    """A press only chooses what is reported."""

    verb = "report"
    key = "Shift R"
    first_words = _("Choose what is wrong, and the wall or the truss.")
    from_yard = True
    goes_to = DO_IT
    at_once = False

    fault: str = FAULT_KINDS[0]

    @property
    def subject(self) -> str:
        return self.fault

    def actions(self) -> Wanted:
        if not (self.of_wall or self.hand.truss):
            return _("Choose the truss that you report.")
        return [Report.model_validate({"fault": self.fault, **self.subject_of})]

    def aim_at(self, action: Report) -> str:
        self.fault = action.fault
        self.aim_at_its_own(action)
        return ""

    def panel(self, screen: Screen) -> list[Widget]:
        fault = choice_of(screen, _("What is wrong"), self, "fault", FAULT_KINDS, FAULTS)
        aimed = self.aim_control(screen, standing=False)
        return [heading(_("Report a fault")), fault, aimed, do_it(screen, _("Report it"))]

    @classmethod
    def detail(cls, action: Report, site: Site) -> str:
        return FAULTS.get(action.fault, action.fault)
