"""A robot at the board's own bench: it takes up a tool, sets it as a hand would, and does what the bench then says."""

from dataclasses import replace

from trainer.board.aim import aims_of
from trainer.board.bench import Bench, brace_with, first_bench, hook, take, use
from trainer.board.spots import spots_of
from trainer.board.verbs import actions
from trainer.level import Level
from trainer.session import Session
from trainer.site import (
    AnyAction,
    Brace,
    Check,
    Fit,
    Fix,
    HandOver,
    Inspect,
    Mark,
    Measure,
    Plumb,
    Report,
    Restrain,
    Stand,
    String,
    Unbrace,
)


class Robot:
    """Does a diary's actions by the tools of the board; it knows no action that no tool gives."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.bench: Bench = first_bench(session.site)

    def do(self, action: AnyAction) -> None:
        """Do one action; what the bench makes of its settings has to be that action, and nobody may refuse it."""
        if not isinstance(action, HandOver):
            getattr(self, f"_{action.do}")(action)
            wanted = actions(self.bench, self.session.site)
            assert wanted == [action], f"the bench gives {wanted}, not {action}"
        outcome = self.session.do(action)
        assert outcome.refused is None, outcome.refused
        assert outcome.findings == (), outcome.findings

    def _use(self, tool: str) -> Bench:
        use(self.bench, self.session.site, tool)  # type: ignore[arg-type]
        return self.bench

    def _take(self, tag: str) -> None:
        take(self.bench, self.session.site, tag)

    def _check(self, action: Check) -> None:
        self._use("check").item = action.item

    def _measure(self, action: Measure) -> None:
        self._use("measure").what = action.what
        if action.wall:
            self.bench.wall = action.wall
        else:
            self._take(str(action.tag))

    def _report(self, action: Report) -> None:
        self._use("report").fault = action.fault
        if action.wall:
            self.bench.wall = action.wall
        else:
            self._take(str(action.tag))

    def _mark(self, action: Mark) -> None:
        bench = self._use("mark")
        if action.wall:
            bench.mark_on = action.wall
        else:
            self._take(str(action.on))
        bench.mark_at = action.at
        hook(bench, 0 if action.measured_from is None else 2)

    def _fit(self, action: Fit) -> None:
        bench = self._use("fit")
        self._take(action.on)
        bench.part = action.part
        bench.fit_placed, bench.fit_at = action.at is not None, action.at or 0.0
        bench.fit_every, bench.fit_back = action.every or 0.0, action.back or 0.0

    def _stand(self, action: Stand) -> None:
        self._use("stand")
        self._take(action.tag)
        site = self.session.site
        ways = aims_of(site.layout.house.plan, site.layout.by_tag[action.tag], action.start, action.finish)
        assert ways, f"{action} can't be told by tape from any wall"
        self.bench.aim = replace(ways[0])

    def _brace(self, action: Brace) -> None:
        self._use("brace")
        brace_with(self.bench, action.kind)
        self.bench.picked = action.tags
        self.bench.rows_every = action.every or 0
        self._take(action.tags[0])

    def _unbrace(self, action: Unbrace) -> None:
        bench = self._use("unbrace")
        pieces = [(piece.kind, piece.tags) for piece in self.session.site.bracing]
        bench.piece = pieces.index((action.kind, action.tags))

    def _string(self, action: String) -> None:
        self._use("string").picked = (action.start, action.finish)

    def _plumb(self, action: Plumb) -> None:
        self._use("plumb")
        self._take(action.tag)

    def _fix(self, action: Fix) -> None:
        bench = self._use("fix")
        self._take(action.tag)
        bench.end = action.end or 3 + self._crossing(action)
        bench.connector, bench.count = action.with_, action.count

    def _crossing(self, action: Fix) -> int:
        return [crossing.at for crossing in spots_of(self.session.site, action.tag)].index(action.at)

    def _restrain(self, action: Restrain) -> None:
        bench = self._use("restrain")
        bench.restraint = action.kind
        bench.tape = (action.start, action.finish)

    def _inspect(self, action: Inspect) -> None:
        self._use("inspect").accept = action.accept
        self._take(action.tag)


def played(level: Level, diary: tuple[AnyAction, ...], session: Session) -> Session:
    """Play a diary to its end at the bench."""
    robot = Robot(session)
    for action in diary:
        robot.do(action)
    return session
