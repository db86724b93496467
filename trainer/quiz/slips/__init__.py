"""What people on site do or say instead, rule by rule: wrong choices that a beginner could well take for right.

The rules of the first two chapters of the course have them. Others take their wrong choices from rules about something
else (:mod:`trainer.quiz.rule_kin`). Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.bracing import OF_BRACING
from trainer.quiz.slips.hips import OF_HIPS
from trainer.quiz.slips.model import RuleSlips
from trainer.quiz.slips.rows import OF_ROWS

SLIPS: Mapping[str, RuleSlips] = {**OF_ROWS, **OF_BRACING, **OF_HIPS}
"""By the name of the rule."""


def slips_of(rule: str) -> RuleSlips:
    """Return what is done and said instead of what a rule says; nothing of a rule that has none here."""
    return SLIPS.get(rule, RuleSlips((), ()))


__all__ = ["SLIPS", "RuleSlips", "slips_of"]
