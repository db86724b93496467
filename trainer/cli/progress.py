"""How far long work has come, on standard error; nothing where that is no terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import TypeVar

T = TypeVar("T")


def progress(items: Iterable[T], doing: str, total: int | None = None) -> Iterable[T]:
    """Return ``items``, and show how many of them were taken; ``total`` says how many there are where they can't."""
    if not sys.stderr.isatty():
        return items
    from rich.console import Console
    from rich.progress import track

    return track(items, doing, total, console=Console(stderr=True), transient=True)
