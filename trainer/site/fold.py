"""Folds one action after another into the state of the site."""

from __future__ import annotations

from dataclasses import replace

from trainer.order import TIED
from trainer.site.actions import AnyAction, Brace, Fit, Fix, HandOver, Mark, Remove, Stand, Undo
from trainer.site.bracing import brace
from trainer.site.fastening import fit, fix, mark
from trainer.site.letting_go import let_go
from trainer.site.model import NOT_OFF, Event, How, Job, Refused, Site, Stood
from trainer.site.standing import remove, stand
from trainer.words import _

Result = tuple[Site, Event] | Refused


def start(job: Job) -> Site:
    """Return the site before the first action; stages that the job leaves out are done on it."""
    if "stand" in job.stages:
        return Site(job)
    members = job.layout.members
    stood = {m.tag: Stood(m.tag, m.tag, m.start, m.finish, False, False, NOT_OFF) for m in members}
    holds: dict[str, How] = {m.tag: "given" for m in members if "brace" not in job.stages or m.kind not in TIED}
    return Site(job, stood=stood, at_place={tag: tag for tag in stood}, holds=holds)


def act(site: Site, index: int, action: AnyAction) -> Result:
    """Do one action, number ``index`` of the diary: the state after it and the event, or why nobody could do it."""
    if site.handed_over:
        return Refused(_("The roof has been handed over. Nothing more can be done on it."))
    result = _do(site, index, action)
    if isinstance(result, Refused) or isinstance(action, Undo):
        return result
    after, event = result
    return replace(after, before=site, done=site.done + 1), event


def _do(site: Site, index: int, action: AnyAction) -> Result:
    result: Result
    match action:
        case Mark():
            result = mark(site, index, action)
        case Fit():
            result = fit(site, index, action)
        case Stand():
            result = stand(site, index, action)
        case Remove():
            result = remove(site, index, action)
        case Brace():
            result = brace(site, index, action)
        case Fix():
            result = fix(site, index, action)
        case Undo():
            result = _undo(site, index, action)
        case HandOver():
            result = _hand_over(site, index, action)
    return result


def _undo(site: Site, index: int, action: Undo) -> Result:
    if not site.job.undo_allowed:
        return Refused(_("There is no undo in an assessment. Take a truss down with remove, as on site."))
    if site.before is None:
        return Refused(_("There is nothing to undo. Nothing has been done yet."))
    return site.before, Event(index, action)


def _hand_over(site: Site, index: int, action: HandOver) -> Result:
    gone = tuple(site.last_in_row.values())
    after, fell = let_go(site, gone)
    return replace(after, handed_over=True, last_in_row={}), Event(index, action, gone, fell)
