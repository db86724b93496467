"""What is wrong with a file, and where."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NoReturn

WHOLE_FILE = "file"
"""Stands for the path of a fault that is about the file as a whole."""
MOST_SHOWN = 200
"""Faults of one sort shown one by one; a file with more is not one that a person wrote for us."""


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing wrong in a file.

    ``line`` counts from 1, ``path`` is like ``plates.outline[3]``, ``what`` says what is wrong and what to do.
    """

    file: str
    line: int
    path: str
    what: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.path}: {self.what}"


class Faulty(Exception):  # noqa: N818 - it is an answer about a file, not a fault of the program
    """Raised instead of what a file should have held; ``faults`` holds every one found, by line."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(dict.fromkeys(faults)))
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join(map(str, self.faults))


def refuse(file: str, line: int, path: str, what: str) -> NoReturn:
    """Stop at one thing wrong in a file."""
    raise Faulty([Fault(file, line, path, what)]) from None
