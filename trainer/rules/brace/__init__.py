"""Mistakes of temporary bracing: what was let go with nothing to hold it."""

from trainer.rules.brace.bracing_taken_too_early import bracing_taken_too_early
from trainer.rules.brace.extension_not_propped import extension_not_propped
from trainer.rules.brace.row_with_nothing_solid import row_with_nothing_solid
from trainer.rules.brace.stood_before_last_tied import stood_before_last_tied
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    row_with_nothing_solid,
    stood_before_last_tied,
    bracing_taken_too_early,
    extension_not_propped,
)
"""In the order in which they are told."""
