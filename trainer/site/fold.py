"""Folds one action after another into the state of the site."""

from __future__ import annotations

from dataclasses import replace

from trainer.order import TIED
from trainer.site import (  # noqa: F401 - where the actions are done
    bracing,
    clearing,
    fastening,
    looking,
    marking,
    on_the_day,
    releasing,
    restraining,
    standing,
    truing,
)
from trainer.site.actions import AnyAction, HandOver, Stand, Undo
from trainer.site.clearing import replaced
from trainer.site.doing import DOING, Result, does
from trainer.site.falling import read_as_cleared
from trainer.site.job import Job
from trainer.site.letting_go import let_go
from trainer.site.model import NOT_OFF, Event, How, Refused, Site, Stood, changed
from trainer.site.on_the_day import counted
from trainer.words import _


def start(job: Job) -> Site:
    """Return the site before the first action; stages that the job leaves out are done on it."""
    if "stand" in job.stages:
        return Site(job)
    members = job.layout.members
    stood = {m.tag: Stood(m.tag, m.tag, m.start, m.finish, False, False, NOT_OFF, m.tag) for m in members}
    holds: dict[str, How] = {m.tag: "given" for m in members if "brace" not in job.stages or m.kind not in TIED}
    return Site(job, stood=stood, at_place={tag: tag for tag in stood}, holds=holds)


def act(site: Site, index: int, action: AnyAction) -> Result:
    """Do one action, number ``index`` of the diary: the state after it and the event, or why nobody could do it."""
    if site.handed_over:
        return Refused(_("The roof has been handed over. Nothing more can be done on it."))
    cleared = read_as_cleared(site, action)
    begun = site if cleared is None else cleared
    again = action.tag if cleared and isinstance(action, Stand) and _lies(cleared, action.tag) else None
    if again:  # stood as it lies
        begun = replaced(begun, again)
    result = DOING[type(action)](begun, index, action)
    if isinstance(result, Refused) or isinstance(action, Undo):
        return result
    after, event = counted(*result)
    if cleared:
        event = replace(event, went_on=site.fall)
        if again:  # it is the one that fell, and no new one
            after = changed(after, fell={**after.fell, again: cleared.fell[again]})
    return changed(after, before=site, done=site.done + 1), event


def _lies(cleared: Site, tag: str) -> bool:
    """Whether a truss is read as standing though it fell, and nobody cleared it."""
    return tag in cleared.stood and tag in cleared.fell


@does(Undo)
def _undo(site: Site, index: int, action: Undo) -> Result:
    if not site.job.undo_allowed:
        return Refused(_("There is no undo in an assessment. Take a truss down with remove, as on site."))
    if site.before is None:
        return Refused(_("There is nothing to undo. Nothing has been done yet."))
    return site.before, Event(index, action)


@does(HandOver)
def _hand_over(site: Site, index: int, action: HandOver) -> Result:
    gone = (site.last,) if site.last is not None else ()
    after, fell = let_go(site, gone)
    return changed(after, handed_over=True, last=None), Event(index, action, gone, fell)
