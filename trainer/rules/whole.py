"""What a roof has to have to be done: whoever hands it over without is not done, whatever the mark.

Trade brief, "Done means whole": a truss, a tie-down, a bracket, permanent bracing or verge framing missing (common
practice, no source). So is a roof in which the wrong truss stands, or one the wrong way round; one whose girder is off
its line or its setback; one with a truss altered, or with a tail where none belongs; one with a bay that is far too
wide; one that leans or is bowed beyond height/50 and length/200; one without its top-chord ties. What fell, or is
free, is stop-work anyway, and so are brackets and plies that are missing.
"""

from __future__ import annotations

from collections.abc import Sequence

from trainer.words import _, ngettext

STANDING = (
    "worked-on-after-a-fall", "row-with-nothing-solid", "stood-before-last-tied",
    "wrong-truss-for-place", "end-for-end", "setback-not-the-levels", "girder-off-plate-line",
    "dutch-girder-off-station", "truss-missing", "truss-left-over", "bay-left-too-wide", "tail-cut",
    "tail-where-none-belongs",
)  # fmt: skip
"""Rules about every truss standing where it belongs."""
PATH = (
    "tie-down-missing", "tie-down-too-light", "extension-not-fixed", "saddle-without-batten", "saddle-without-trimmer",
    "hanger-missing", "heavy-girder-bracket-missing", "plies-not-joined", "connector-half-nailed",
    "waling-plate-missing", "slotted-bracket-missing",
)  # fmt: skip
"""Rules about the path from roof to wall."""
BRACING = (
    "roof-brace-missing", "roof-brace-broken", "roof-brace-not-tied-down", "roof-brace-at-wrong-angle",
    "bottom-chord-ties-too-far-apart", "long-web-not-tied", "top-chords-not-tied-under-saddles", "end-brace-missing",
    "tie-end-loose", "roof-braces-all-one-way", "top-chord-ties-stripped", "top-chord-battens-too-far-apart",
    "out-of-plumb", "truss-bowed",
)  # fmt: skip
"""Rules about permanent bracing, the ties that stay, and a row that is straight and plumb."""
VERGE = (
    "outriggers-missing", "outriggers-not-far-enough-back", "outriggers-too-far-apart", "verge-rafters-missing",
    "gable-studs-missing", "outriggers-end-between-trusses", "verge-ladder-missing",
)  # fmt: skip
"""Rules about the framing of gables and verges."""
WHOLE = {rule: number for number, rule in enumerate((*STANDING, *PATH, *BRACING, *VERGE))}
"""The rules whose findings at hand-over say that something of the roof is missing or wrong, least named first."""
NOT_DONE = _("Not done: the roof was handed over with this missing or wrong.")
AT_FIRST = 3
"""So many of them are named before anything else is said."""


def at_first(missing: Sequence[str]) -> tuple[str, ...]:
    """Return what is said first of a roof that is not whole: the first few things missing, and how many more."""
    more = len(missing) - AT_FIRST
    if more <= 0:
        return tuple(missing)
    return (*missing[:AT_FIRST], ngettext("And {n} more.", "And {n} more.", more).format(n=more))
