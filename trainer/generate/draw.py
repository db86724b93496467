"""Choices for one new level: a hash of its seed, its difficulty, and of what is being decided."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar, get_args

from trainer.chance import chance, pick, shuffled
from trainer.level.dangers import DangerKind

T = TypeVar("T")
PLACES = frozenset({"walls", "delivery", "spots", "side", "clear", "by", *get_args(DangerKind)})
"""What is decided by these names is where something is wrong, and by how much: not what."""
OF_FAMILY = frozenset({"points"})
"""The one measure that houses of a family share: how much there is to do."""


@dataclass(frozen=True, slots=True)
class Draw:
    """What decides a new level; ``least``: of all that could be drawn the smallest, and a gable wherever one can be.

    ``variant`` decides in the seed's place what differs between houses of one family: measures, and where a fault lies.
    """

    seed: int
    difficulty: int
    least: bool = False
    variant: int | None = None

    def pick(self, choices: Sequence[T], *names: object) -> T:
        """Return one of ``choices``."""
        return pick(choices, self._seed(names), self.difficulty, *names)

    def shuffled(self, choices: Sequence[T], *names: object) -> list[T]:
        """Return ``choices`` in an order of chance."""
        return shuffled(choices, self._seed(names), self.difficulty, *names)

    def _seed(self, names: tuple[object, ...]) -> int:
        return self.variant if self.variant is not None and names[0] in PLACES else self.seed

    def between(self, low: int, high: int, step: int, *names: object) -> int:
        """Return ``low``, or as many steps more as do not pass ``high``."""
        if self.least:
            return low
        seed = self.seed if self.variant is None or names[0] in OF_FAMILY else self.variant
        return low + step * pick(range(max(0, (high - low) // step) + 1), seed, self.difficulty, *names)

    def maybe(self, share: float, *names: object) -> bool:
        """Return true for this share of all seeds."""
        return self.least or chance(self.seed, self.difficulty, *names) < share
