"""Level to level file: whole in itself, its style's habits written in."""

from __future__ import annotations

import json
import re
import textwrap

from trainer.level.model import Level

HEAD = "# Invented for practice. Check a real job's truss plan and the current standard."
_LONGEST = 118
"""Characters of a line; what is longer is broken over several."""
_BARE = re.compile(r"[a-z]+([ -][a-z]+)*|[A-Z]{1,2}")
_NEVER_BARE = frozenset({"true", "false", "null", "yes", "no", "on", "off", "y", "n", "Y", "N", "NO", "ON"})


def write_level(level: Level) -> str:
    """Return the text of a level file that reads as ``level`` without any style; defaults are left out."""
    data = level.model_dump(mode="json", by_alias=True, exclude_defaults=True, exclude={"style"})
    return "\n".join([HEAD, *(line for key, value in data.items() for line in _entry(key, value, ""))]) + "\n"


def whole_text(level: Level, text: str) -> str:
    """Return the text to keep of a level read from ``text``: as it stands, or with its style's habits written in."""
    return write_level(level) if level.style else text


def _entry(key: str, value: object, indent: str) -> list[str]:
    line, deeper = f"{indent}{key}: {_flow(value)}", f"{indent}  "
    if len(line) <= _LONGEST:
        return [line]
    if isinstance(value, dict):
        return [f"{indent}{key}:", *(line for k, v in value.items() for line in _entry(k, v, deeper))]
    if isinstance(value, list):
        # Pieces of the list stay whole, so their own spaces are hidden while lines are broken.
        pieces = ", ".join(_flow(piece).replace(" ", "\0") for piece in value)
        return [f"{indent}{key}:", *(line.replace("\0", " ") for line in _wrapped(f"[{pieces}]", deeper))]
    if isinstance(value, str) and " ".join(value.split()) == value:
        return [f"{indent}{key}: >-", *_wrapped(value, deeper)]
    return [line]


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(
        text, _LONGEST, initial_indent=indent, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )


def _flow(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    if isinstance(value, str) and _BARE.fullmatch(value) and value not in _NEVER_BARE:
        return value
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return json.dumps(value, ensure_ascii=False)
