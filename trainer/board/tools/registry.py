"""The tools in the stages in which they are used, and the tools of one house with what they hold."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from trainer.board.snap import nearest_truss
from trainer.board.tools.brace import BraceTool
from trainer.board.tools.check import CheckTool
from trainer.board.tools.clear import ClearTool
from trainer.board.tools.cut import CutTool
from trainer.board.tools.fit import FitTool
from trainer.board.tools.fix import FixTool
from trainer.board.tools.hand import Hand
from trainer.board.tools.inspect import InspectTool
from trainer.board.tools.load import LoadTool
from trainer.board.tools.mark import MarkTool
from trainer.board.tools.measure import MeasureTool
from trainer.board.tools.plan import PlanTool
from trainer.board.tools.plumb import PlumbTool
from trainer.board.tools.remove import RemoveTool
from trainer.board.tools.report import ReportTool
from trainer.board.tools.restrain import RestrainTool
from trainer.board.tools.stand import StandTool
from trainer.board.tools.stop import StopTool
from trainer.board.tools.string import StringTool
from trainer.board.tools.tool import Tool
from trainer.board.tools.unbrace import UnbraceTool
from trainer.picture.model import Item
from trainer.plan import Point
from trainer.session.hands import Routine, offered
from trainer.site.actions import AnyAction
from trainer.site.model import Site
from trainer.site.steps import done
from trainer.terms import STAGE_OF, Stage, StepVerb
from trainer.words import _

if TYPE_CHECKING:
    from trainer.session import Session

AnyTool = Tool[Any]
STAGE_TOOLS: dict[Stage, tuple[type[AnyTool], ...]] = {
    "pre-start": (CheckTool, MeasureTool, ReportTool, PlanTool),
    "set-out": (MarkTool, MeasureTool),
    "stand": (StandTool, StringTool, PlumbTool, RemoveTool, CutTool, StopTool, ClearTool),
    "brace": (BraceTool, UnbraceTool, RestrainTool),
    "fix": (FitTool, FixTool),
    "hand-over": (MeasureTool, InspectTool, LoadTool),
}
"""The tools of each stage. A tool may be of use in several; it is at home in the first."""
TOOLS: dict[str, type[AnyTool]] = {tool.verb: tool for tools in STAGE_TOOLS.values() for tool in tools}
"""Each tool once, by its verb."""


def stage_of(verb: str, near: Stage = "pre-start") -> Stage:
    """Return the stage in which a tool is at home; of several the one ``near``est, and rather a later one."""
    stages = list(STAGE_TOOLS)
    here = stages.index(near)
    found = (stage for stage, tools in STAGE_TOOLS.items() if TOOLS[verb] in tools)
    return min(found, key=lambda stage: (abs(stages.index(stage) - here), -stages.index(stage)))


DONE_WITH: dict[StepVerb, str] = {
    "tie": "brace", "prop": "brace", "join": "fit", "seat": "fit", "trim": "fit", "bridge": "fit", "frame": "fit",
    "cross": "fix", "slot": "fix", "read": "measure",
}  # fmt: skip
"""The verb of the tool that a step is done with, where it is not called the same."""


def _left(site: Site) -> set[tuple[Stage, str]]:
    """The stages in which something is left to do, each with the verbs of the tools that do it."""
    left = (step.verb for step in site.job.order.steps if not done(site, step))
    return {(STAGE_OF[verb], DONE_WITH.get(verb, verb)) for verb in left}


class Toolbox:
    """The tools of one house with what they hold, what they share, and the one that is in use."""

    def __init__(self, session: Session) -> None:
        self.hand = Hand(session)
        self._tools = {verb: tool(self.hand) for verb, tool in TOOLS.items()}
        self._last: dict[Stage, str] = {}
        self.first_stage = self._first_stage()
        self.tool = self._tools[self.last_of(self.first_stage)]
        self.tool.take_up()
        self._led_from = ""
        self._practised: tuple[int, frozenset[Routine]] = (-1, frozenset())

    def _first_stage(self) -> Stage:
        """Return the first stage of the job in which something is left to do, or else its last."""
        site = self.hand.site
        stages = [stage for stage in STAGE_TOOLS if stage in site.job.stages]
        left = {stage for stage, _verb in _left(site)}
        if site.lifted:
            left.discard("pre-start")  # who goes on with such a house has been round it
        return next((stage for stage in stages if stage in left), stages[-1])

    @property
    def practised(self) -> frozenset[Routine]:
        """What was done often enough, singly and right, to be done in one go."""
        outcomes = self.hand.session.outcomes
        if self._practised[0] != len(outcomes):  # asked in each frame, and other after an action
            self._practised = (len(outcomes), offered(outcomes))
        return self._practised[1]

    def __getitem__(self, verb: str) -> Any:
        """Return a tool by its verb, as the class of its own that it is."""
        return self._tools[verb]

    def __iter__(self) -> Iterator[AnyTool]:
        return iter(self._tools.values())

    def use(self, verb: str) -> AnyTool:
        """Take up a tool."""
        self.tool, self._led_from = self._tools[verb], ""
        self._last[stage_of(verb)] = verb
        self.hand.caught = ""
        self.hand.points = ()
        self.tool.take_up()
        return self.tool

    def last_of(self, stage: Stage) -> str:
        """Return the verb of the tool that was used last in a stage, or of its first with something left to do."""
        if stage in self._last:
            return self._last[stage]
        verbs, left = [tool.verb for tool in STAGE_TOOLS[stage]], _left(self.hand.site)
        return next((verb for verb in verbs if (stage, verb) in left), verbs[0])

    def point_at(self, place: Point, reach_mm: float, mm_per_px: float, lettered: str = "") -> str:
        """Aim at a place of the plan; return the tag of the standing truss that is meant there, if any.

        The one whose tag is ``lettered`` there is meant before any other.
        """
        stood = self.hand.site.stood
        truss = stood.get(lettered) or nearest_truss(stood.values(), place, reach_mm, self.hand.truss)
        self.tool.point_at(place, truss, mm_per_px)
        return truss.tag if truss is not None else ""

    def aim_at(self, action: AnyAction) -> str:
        """Take up the tool for an action and aim it; return why that can't be done, or an empty text."""
        if action.do not in self._tools:
            return _("There is no tool for that here.")
        if (before := self.tool.verb) != action.do:
            self.use(action.do)
            self._led_from = before
        self.tool.in_one_go = False
        return self.tool.aim_at(action)

    def after(self, action: AnyAction) -> None:
        """Get the tool of an action ready for what usually comes next."""
        if action.do in self._tools:
            self._tools[action.do].after(action)
        if action.do == "report" and self._led_from == "check":
            self.use("check")  # what was seen on the way round is reported: go on with the round

    def took_back(self, action: AnyAction | None) -> None:
        """Choose the truss again that an action was about which was taken back; one that stood is in the hand as it
        was held.
        """
        tag = getattr(action, "tag", None)
        if action is not None and self.tool.verb == action.do == "stand":
            self.tool.aim_at(action)
        elif tag:
            self.hand.truss = tag

    def ghost(self, action: AnyAction) -> list[Item]:
        """Return what a hint suggests, as it is drawn on the plan."""
        return self._tools[action.do].ghost(action) if action.do in self._tools else []
