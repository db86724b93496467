"""Actions and events in short sentences, as the diary and the strip have them."""

from __future__ import annotations

from trainer.board.tools.registry import TOOLS
from trainer.site.actions import AnyAction
from trainer.site.model import Event, Site
from trainer.terms import done_line, to_do_line


def done(action: AnyAction, site: Site) -> tuple[str, str]:
    """Say an action as two short lines of the diary: what, and where or with what."""
    tool = TOOLS.get(action.do)
    return done_line(action.model_dump(by_alias=True, exclude_none=True)), tool.detail(action, site) if tool else ""


def to_do(action: AnyAction, site: Site) -> str:
    """Say an action as something that could be done next."""
    tool = TOOLS.get(action.do)
    detail = tool.detail_to_do(action, site) if tool else ""
    return ", ".join(filter(None, (to_do_line(action.model_dump(by_alias=True, exclude_none=True)), detail)))


def to_do_in_short(action: AnyAction) -> str:
    """Say what could be done next and to which truss or wall, but not where on it or with what."""
    given = action.model_dump(by_alias=True, exclude_none=True)
    return to_do_line({key: value for key, value in given.items() if key != "at" or not isinstance(value, float | int)})


def reading(event: Event) -> str:
    """Say what came of an event that the learner could not see, such as a reading; nothing for most."""
    tool = TOOLS.get(event.action.do)
    return tool.reading(event) if tool else ""
