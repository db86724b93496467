"""Mistakes before the first truss is lifted: what was not looked at, or not put right."""

from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = ()
"""In the order in which they are told."""
