"""Mistakes of bracing: what was let go with nothing to hold it; battens too far apart; permanent bracing missing."""

from trainer.rules.brace.bottom_chord_ties_too_far_apart import bottom_chord_ties_too_far_apart
from trainer.rules.brace.braced_while_crooked import braced_while_crooked
from trainer.rules.brace.bracing_taken_too_early import bracing_taken_too_early
from trainer.rules.brace.end_brace_missing import end_brace_missing
from trainer.rules.brace.extension_not_propped import extension_not_propped
from trainer.rules.brace.long_web_not_tied import long_web_not_tied
from trainer.rules.brace.pack_left_on_row import pack_left_on_row
from trainer.rules.brace.roof_brace_at_wrong_angle import roof_brace_at_wrong_angle
from trainer.rules.brace.roof_brace_broken import roof_brace_broken
from trainer.rules.brace.roof_brace_missing import roof_brace_missing
from trainer.rules.brace.roof_brace_not_tied_down import roof_brace_not_tied_down
from trainer.rules.brace.roof_braces_all_one_way import roof_braces_all_one_way
from trainer.rules.brace.row_left_unsafe_overnight import row_left_unsafe_overnight
from trainer.rules.brace.row_with_nothing_solid import row_with_nothing_solid
from trainer.rules.brace.stood_before_last_tied import stood_before_last_tied
from trainer.rules.brace.stopped_unsecured import stopped_unsecured
from trainer.rules.brace.strap_pulled_too_hard import strap_pulled_too_hard
from trainer.rules.brace.tie_end_loose import tie_end_loose
from trainer.rules.brace.top_chord_battens_too_far_apart import top_chord_battens_too_far_apart
from trainer.rules.brace.top_chords_not_tied_under_saddles import top_chords_not_tied_under_saddles
from trainer.rules.brace.wall_tie_missing import wall_tie_missing
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    row_with_nothing_solid,
    stood_before_last_tied,
    wall_tie_missing,
    bracing_taken_too_early,
    top_chord_battens_too_far_apart,
    row_left_unsafe_overnight,
    stopped_unsecured,
    pack_left_on_row,
    extension_not_propped,
    braced_while_crooked,
    strap_pulled_too_hard,
    roof_brace_at_wrong_angle,
    roof_brace_missing,
    roof_braces_all_one_way,
    roof_brace_not_tied_down,
    roof_brace_broken,
    bottom_chord_ties_too_far_apart,
    long_web_not_tied,
    top_chords_not_tied_under_saddles,
    end_brace_missing,
    tie_end_loose,
)
"""In the order in which they are told."""
