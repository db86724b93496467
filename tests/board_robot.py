"""A robot at the board's own tools: it takes one up, sets it as a hand would, and does what then comes of it."""

from typing import Any

from trainer.board.aim import aims_of
from trainer.board.tools.hand import FIRST_CORNER, LAST_MARK
from trainer.board.tools.registry import Toolbox
from trainer.board.tools.unbrace import pieces_on
from trainer.level import Level
from trainer.session import Session
from trainer.site import AnyAction, Brace, Fit, Fix, HandOver, Mark, Restrain, Stand
from trainer.site.actions import Check, Clear, Inspect, Load, Measure, Plan, Plumb, Report, Stop, String, Unbrace


class Robot:
    """Does a diary's actions by the tools of the board; it knows no action that no tool gives."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.tools = Toolbox(session)
        self.hand = self.tools.hand

    def do(self, action: AnyAction) -> None:
        """Do one action; what the tool makes of its settings has to be that action, and nobody may refuse it."""
        if not isinstance(action, HandOver):
            tool: Any = self.tools.use(action.do)
            getattr(self, f"_{action.do}")(tool, action)
            wanted = tool.actions()
            assert wanted == [action], f"the tool gives {wanted}, not {action}"
        outcome = self.session.do(action)
        assert outcome.refused is None, outcome.refused
        assert outcome.findings == (), outcome.findings

    def _check(self, tool: Any, action: Check) -> None:
        tool.item = action.item

    def _measure(self, tool: Any, action: Measure) -> None:
        tool.what = action.what
        self._aim(tool, action)

    def _report(self, tool: Any, action: Report) -> None:
        tool.fault = action.fault
        self._aim(tool, action)

    def _aim(self, tool: Any, action: Measure | Report) -> None:
        if action.wall:
            self.hand.wall = action.wall
        elif action.at is not None:
            self.hand.point = action.at
        elif action.tag is not None:
            tool.choose(action.tag)

    def _plan(self, tool: Any, action: Plan) -> None:
        tool.choose_row(action.kind)
        tool.by, tool.people, tool.slung = action.by, action.people, action.slung or ""

    def _stop(self, tool: Any, action: Stop) -> None:
        """Nothing is chosen for it."""

    def _clear(self, tool: Any, action: Clear) -> None:
        """Nothing is chosen for it."""

    def _load(self, tool: Any, action: Load) -> None:
        tool.later = action.pattern is not None
        tool.what, tool.pattern = action.what, action.pattern or ""

    def _mark(self, tool: Any, action: Mark) -> None:
        if action.wall:
            tool.on = action.wall
        else:
            tool.choose(action.on)
        tool.hold(action.at)
        self.hand.tape_from = FIRST_CORNER if action.measured_from is None else LAST_MARK

    def _fit(self, tool: Any, action: Fit) -> None:
        tool.choose(action.on)
        tool.part = action.part
        tool.by_place, tool.at = action.at is not None, action.at or 0.0
        tool.every, tool.back = action.every or 0.0, action.back or 0.0

    def _stand(self, tool: Any, action: Stand) -> None:
        tool.choose(action.tag)
        site = self.session.site
        aims = aims_of(site.layout.house.plan, site.layout.by_tag[action.tag], action.start, action.finish)
        assert aims, f"{action} can't be told by tape from any wall"
        self.hand.hold(aims[0])

    def _brace(self, tool: Any, action: Brace) -> None:
        tool.change_kind(action.kind)
        tool.picked = action.tags
        tool.every = action.every or 0
        tool.choose(action.tags[0])

    def _unbrace(self, tool: Any, action: Unbrace) -> None:
        pieces = [(piece.kind, piece.tags) for piece in pieces_on(self.session.site)]
        tool.piece = pieces.index((action.kind, action.tags))

    def _string(self, tool: Any, action: String) -> None:
        tool.picked = (action.start, action.finish)

    def _plumb(self, tool: Any, action: Plumb) -> None:
        tool.choose(action.tag)

    def _fix(self, tool: Any, action: Fix) -> None:
        tool.choose(action.tag)
        tool.where = action.end or 3 + [spot.at for spot in tool.crossings].index(action.at)
        tool.with_, tool.count = action.with_, action.count

    def _restrain(self, tool: Any, action: Restrain) -> None:
        tool.kind = action.kind
        self.hand.points = (action.start, action.finish)

    def _inspect(self, tool: Any, action: Inspect) -> None:
        tool.accept = action.accept
        tool.choose(action.tag)


def played(level: Level, diary: tuple[AnyAction, ...], session: Session) -> Session:
    """Play a diary to its end by the tools."""
    robot = Robot(session)
    for action in diary:
        robot.do(action)
    return session
