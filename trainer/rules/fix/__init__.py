"""Mistakes of fixing: gaps in the path from roof to wall."""

from trainer.rules.rule import rules_of

RULES = rules_of(
    __name__,
    "heavy-girder-bracket-missing hanger-missing plies-not-joined waling-plate-missing saddle-without-batten "
    "saddle-without-trimmer let-go-half-fixed fixed-hard-to-internal-wall extension-not-fixed "
    "slotted-bracket-missing tie-down-missing tie-down-too-light connector-half-nailed outriggers-missing "
    "outriggers-too-far-apart outriggers-not-far-enough-back outriggers-end-between-trusses "
    "verge-rafters-missing gable-studs-missing verge-ladder-missing verge-before-row-straight",
)
"""In the order in which they are told."""
