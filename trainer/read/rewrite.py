"""A YAML file with some of its values changed: only those are written anew, the rest stays byte for byte.

What is kept are the spaces, remarks and the order of whoever wrote the file. A value that stands in one line is changed
within it; where a block of keys is changed, each of its keys is looked at by itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import yaml

from trainer.read.yaml_lines import LONGEST, yaml_entry, yaml_flow
from trainer.read.yaml_text import read_yaml

_FILE = "before"


@dataclass(frozen=True, slots=True)
class _Edit:
    """From where to where in the text something else is written."""

    start: int
    end: int
    text: str


def rewrite_yaml(text: str, data: Mapping[str, Any]) -> str:
    """Return ``text``, a YAML file that holds keys with values, changed so that it holds ``data``.

    New keys stand where ``data`` has them. A file whose changed parts are written in a way that can't be kept (a value
    that others repeat, say) comes back written anew.

    :raises Faulty: where ``text`` can't be read.
    """
    old = read_yaml(text, _FILE).data
    if old == data:
        return text
    root = yaml.compose(text, Loader=yaml.SafeLoader)
    if isinstance(root, yaml.MappingNode) and isinstance(old, dict) and not root.flow_style:
        newline = "\r\n" if "\r\n" in text else "\n"
        changed = text
        for edit in sorted(_edits(text, root, old, data), key=lambda edit: (edit.start, edit.end), reverse=True):
            changed = changed[: edit.start] + edit.text.replace("\n", newline) + changed[edit.end :]
        if _holds(changed, data):
            return changed
    return "".join(f"{line}\n" for key, value in data.items() for line in yaml_entry(key, value))


def _holds(text: str, data: Mapping[str, Any]) -> bool:
    from trainer.read.fault import Faulty  # noqa: PLC0415 - beside its only use

    try:
        found = read_yaml(text, _FILE)
    except Faulty:
        return False
    return not found.faults and found.data == data


def _edits(text: str, node: yaml.MappingNode, old: Mapping[str, Any], new: Mapping[str, Any]) -> list[_Edit]:
    """Return what has to be written otherwise in a block of keys."""
    edits: list[_Edit] = []
    places = {key.value: (key, value) for key, value in node.value}
    first = node.value[0][0].start_mark
    indent = text[first.index - first.column : first.index]
    indent = indent if not indent.strip("\ufeff ") else " " * first.column
    indent = indent.replace("\ufeff", "")
    for name, (key, value) in places.items():
        if name not in new:
            edits.append(_Edit(_line_start(text, key.start_mark.index), _entry_end(text, value), ""))
        elif new[name] != old[name] or type(new[name]) is not type(old[name]):
            edits += _changed(text, key, value, old[name], new[name], indent)
    before: str | None = None
    for name in new:
        if name not in places:
            lines = "".join(f"{line}\n" for line in yaml_entry(name, new[name], indent))
            edits.append(_added(text, places, before, first.index, lines))
        else:
            before = name
    return _joined(edits)


def _added(text: str, places: Mapping[str, Any], before: str | None, first: int, lines: str) -> _Edit:
    """Write lines after the entry before them, or before all."""
    if before is None:
        at = _line_start(text, first)
        return _Edit(at, at, lines)
    at = _entry_end(text, places[before][1])
    if at and text[at - 1] != "\n":
        lines = "\n" + lines.removesuffix("\n")
    return _Edit(at, at, lines)


def _joined(edits: Sequence[_Edit]) -> list[_Edit]:
    """Put what is added at one place into one edit, in its order."""
    joined: dict[tuple[int, int], str] = {}
    for edit in edits:
        place = (edit.start, edit.end)
        added = joined.get(place, "")
        joined[place] = added + edit.text
    return [_Edit(start, end, written) for (start, end), written in joined.items()]


def _changed(text: str, key: yaml.Node, value: yaml.Node, old: Any, new: Any, indent: str) -> list[_Edit]:
    by_key = value.start_mark.line > key.start_mark.line and not getattr(value, "flow_style", True)
    if isinstance(value, yaml.MappingNode) and by_key and isinstance(old, dict) and isinstance(new, dict) and new:
        return _edits(text, value, old, new)
    start, end = value.start_mark.index, value.end_mark.index
    flow = isinstance(value, yaml.CollectionNode) and bool(value.flow_style)
    plain = isinstance(value, yaml.ScalarNode) and value.style in (None, "'", '"') and end > start
    written = yaml_flow(new)
    left = start - _line_start(text, start)
    if (flow or plain) and left + len(written) <= LONGEST:
        return [_Edit(start, end, written)]
    lines = "\n".join(yaml_entry(key.value, new, indent))
    if flow or plain:
        return [_Edit(key.start_mark.index, end, lines.removeprefix(indent))]
    return [_Edit(_line_start(text, key.start_mark.index), _entry_end(text, value), lines + "\n")]


def _line_start(text: str, index: int) -> int:
    return text.rfind("\n", 0, index) + 1


def _entry_end(text: str, value: yaml.Node) -> int:
    """Return where the line after an entry begins: after its last line, remarks of the next entry not counted in."""
    end = value.end_mark.index
    if value.end_mark.column == 0 and end > value.start_mark.index:
        # A block ends where the next begins, with empty lines and remarks between.
        lines = text[:end].split("\n")
        while len(lines) > 1 and (not lines[-1].strip() or lines[-1].lstrip().startswith("#")):
            lines.pop()
        return len("\n".join(lines)) + 1
    nl = text.find("\n", end)
    return len(text) if nl < 0 else nl + 1
