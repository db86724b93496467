"""Folds one action after another into the state of the site."""

from __future__ import annotations

from trainer.site.actions import AnyAction
from trainer.site.model import Event, Job, Refused, Site


def start(job: Job) -> Site:
    """Return the site before the first action; stages that the job leaves out are done on it."""
    raise NotImplementedError


def act(site: Site, index: int, action: AnyAction) -> tuple[Site, Event] | Refused:
    """Do one action, number ``index`` of the diary: the state after it and the event, or why nobody could do it."""
    raise NotImplementedError
