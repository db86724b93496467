"""Chance that is the same every time: a hash of a seed and of the names of what is being decided."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


def chance(seed: int, *names: object) -> float:
    """Return a number from 0 up to 1 for ``seed`` and ``names``: their SHA-256, never a running stream."""
    text = "\x1f".join(map(str, (seed, *names)))
    return int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big") / 2**64


def between(least: float, most: float, seed: int, *names: object) -> float:
    """Return a number from ``least`` up to ``most``."""
    return least + (most - least) * chance(seed, *names)


def pick(choices: Sequence[T], seed: int, *names: object) -> T:
    """Return one of ``choices``."""
    return choices[int(chance(seed, *names) * len(choices))]


def shuffled(choices: Sequence[T], seed: int, *names: object) -> list[T]:
    """Return ``choices`` in an order of chance."""
    return [choices[i] for i in sorted(range(len(choices)), key=lambda i: chance(seed, *names, i))]
