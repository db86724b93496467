"""What people on site do or say instead of what a rule says, with what is wrong with it."""

from __future__ import annotations

from typing import NamedTuple

Wrong = tuple[tuple[str, str], ...]
"""Wrong texts, each with what is wrong with it."""


class RuleSlips(NamedTuple):
    """Wrong things to ``do`` about a mistake, and wrong reasons ``why`` it matters."""

    do: Wrong
    why: Wrong
