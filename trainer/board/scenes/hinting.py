"""Hints on the work screen: what could be done next, and the tool for it taken up."""

from __future__ import annotations

from trainer.board import wording
from trainer.board.ready import ready
from trainer.board.scenes.desk import OWN_TABS, Desk
from trainer.board.tools import STAGE_TOOLS, stage_of
from trainer.site import HandOver
from trainer.site.actions import AnyAction
from trainer.words import _


def hint(work: Desk) -> None:
    """Say and show what could be done next; where that is shown already, take up the tool for it."""
    if work.ghost is not None:
        take_up(work, work.ghost)
        return
    hints = [found for found in work.session.take_hint() if work.kept.asks_for(found.step)]
    if not hints:
        work.say(_("There are no hints here.") if not work.practice else _("There is no hint for now."))
        return
    fitting = [found for found in hints if found.action.do == work.bench.tool]
    work.ghost = (fitting or hints)[0].action
    text = _("You could do this: {what}. Press H again to get it ready.")
    work.say(text.format(what=wording.to_do(work.ghost, work.site)))
    work.redraw("plan")


def take_up(work: Desk, action: AnyAction) -> None:
    """Take up the tool for an action, aimed at it; doing it is left to the learner."""
    if isinstance(action, HandOver):
        work.hand_over()
        return
    why = ready(work.bench, work.site, action)
    tool = work.bench.tool
    if tool not in STAGE_TOOLS[work.stage]:
        work.stage = stage_of(tool)
    work.tab = "own" if tool in OWN_TABS else "yard" if work.bench.truss not in work.site.stood else "roof"
    work.message = why or _("It is aimed. Enter does it: {what}.").format(what=wording.to_do(action, work.site))
    work.hold_still()
    work.refresh()
    work.settle(work.size)
    work.services.focus("slip/go")
