"""A drill on the board: a house with part of the work given, its end, and the way back to where it was begun from."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from trainer.board.back_to import BackTo
from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.scenes.assignment import Assignment
from trainer.board.scenes.righting import taken_back
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.scenes.work import Work
    from trainer.board.services import Services
    from trainer.drill import Drill
    from trainer.level import Level
    from trainer.order import Step
    from trainer.session import ActionResult
    from trainer.site.actions import AnyAction


class OneDrill(Assignment):
    """A drill while it is done. How it went is recorded at its end, which comes with the last of its steps."""

    handed_over_by_hand = False

    def __init__(self, services: Services, drill: Drill, back: BackTo, again: Callable[[], None]) -> None:
        self.session = drill.session()
        self._services = services
        self._drill = drill
        self._back = back
        self.back = back.short
        self._again = again
        self.ended = False
        self._status = self._how_far()

    @property
    def steps(self) -> tuple[Step, ...]:
        """What is to be done in it."""
        return self._drill.steps

    def do(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do what one hand does in one go; say so when the drill is done."""
        outcomes = self.session.do_in_one_go(actions)
        self._status = self._how_far()
        if self._drill.finished(self.session.site):
            self._end()
        return outcomes

    def status(self) -> str:
        """That this is a drill, and how much of it is done."""
        return self._status

    def _how_far(self) -> str:
        if self._drill.faults:
            return _("a drill")
        result = self._drill.result(self.session)
        return _("a drill: {n} of {all} done").format(n=result.reached, all=result.goals)

    def asks_for(self, step: Step) -> bool:
        """Whether it is one of the drill's own; looking for a fault has none."""
        return not self._drill.steps or step in self._drill.steps

    def before_leaving(self) -> str:
        """What is lost by leaving in the middle; nothing is once the drill has come to its end."""
        return "" if self.ended else _("The drill is not done. Nothing of it is recorded.")

    def left(self, services: Services) -> None:
        """Go back to where the drill was begun from."""
        self._back.go()

    def _end(self) -> None:
        """Record how the drill went, once, and offer the ways on."""
        if self.ended:
            return
        self.ended = True
        result = self._drill.result(self.session)
        lines = [_("You did {n} of {all}.").format(n=result.reached, all=result.goals)]
        put_right = taken_back(self.session) > 0
        right = _("What was wrong is put right.") if put_right else _("Nothing was wrong with it.")
        lines.append(right if result.right else _("Look at what was found."))
        lines += filter(None, [self._trouble()])
        stay = _("Stay here") if result.right else _("Look at it")
        options = ((self._back.name, self._back.go), (_("Another one like it"), self._again), (stay, None))
        ask_which(self._services, _("The drill is done"), lines, options, first=0 if result.right else 2)

    def _trouble(self) -> str:
        """Put how it went into the records; why it is not there, or nothing."""
        from trainer.records.drills import keep_drill  # loads SQLite and the signatures
        from trainer.records.errors import RecordsError

        seat = self._services.records.seat()
        if seat is None:
            return self._services.records.trouble
        try:
            keep_drill(seat, self._drill, self.session)
        except RecordsError as error:
            return str(error)
        return ""


def practise(services: Services, level: Level, rule: str, back: BackTo) -> None:
    """Start a drill on what a rule finds, on the same house; where that has nothing to practise it on, say so."""
    from trainer.drill import drill_for  # loaded when a drill is asked for

    drill_on(services, _practised_on(level, rule), drill_for(rule), back)


def can_practise(level: Level, rule: str) -> bool:
    """Whether a house has something to practise on what a rule finds."""
    from trainer.drill import CannotDrill, drill_for, make_drill

    try:
        make_drill(drill_for(rule), _practised_on(level, rule), 1)
    except CannotDrill:
        return False
    return True


def _practised_on(level: Level, rule: str) -> Level:
    """The house itself; for one that is kept for assessment, a house on which the course has what the rule is about."""
    from trainer.board.library import read_entry
    from trainer.shipped import find_level
    from trainer.shipped.course import course

    if not level.lesson.unseen:
        return level
    steps = course().steps
    step = next((each for each in steps if rule in (*each.rules, *each.judged_by)), steps[-1])
    return read_entry(find_level(step.whole)).level


def drill_on(services: Services, level: Level, kind: str, back: BackTo) -> None:
    """Start a drill of a kind on a house; where that has nothing to practise it on, say so."""
    from trainer.drill import CannotDrill, make_drill

    try:
        drill = make_drill(kind, level, services.seed())
    except CannotDrill as why:
        show_message(services, _("No drill for this here"), [str(why)])
        return
    begin_drill(services, drill, back, lambda: drill_on(services, level, kind, back))


def begin_drill(services: Services, drill: Drill, back: BackTo, again: Callable[[], None]) -> OneDrill:
    """Put a drill on the screen, with what it asks over it; ``again`` begins another one like it."""
    from trainer.board.library import entry_of  # loaded when a drill is asked for
    from trainer.board.scenes.work import Work

    doing = OneDrill(services, drill, back, again)
    work = Work(services, entry_of(drill.level), doing.session, "practice", doing)
    services.show(work)
    _begin(work, drill)
    show_message(services, drill.title, [drill.task])
    return doing


def _begin(work: Work, drill: Drill) -> None:
    """Take up the tool that the drill begins with, and leave its task in sight once the note is closed."""
    from trainer.board.tools.registry import TOOLS
    from trainer.site import done, step_actions

    site = work.site
    left = [action.do for step in drill.steps if not done(site, step) for action in step_actions(site, step)]
    first = "inspect" if drill.faults else next(iter(left), "")
    if first in TOOLS:
        work.use(first)
    work.message = drill.task
