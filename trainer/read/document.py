"""Data read from a file that still knows on which line each piece of it stood."""

from __future__ import annotations

from dataclasses import dataclass, field

from trainer.read.fault import WHOLE_FILE, Fault

Where = tuple[str | int, ...]
"""The way to a piece of a document: keys, and places in lists counted from 0."""

_LONGEST_KEY = 40


@dataclass(slots=True)
class Lines:
    """The line of one piece of data, and those of the pieces inside it."""

    line: int
    inside: dict[str | int, Lines] = field(default_factory=dict)


@dataclass(frozen=True)
class Document:
    """One file's ``data`` (mappings with text keys, lists, text, numbers, true or false, null).

    ``faults`` are those the reading itself found; :func:`trainer.read.validate` raises them with its own.
    """

    file: str
    data: object
    lines: Lines
    faults: tuple[Fault, ...] = ()

    def line_of(self, where: Where) -> int:
        """Line, from 1, of the piece at ``where``, or of the nearest piece around it where there is none."""
        lines = self.lines
        for part in where:
            if part not in lines.inside:
                break
            lines = lines.inside[part]
        return lines.line

    def fault(self, where: Where, what: str) -> Fault:
        """Return a fault at ``where``."""
        return Fault(self.file, self.line_of(where), path_of(where), what)


def path_of(where: Where) -> str:
    """Write ``where`` as people do: ``plates.outline[3]``."""
    path = "".join(f"[{part}]" if isinstance(part, int) else f".{_short(part)}" for part in where)
    return path.removeprefix(".") or WHOLE_FILE


def _short(key: str) -> str:
    key = " ".join(key.split()) or "''"
    return key if len(key) <= _LONGEST_KEY else key[:_LONGEST_KEY] + "…"
