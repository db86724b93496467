"""Mistakes that show when the roof is handed over."""

from trainer.rules.hand_over.loaded_before_hand_over import loaded_before_hand_over
from trainer.rules.hand_over.truss_left_over import truss_left_over
from trainer.rules.hand_over.truss_missing import truss_missing
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    truss_missing,
    truss_left_over,
    loaded_before_hand_over,
)
"""In the order in which they are told."""
