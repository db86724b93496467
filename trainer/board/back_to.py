"""The way back from something that can be begun from more than one place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class BackTo:
    """The way back from a drill, a quiz or a result: what it is called, in a bar also in short, and how to go."""

    name: str
    short: str
    go: Callable[[], None]
