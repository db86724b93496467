"""Mistakes of setting out: marks that are off, to the wrong face, or measured bay by bay."""

from trainer.rules.rule import rules_of

RULES = rules_of(
    __name__,
    "mark-off-station mark-to-wrong-face measured-bay-by-bay far-bearing-not-carried-across station-not-marked",
)
"""In the order in which they are told."""
