"""A drill on the board: a house with part of the work given, and an end when its own steps are done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trainer.board.scenes.asking import tell
from trainer.board.tools import TOOLS
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.library import Entry
    from trainer.board.scenes.work import Work
    from trainer.board.services import Services
    from trainer.drill import Drill
    from trainer.level import Level
    from trainer.session import Outcome, Session
    from trainer.site.actions import AnyAction


class OneDrill:
    """A drill while it is done. Nothing of it is recorded: it is practice on one thing."""

    def __init__(self, services: Services, drill: Drill) -> None:
        self.session = drill.session()
        self._services = services
        self._drill = drill
        self._told = False

    def do(self, action: AnyAction) -> Outcome:
        """Do one action; say so when the drill is done."""
        outcome = self.session.do(action)
        if self._drill.finished(self.session.site) and not self._told:
            self._told = True
            result = self._drill.result(self.session)
            lines = [_("You did {n} of {all}.").format(n=result.reached, all=result.goals)]
            lines.append(_("Nothing was wrong with it.") if result.right else _("Look at what was found."))
            tell(self._services, _("The drill is done"), lines)
        return outcome

    def told(self) -> str:
        """Nothing beside the title."""
        return ""

    def handed_over(self, services: Services, entry: Entry, session: Session) -> None:
        """Show what came of it."""
        services.go_result(entry, session, "")


def practise(services: Services, level: Level, rule: str) -> None:
    """Start a drill on what a rule finds, on the same house; where that has nothing to practise it on, say so."""
    from trainer.drill import drill_for  # noqa: PLC0415 - loaded when a drill is asked for

    drill_on(services, level, drill_for(rule))


def drill_on(services: Services, level: Level, kind: str) -> None:
    """Start a drill of a kind on a house; where that has nothing to practise it on, say so."""
    from trainer.board.library import entry_of  # noqa: PLC0415 - loaded when a drill is asked for
    from trainer.board.scenes.work import Work  # noqa: PLC0415
    from trainer.drill import CannotDrill, make_drill  # noqa: PLC0415

    try:
        drill = make_drill(kind, level, services.seed())
    except CannotDrill as why:
        tell(services, _("No drill for this here"), [str(why)])
        return
    doing = OneDrill(services, drill)
    work = Work(services, entry_of(drill.level), doing.session, "practice", doing)
    services.show(work)
    _begin(work, drill)
    tell(services, drill.title, [drill.task])


def _begin(work: Work, drill: Drill) -> None:
    """Take up the tool that the drill begins with, and leave its task in sight once the note is closed."""
    actions = [found.action.do for found in work.session.hint()]
    first = "inspect" if drill.faults else next(iter(actions), "")
    for tool in TOOLS:
        if tool == first:
            work.use(tool)
    work.message = drill.task
