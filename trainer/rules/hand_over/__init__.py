"""Mistakes that show when the roof is handed over."""

from trainer.rules.hand_over.accepted_out_of_limits import accepted_out_of_limits
from trainer.rules.hand_over.accepted_unmeasured import accepted_unmeasured
from trainer.rules.hand_over.bay_left_too_wide import bay_left_too_wide
from trainer.rules.hand_over.braces_left_inside import braces_left_inside
from trainer.rules.hand_over.loaded_before_hand_over import loaded_before_hand_over
from trainer.rules.hand_over.loading_not_agreed import loading_not_agreed
from trainer.rules.hand_over.not_inspected import not_inspected
from trainer.rules.hand_over.rejected_though_sound import rejected_though_sound
from trainer.rules.hand_over.roof_loaded_unevenly import roof_loaded_unevenly
from trainer.rules.hand_over.top_chord_ties_stripped import top_chord_ties_stripped
from trainer.rules.hand_over.truss_left_over import truss_left_over
from trainer.rules.hand_over.truss_missing import truss_missing
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    truss_missing,
    truss_left_over,
    bay_left_too_wide,
    top_chord_ties_stripped,
    loaded_before_hand_over,
    roof_loaded_unevenly,
    loading_not_agreed,
    accepted_unmeasured,
    accepted_out_of_limits,
    rejected_though_sound,
    not_inspected,
    braces_left_inside,
)
"""In the order in which they are told."""
