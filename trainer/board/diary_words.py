"""Actions and events in short sentences, as the diary and the strip have them."""

from __future__ import annotations

from trainer.board.tools.registry import TOOLS
from trainer.picture.measures import figure
from trainer.plan.points import half
from trainer.site.actions import AnyAction, Report
from trainer.site.model import Event, Site
from trainer.terms import done_line, to_do_line
from trainer.words import _


def done(action: AnyAction, site: Site) -> tuple[str, str]:
    """Say an action as two short lines of the diary: what, and where or with what."""
    tool = TOOLS.get(action.do)
    return done_line(action.model_dump(by_alias=True, exclude_none=True)), tool.detail(action, site) if tool else ""


def to_do(action: AnyAction, site: Site) -> str:
    """Say an action as something that could be done next."""
    tool = TOOLS.get(action.do)
    detail = tool.detail_to_do(action, site) if tool else ""
    return ", ".join(filter(None, (to_do_line(action.model_dump(by_alias=True, exclude_none=True)), detail)))


def reading(event: Event) -> str:
    """Say what a measurement showed, or which faults a report had put right; nothing for any other event."""
    if event.reading is not None:
        text = _("It reads {got} mm. It should be {want} mm.")
        return text.format(got=figure(event.reading.got), want=figure(half(event.reading.want)))
    if isinstance(event.action, Report):
        return _("It is put right.") if event.put_right else _("They look, and find no such fault.")
    return ""
