"""Choices for one new level: a hash of its seed, its difficulty, and of what is being decided."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from trainer.chance import chance, pick, shuffled

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Draw:
    """What decides a new level; ``least``: of all that could be drawn the smallest, and a gable wherever one can be."""

    seed: int
    difficulty: int
    least: bool = False

    def pick(self, choices: Sequence[T], *names: object) -> T:
        """Return one of ``choices``."""
        return pick(choices, self.seed, self.difficulty, *names)

    def shuffled(self, choices: Sequence[T], *names: object) -> list[T]:
        """Return ``choices`` in an order of chance."""
        return shuffled(choices, self.seed, self.difficulty, *names)

    def between(self, low: int, high: int, step: int, *names: object) -> int:
        """Return ``low``, or as many steps more as do not pass ``high``."""
        if self.least:
            return low
        return low + step * self.pick(range(max(0, (high - low) // step) + 1), *names)

    def maybe(self, share: float, *names: object) -> bool:
        """Return true for this share of all seeds."""
        return self.least or chance(self.seed, self.difficulty, *names) < share
