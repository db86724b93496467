"""Mistakes that show when the roof is handed over."""

from trainer.rules.rule import rules_of

RULES = rules_of(
    __name__,
    "truss-missing truss-left-over bay-left-too-wide top-chord-ties-stripped loaded-before-hand-over "
    "roof-loaded-unevenly loading-not-agreed accepted-unmeasured accepted-out-of-limits rejected-though-sound "
    "not-inspected braces-left-inside",
)
"""In the order in which they are told."""
