"""Report what is wrong: with a wall, with a truss, a danger on the site, or a fall."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, get_args

from trainer.board.tools.panel import DO_IT, MEASURE, Screen, faint
from trainer.board.tools.subject import Subject, SubjectTool, spot_near
from trainer.board.tools.tool import Wanted
from trainer.board.widgets import Row, Widget
from trainer.level.as_found import TrussFault, WallFault
from trainer.level.dangers import LIES, Reported
from trainer.plan import Point
from trainer.site import to_clear
from trainer.site.actions import Report
from trainer.site.conditions import Flaw
from trainer.site.model import Event, Site
from trainer.terms import FAULTS
from trainer.words import _

FALL: Final = "a fall"
REPORT_A_FALL = Report(fault=FALL)
FAULT_KINDS: tuple[str, ...] = (*get_args(Reported), FALL, *get_args(WallFault), *get_args(TrussFault))
_OF: dict[Subject, str] = {"wall": _("on a wall"), "tag": _("of a truss"), "at": _("at a place"), "": _("on the site")}


def lies(fault: str) -> Subject:
    """Return what says where a fault lies: a wall, a truss, a place, or nothing."""
    subjects: dict[str, Subject] = {"wall": "wall", "tag": "tag", "at": "at"}
    if fault in LIES:
        return subjects.get(LIES[fault], "")
    return "wall" if fault in get_args(WallFault) else "tag" if fault in get_args(TrussFault) else ""


def report_of(flaw: Flaw) -> Report:
    """Return the report that puts a flaw right."""
    return Report.model_validate(
        {"fault": flaw.what, "wall": flaw.wall or None, "tag": flaw.tag or None, "at": flaw.at}
    )


@dataclass
class ReportTool(SubjectTool[Report]):
    """Its list has all that can be reported; none is chosen at first. A press on the plan only chooses where."""

    key = "Shift R"
    first_words = _("Choose what is wrong in the list. Or press on a danger on the plan.")
    title = _("Report what is wrong")
    button = _("Report it")
    list_name = _("Faults")
    at_once = False

    fault: str = ""

    def take_up(self) -> None:
        fall = to_clear(self.site)
        self.fault = FALL if fall is not None and not fall.reported else ""

    @property
    def subject(self) -> Subject:
        return lies(self.fault)

    def actions(self) -> Wanted:
        if not self.fault:
            return self.first_words
        if self.subject == "tag" and not self.hand.truss:
            return _("Choose the truss that you report, in the yard or on the roof.")
        return [self.action(**self.subject_of)]

    @property
    def has_button(self) -> bool:
        return bool(self.fault)

    def controls(self, screen: Screen) -> list[Widget]:
        if not self.fault:
            return [faint(self.first_words)]
        return [faint(FAULTS.get(self.fault, self.fault)), *self.aim_controls(screen, standing=False)]

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        """Press on a danger, and it is what is reported, unless something of a wall or a truss was chosen before."""
        spot = spot_near(self.site, place)
        if spot is not None and (not self.subject or self.subject == "at") and spot.flaw.what in FAULT_KINDS:
            screen.get_ready(report_of(spot.flaw))
            self.hand.caught = spot.word
        elif self.subject:
            super().press(screen, place, tag)
        else:
            screen.say(self.first_words)

    # the list of its own

    def rows(self) -> list[Row]:
        return [Row(fault, FAULTS.get(fault, fault), second=_OF[lies(fault)]) for fault in FAULT_KINDS]

    @property
    def row(self) -> str:
        return self.fault

    def choose_row(self, row: str) -> None:
        self.fault = row

    def take_row(self, screen: Screen, row: str) -> None:
        """Go on to where it lies; with the mouse that is pressed on."""
        self.choose_row(row)
        if self.subject == "tag":
            screen.say(_("Now choose the truss: in the yard, on the roof, or on the plan."))
        elif screen.by_keyboard:
            screen.focus_on({"wall": "panel/wall", "at": MEASURE}.get(self.subject, DO_IT))

    @classmethod
    def detail(cls, action: Report, site: Site) -> str:
        return "" if action.fault == FALL else FAULTS.get(action.fault, action.fault)

    @classmethod
    def reading(cls, event: Event) -> str:
        if isinstance(event.action, Report) and event.action.fault == FALL:
            return _("Everybody is out, and the supervisor knows. Now it can be cleared away.")
        return _("It is put right.") if event.put_right else _("They look, and find no such fault.")
