"""Everything that can be done at a moment, by name, so that it can be found by typing."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Command:
    """Something to do: its name, its keys in words, what does it, and other words that it is found by."""

    name: str
    keys: str
    run: Callable[[], object]
    also: str = ""


def matching(commands: Iterable[Command], words: str) -> list[Command]:
    """Return the commands that hold every word typed, those where words begin with them first; all for no words."""
    wanted = words.casefold().split()
    found = [c for c in commands if all(word in f"{c.name} {c.keys} {c.also}".casefold() for word in wanted)]
    return sorted(found, key=lambda c: -sum(_begins(c.name, word) for word in wanted))


def _begins(name: str, word: str) -> bool:
    return any(part.startswith(word) for part in name.casefold().split())
