"""What people on site do or say instead, rule by rule: wrong choices that a beginner could well take for right.

Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.beams import OF_BEAMS
from trainer.quiz.slips.before_lifting import OF_THE_START
from trainer.quiz.slips.bracing import OF_BRACING
from trainer.quiz.slips.fixing import OF_FIXING
from trainer.quiz.slips.handing_over import OF_HAND_OVER
from trainer.quiz.slips.hips import OF_HIPS
from trainer.quiz.slips.lifting import OF_LIFTING
from trainer.quiz.slips.model import RuleSlips
from trainer.quiz.slips.rows import OF_ROWS

SLIPS: Mapping[str, RuleSlips] = {
    **OF_THE_START, **OF_ROWS, **OF_LIFTING, **OF_BRACING, **OF_HIPS, **OF_BEAMS, **OF_FIXING, **OF_HAND_OVER,
}  # fmt: skip
"""By the name of the rule; every rule has some."""

__all__ = ["SLIPS", "RuleSlips"]
