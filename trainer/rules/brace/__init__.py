"""Mistakes of bracing: what was let go with nothing to hold it; battens too far apart; permanent bracing missing."""

from trainer.rules.rule import rules_of

RULES = rules_of(
    __name__,
    "row-with-nothing-solid stood-before-last-tied wall-tie-missing bracing-taken-too-early "
    "top-chord-battens-too-far-apart "
    "row-left-unsafe-overnight stopped-unsecured pack-left-on-row post-brace-taken-off braced-to-beam "
    "extension-not-propped braced-while-crooked "
    "strap-pulled-too-hard roof-brace-at-wrong-angle roof-brace-missing roof-braces-all-one-way "
    "roof-brace-not-tied-down roof-brace-broken bottom-chord-ties-too-far-apart long-web-not-tied "
    "top-chords-not-tied-under-saddles end-brace-missing tie-end-loose",
)
"""In the order in which they are told."""
