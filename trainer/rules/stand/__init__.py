"""Mistakes of standing: the wrong truss or the wrong place, and what came too early."""

from trainer.rules.rule import Rule
from trainer.rules.stand.apex_off_line import apex_off_line
from trainer.rules.stand.carried_before_carrier import carried_before_carrier
from trainer.rules.stand.damaged_truss_stood import damaged_truss_stood
from trainer.rules.stand.dutch_girder_off_station import dutch_girder_off_station
from trainer.rules.stand.end_for_end import end_for_end
from trainer.rules.stand.girder_off_plate_line import girder_off_plate_line
from trainer.rules.stand.hip_before_truncated_girder import hip_before_truncated_girder
from trainer.rules.stand.lifted_in_gust import lifted_in_gust
from trainer.rules.stand.no_string_line import no_string_line
from trainer.rules.stand.off_station import off_station
from trainer.rules.stand.out_of_order import out_of_order
from trainer.rules.stand.out_of_plumb import out_of_plumb
from trainer.rules.stand.saddle_before_support import saddle_before_support
from trainer.rules.stand.saddle_over_crooked_truss import saddle_over_crooked_truss
from trainer.rules.stand.setback_not_the_levels import setback_not_the_levels
from trainer.rules.stand.spacing_too_wide import spacing_too_wide
from trainer.rules.stand.tail_cut import tail_cut
from trainer.rules.stand.tail_where_none_belongs import tail_where_none_belongs
from trainer.rules.stand.taken_down_again import taken_down_again
from trainer.rules.stand.truss_bowed import truss_bowed
from trainer.rules.stand.truss_cut import truss_cut
from trainer.rules.stand.worked_on_after_a_fall import worked_on_after_a_fall
from trainer.rules.stand.wrong_truss_for_place import wrong_truss_for_place

RULES: tuple[Rule, ...] = (
    wrong_truss_for_place,
    setback_not_the_levels,
    girder_off_plate_line,
    dutch_girder_off_station,
    off_station,
    spacing_too_wide,
    end_for_end,
    hip_before_truncated_girder,
    saddle_before_support,
    saddle_over_crooked_truss,
    carried_before_carrier,
    out_of_order,
    no_string_line,
    lifted_in_gust,
    taken_down_again,
    damaged_truss_stood,
    tail_where_none_belongs,
    truss_cut,
    tail_cut,
    out_of_plumb,
    truss_bowed,
    apex_off_line,
    worked_on_after_a_fall,
)
"""In the order in which they are told."""
