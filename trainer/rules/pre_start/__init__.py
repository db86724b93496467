"""Mistakes before the first truss is lifted: what was not looked at, or not put right."""

from trainer.rules.rule import rules_of

RULES = rules_of(
    __name__,
    "check-left-undone service-line-in-reach stair-void-open edge-left-open people-under-the-lift "
    "forecast-not-heeded lifted-without-licence unbraced-wall-loaded studs-missing-under-girder ledger-not-on-studs "
    "plate-out-of-true beam-not-bolted-down beam-propped post-not-braced post-not-tied-down "
    "pack-landed-badly missing-truss-not-reported brackets-left-loose lift-not-planned too-heavy-by-hand "
    "too-few-to-lift slung-at-apex slings-not-spread report-without-looking",
)
"""In the order in which they are told."""
