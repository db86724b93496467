"""Mistakes of fixing: gaps in the path from roof to wall."""

from trainer.rules.fix.hanger_missing import hanger_missing
from trainer.rules.fix.heavy_girder_bracket_missing import heavy_girder_bracket_missing
from trainer.rules.fix.let_go_half_fixed import let_go_half_fixed
from trainer.rules.fix.tie_down_missing import tie_down_missing
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    heavy_girder_bracket_missing,
    hanger_missing,
    let_go_half_fixed,
    tie_down_missing,
)
"""In the order in which they are told."""
