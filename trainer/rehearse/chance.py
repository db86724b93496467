"""Choices that are the same every time for a seed and the names of what is being chosen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from trainer.site.chance import chance

__all__ = ["chance", "pick", "shuffled"]

T = TypeVar("T")


def pick(choices: Sequence[T], seed: int, *names: object) -> T:
    """Return one of ``choices``."""
    return choices[int(chance(seed, *names) * len(choices))]


def shuffled(choices: Sequence[T], seed: int, *names: object) -> list[T]:
    """Return ``choices`` in an order of chance."""
    return [choices[i] for i in sorted(range(len(choices)), key=lambda i: chance(seed, *names, i))]
