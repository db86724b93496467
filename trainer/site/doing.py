"""Which function does which action: each says so itself, where it stands."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from trainer.site.actions import AnyAction
from trainer.site.model import Event, Refused, Site

Result = tuple[Site, Event] | Refused
"""The site after an action and what happened, or why nobody could do it."""
Doer = TypeVar("Doer", bound=Callable[[Site, int, Any], Result])
DOING: dict[type[AnyAction], Callable[[Site, int, Any], Result]] = {}
"""What does each kind of action; it takes the site before it and the action's number in the diary."""


def does(kind: type[AnyAction]) -> Callable[[Doer], Doer]:
    """Let a function do a kind of action. Its module has to be named in :mod:`trainer.site.fold`."""

    def listed(doer: Doer) -> Doer:
        DOING[kind] = doer
        return doer

    return listed
