"""Mistakes of setting out."""

from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = ()
"""In the order in which they are told."""
