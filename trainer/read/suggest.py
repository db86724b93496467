"""Guesses what a mistyped word was meant to be."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from trainer.words import _

_LONGEST_WORD = 40
"""Anything longer was not a slip of the finger, and comparing it would be slow."""


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return ``did you mean 'x'?`` for the nearest of ``known``, or an empty text where none is near."""
    if len(word) > _LONGEST_WORD:
        return ""
    by_shape = {_shape(candidate): candidate for candidate in known}
    nearest = difflib.get_close_matches(_shape(word), by_shape, n=1, cutoff=0.6)
    return _("did you mean '{word}'?").format(word=by_shape[nearest[0]]) if nearest else ""


def _shape(word: str) -> str:
    return word.strip().lower().replace("-", " ").replace("_", " ")
