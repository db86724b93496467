"""How much is tried of what would take hours if all of it were: one of three sizes, for every test that samples.

``plain`` is what a newcomer waits for, ``sampled`` (``TRAINER_SAMPLE=1``) is what ``.ci/run`` takes on top of it, and
``full`` (``TRAINER_FULL=1``) is everything. What is proved is the same at every size: on fewer houses, seeds or edits.
"""

import os
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")

FULL = os.environ.get("TRAINER_FULL") == "1"
SAMPLED = os.environ.get("TRAINER_SAMPLE") == "1"


def by_size(plain: T, sampled: T, full: T) -> T:
    """Return the one for the size of this run."""
    return full if FULL else sampled if SAMPLED else plain


def some(things: Sequence[T], plain: int, sampled: int | None = None) -> list[T]:
    """Return so many of ``things``, spread evenly from the first to the last; all in a full run.

    ``sampled`` is None where a sampled run takes all of them too.
    """
    many = min(len(things), by_size(plain, len(things) if sampled is None else sampled, len(things)))
    if many < 2:
        return list(things[:many])
    return [things[i * (len(things) - 1) // (many - 1)] for i in range(many)]
