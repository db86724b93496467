"""Data to the lines of a YAML file that a person would write: short values in flow, long text folded."""

from __future__ import annotations

import json
import re
import textwrap

import yaml

LONGEST = 118
"""Characters of a line; what is longer is broken over several."""
_BARE = re.compile(r"[A-Za-z][A-Za-z0-9_-]*( [A-Za-z0-9_-]+)*")
_NEVER_BARE = frozenset({"true", "false", "null", "yes", "no", "on", "off", "y", "n"})
"""Words that some reader of YAML takes for something else than text, in small letters."""
_PLAIN = re.compile(r"[A-Za-z][^:#\[\]{}\n\t\"\\]*[^:#\[\]{}\s\"\\]")
"""A sentence that may stand in a line of its own as it is."""


def yaml_entry(key: str, value: object, indent: str = "") -> list[str]:
    """Return the lines of ``key: value``, each with ``indent`` before it.

    ``value`` is what JSON holds: text, numbers, booleans, none, lists, and dicts with plain keys.
    """
    plain = isinstance(value, str) and _PLAIN.fullmatch(value) and _is_text(value)
    line, deeper = f"{indent}{_text(key)}: {value if plain else yaml_flow(value)}", f"{indent}  "
    if len(line) <= LONGEST:
        return [line]
    if isinstance(value, dict):
        return [f"{indent}{_text(key)}:", *(line for k, v in value.items() for line in yaml_entry(k, v, deeper))]
    if isinstance(value, list):
        # Pieces of the list stay whole, so their own spaces are hidden while lines are broken.
        pieces = ", ".join(yaml_flow(piece).replace(" ", "\0") for piece in value)
        return [f"{indent}{_text(key)}:", *(line.replace("\0", " ") for line in _wrapped(f"[{pieces}]", deeper))]
    if isinstance(value, str) and " ".join(value.split()) == value:
        return [f"{indent}{_text(key)}: >-", *_wrapped(value, deeper)]
    return [line]


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(
        text, LONGEST, initial_indent=indent, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )


def yaml_flow(value: object) -> str:
    """Return what JSON holds as YAML within a line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_text(key)}: {yaml_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(yaml_flow, value)) + "]"
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return json.dumps(value, ensure_ascii=False)


def _is_text(text: str) -> bool:
    """Whether YAML takes bare words for text, not for a date, a number or a yes."""
    return bool(yaml.safe_load(text) == text)


def _text(text: str) -> str:
    """Text bare where YAML takes it for nothing else, or else in quotes."""
    plain = _BARE.fullmatch(text) and text.lower() not in _NEVER_BARE
    return text if plain else json.dumps(text, ensure_ascii=False)
