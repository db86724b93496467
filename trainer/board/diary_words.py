"""Actions and events in short sentences, as the diary and the strip have them."""

from __future__ import annotations

from trainer.board.tools.registry import TOOLS
from trainer.picture.measures import figure
from trainer.plan.points import half
from trainer.site.actions import AnyAction, Report
from trainer.site.model import Event, Site
from trainer.words import _

DONE = {
    "check": _("Checked: {item}"), "measure": _("Measured {of}"), "report": _("Reported {of}"),
    "mark": _("Marked {where}"), "fit": _("Fitted on {on}{at}"), "stand": _("Stood {tag}"),
    "brace": _("Braced {tags}"), "unbrace": _("Unbraced {tags}"), "string": _("String from {start} to {finish}"),
    "plumb": _("Straightened {tag}"), "fix": _("Fixed {tag}, {end}"), "cut": _("Cut {tag}"),
    "remove": _("Took {tag} down"), "load": _("Loaded the roof"), "inspect": _("Inspected {tag}"),
    "restrain": _("Put in: {piece}"), "hand_over": _("Handed over"), "undo": _("Undid the action before"),
}  # fmt: skip
TO_DO = {
    "check": _("Check: {item}"), "measure": _("Measure {of}"), "report": _("Report {of}"),
    "mark": _("Mark {where}"), "fit": _("Fit on {on}{at}"), "stand": _("Stand {tag}"),
    "brace": _("Brace {tags}"), "unbrace": _("Unbrace {tags}"), "string": _("Pull a string from {start} to {finish}"),
    "plumb": _("Straighten {tag}"), "fix": _("Fix {tag}, {end}"), "cut": _("Cut {tag}"),
    "remove": _("Take {tag} down"), "load": _("Load the roof"), "inspect": _("Inspect {tag}"),
    "restrain": _("Put in: {piece}"), "hand_over": _("Hand over"), "undo": _("Undo the action before"),
}  # fmt: skip


def done(action: AnyAction, site: Site) -> tuple[str, str]:
    """Say an action as two short lines of the diary: what, and where or with what."""
    tool = TOOLS.get(action.do)
    words, detail = tool.in_words(action, site) if tool else ({}, "")
    return DONE[action.do].format(**words), detail


def to_do(action: AnyAction, site: Site) -> str:
    """Say an action as something that could be done next."""
    tool = TOOLS.get(action.do)
    if tool is None:
        return TO_DO[action.do]
    words, _detail = tool.in_words(action, site)
    return ", ".join(filter(None, (TO_DO[action.do].format(**words), tool.detail_to_do(action, site))))


def reading(event: Event) -> str:
    """Say what a measurement showed, or which faults a report had put right; nothing for any other event."""
    if event.reading is not None:
        text = _("It reads {got} mm. It should be {want} mm.")
        return text.format(got=figure(event.reading.got), want=figure(half(event.reading.want)))
    if isinstance(event.action, Report):
        return _("It is put right.") if event.put_right else _("They look, and find no such fault.")
    return ""
