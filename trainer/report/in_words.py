"""Actions of a diary, how long something took, and what a house is called, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from string import Formatter
from typing import Any

from trainer.level import parse_level
from trainer.read import Faulty
from trainer.terms import CUTS, FAULTS, LOADS, READINGS, THINGS, VERBS, done_line
from trainer.words import _

_BEFORE = {
    "from": _("from"), "to": _("to"), "at": _("at"), "on": _("on"), "wall": _("wall"), "end": _("end"),
    "with": _("with"), "where": _("at its"), "count": _("count"), "every": _("every"), "back": _("back"),
    "by": _("by"), "people": _("people"), "slung": _("slung"),
}  # fmt: skip
_ORDER = (
    "tag", "item", "what", "fault", "part", "kind", "tags", "on", "wall", "at", "where", "from", "to", "end", "with",
    "by", "people", "slung",
)  # fmt: skip
"""In which order a line names what an action holds; whatever else comes last."""
_MADE_OF = {"of": ("wall", "on", "tag")}
"""What the words of a verb make of several keys."""
_WORDS = {**THINGS, **READINGS, **FAULTS, **CUTS, **LOADS}


def action_line(action: Mapping[str, Any]) -> str:
    """Return one action of a diary as a short line."""
    verb = str(action.get("do", ""))
    done = done_line(action) if verb in VERBS else verb.replace("_", " ").capitalize()
    details = ", ".join(_details(action))
    return f"{done}: {details}" if details else done


def _details(action: Mapping[str, Any]) -> Iterator[str]:
    """Say what an action holds beyond what the words of its verb say."""
    said = {"do", *_named_by(str(action["do"]))}
    for key, value in sorted(action.items(), key=lambda item: (*_ORDER, item[0]).index(item[0])):
        if key == "accept":
            yield _("accepted") if value else _("rejected")
        elif key not in said and not (key == "count" and value == 1):
            yield " ".join(filter(None, (_BEFORE.get(key, ""), _value(value))))


def _named_by(verb: str) -> Iterator[str]:
    """Return the keys of an action that the words of its verb say already."""
    for _text, name, _spec, _conversion in Formatter().parse(VERBS[verb].done if verb in VERBS else ""):
        yield from _MADE_OF.get(name or "", (name or "",))


def _value(value: Any) -> str:
    if isinstance(value, float):
        return f"{value:g}" if abs(value) < 1e6 else f"{value:.1f}"
    if isinstance(value, list | tuple):
        texts = [_value(each) for each in value]
        numbers = len(value) == 2 and all(isinstance(each, int | float) for each in value)
        return f"({', '.join(texts)})" if numbers else " ".join(texts)
    return _WORDS.get(value, str(value)) if isinstance(value, str) else str(value)


def lasting(ms: float) -> str:
    """Return how long something took, for people."""
    seconds = round(max(0.0, ms) / 1000)
    if seconds < 60:
        return _("{n} s").format(n=seconds)
    if seconds < 3600:
        return _("{m} min {s:02} s").format(m=seconds // 60, s=seconds % 60)
    return _("{h} h {m:02} min").format(h=seconds // 3600, m=seconds % 3600 // 60)


@lru_cache(maxsize=256)
def house_title(level: str, text: str) -> str:
    """Return the title of a house as the ``text`` of its level has it; of one that can't be read the id, as a word."""
    try:
        return parse_level(text, level).title
    except Faulty:
        return level.capitalize()
