"""Mistakes of fixing: gaps in the path from roof to wall."""

from trainer.rules.fix.connector_half_nailed import connector_half_nailed
from trainer.rules.fix.extension_not_fixed import extension_not_fixed
from trainer.rules.fix.fixed_hard_to_internal_wall import fixed_hard_to_internal_wall
from trainer.rules.fix.gable_studs_missing import gable_studs_missing
from trainer.rules.fix.hanger_missing import hanger_missing
from trainer.rules.fix.heavy_girder_bracket_missing import heavy_girder_bracket_missing
from trainer.rules.fix.let_go_half_fixed import let_go_half_fixed
from trainer.rules.fix.outriggers_end_between_trusses import outriggers_end_between_trusses
from trainer.rules.fix.outriggers_missing import outriggers_missing
from trainer.rules.fix.outriggers_not_far_enough_back import outriggers_not_far_enough_back
from trainer.rules.fix.outriggers_too_far_apart import outriggers_too_far_apart
from trainer.rules.fix.plies_not_joined import plies_not_joined
from trainer.rules.fix.saddle_without_batten import saddle_without_batten
from trainer.rules.fix.saddle_without_trimmer import saddle_without_trimmer
from trainer.rules.fix.slotted_bracket_missing import slotted_bracket_missing
from trainer.rules.fix.tie_down_missing import tie_down_missing
from trainer.rules.fix.tie_down_too_light import tie_down_too_light
from trainer.rules.fix.verge_before_row_straight import verge_before_row_straight
from trainer.rules.fix.verge_ladder_missing import verge_ladder_missing
from trainer.rules.fix.verge_rafters_missing import verge_rafters_missing
from trainer.rules.fix.waling_plate_missing import waling_plate_missing
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    heavy_girder_bracket_missing,
    hanger_missing,
    plies_not_joined,
    waling_plate_missing,
    saddle_without_batten,
    saddle_without_trimmer,
    let_go_half_fixed,
    fixed_hard_to_internal_wall,
    extension_not_fixed,
    slotted_bracket_missing,
    tie_down_missing,
    tie_down_too_light,
    connector_half_nailed,
    outriggers_missing,
    outriggers_too_far_apart,
    outriggers_not_far_enough_back,
    outriggers_end_between_trusses,
    verge_rafters_missing,
    gable_studs_missing,
    verge_ladder_missing,
    verge_before_row_straight,
)
"""In the order in which they are told."""
