"""Mistakes of standing: the wrong truss or the wrong place, and what came too early."""

from trainer.rules.rule import rules_of

RULES = rules_of(
    __name__,
    "wrong-truss-for-place setback-not-the-levels girder-off-plate-line dutch-girder-off-station off-station "
    "spacing-too-wide end-for-end hip-before-truncated-girder saddle-before-support saddle-over-crooked-truss "
    "carried-before-carrier out-of-order no-string-line lifted-in-gust taken-down-again damaged-truss-stood "
    "tail-where-none-belongs truss-cut tail-cut out-of-plumb truss-bowed apex-off-line worked-on-after-a-fall",
)
"""In the order in which they are told."""
