"""Actions of a diary in words, and the stage that each belongs to."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from trainer.rules.finding import Stage
from trainer.words import _

VERBS = {
    "check": _("Checked"), "measure": _("Measured"), "report": _("Reported"), "mark": _("Marked"), "fit": _("Fitted"),
    "stand": _("Stood"), "remove": _("Took down"), "brace": _("Braced"), "unbrace": _("Took bracing off"),
    "string": _("Pulled a string line"), "plumb": _("Straightened"), "fix": _("Fixed"),
    "restrain": _("Braced for good"), "cut": _("Cut"), "load": _("Loaded the roof"), "inspect": _("Inspected"),
    "undo": _("Took back the action before"), "hand_over": _("Handed over"), "plan": _("Planned the lift"),
    "stop": _("Stopped lifting"),
}  # fmt: skip
STAGE_OF_VERB: Mapping[str, Stage] = {
    "check": "pre-start", "measure": "pre-start", "report": "pre-start", "mark": "set-out", "fit": "fix",
    "stand": "stand", "remove": "stand", "string": "stand", "plumb": "stand", "brace": "brace", "unbrace": "brace",
    "restrain": "brace", "fix": "fix", "cut": "fix", "load": "hand-over", "inspect": "hand-over",
    "hand_over": "hand-over", "plan": "pre-start", "stop": "stand",
}  # fmt: skip
"""The stage that the time for an action is put down to; an action taken back stands in none."""
SEVERITIES = {
    "stop-work": _("Stop work"), "rework": _("Rework"), "tolerance": _("Out of tolerance"), "habit": _("Habit"),
}  # fmt: skip
OUTCOMES = {
    "met": _("Practice mark met"), "not yet met": _("Practice mark not yet met"), "unfinished": _("Not finished"),
}  # fmt: skip
_NAMES = {
    "from": _("from"), "to": _("to"), "at": _("at"), "on": _("on"), "wall": _("wall"), "end": _("end"),
    "with": _("with"), "where": _("at its"), "count": _("count"), "every": _("every"), "back": _("back"),
    "by": _("by"), "people": _("people"), "slung": _("slung"),
}  # fmt: skip
_ORDER = (
    "tag", "item", "what", "fault", "part", "kind", "tags", "on", "wall", "at", "where", "from", "to", "end", "with",
    "by", "people", "slung",
)  # fmt: skip
"""In which order a line names what an action holds; whatever else comes last."""


def action_told(action: Mapping[str, Any]) -> str:
    """Return one action of a diary as a short line."""
    verb = str(action.get("do", ""))
    said = [VERBS.get(verb, verb.replace("_", " ").capitalize())]
    if verb == "load" and action.get("pattern"):  # which loads nothing yet
        said = [_("Said where the first packs land")]
    for key, value in sorted(action.items(), key=lambda item: (*_ORDER, item[0]).index(item[0])):
        if key == "do" or (key == "count" and value == 1):
            continue
        if key == "accept":
            said.append(_("accepted") if value else _("rejected"))
        else:
            said.append(" ".join(filter(None, (_NAMES.get(key, ""), _value(value)))))
    return said[0] + (": " + ", ".join(said[1:]) if len(said) > 1 else "")


def _value(value: Any) -> str:
    if isinstance(value, float):
        return f"{value:g}" if abs(value) < 1e6 else f"{value:.1f}"
    if isinstance(value, list | tuple):
        texts = [_value(each) for each in value]
        numbers = len(value) == 2 and all(isinstance(each, int | float) for each in value)
        return f"({', '.join(texts)})" if numbers else " ".join(texts)
    return str(value)


def lasting(ms: float) -> str:
    """Return how long something took, for people."""
    seconds = round(max(0.0, ms) / 1000)
    if seconds < 60:
        return _("{n} s").format(n=seconds)
    if seconds < 3600:
        return _("{m} min {s:02} s").format(m=seconds // 60, s=seconds % 60)
    return _("{h} h {m:02} min").format(h=seconds // 3600, m=seconds % 3600 // 60)
