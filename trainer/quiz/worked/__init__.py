"""Questions worked out from a house: one family a kind of measure or decision, listed here."""

from __future__ import annotations

from trainer.quiz.worked import (
    against,
    before_lifting,
    carrying,
    girders,
    handing_over,
    heights,
    held_still,
    hips,
    holding_on,
    lengths,
    loads,
    orders,
    pointing,
    saddles,
    spotting,
    stations,
)
from trainer.quiz.worked.family import Family
from trainer.quiz.worked.subject import Subject, subject_of

__all__ = ["FAMILIES", "Family", "Subject", "subject_of"]

_ALL: tuple[Family, ...] = (
    stations.station_of_truss, stations.running_mark, stations.tape_from_other_end, stations.closing_bay,
    stations.trusses_between, stations.gap_as_stood, stations.within_tolerance,
    girders.girder_line, girders.face_of_girder, girders.mark_on_girder, girders.diagonal_for_square,
    girders.span_over_plates,
    heights.truncated_height, heights.apex_height, heights.flat_top_length, heights.which_truncated,
    heights.eave_drop, heights.gable_truss_lower,
    hips.hip_run, hips.hip_length, hips.hip_pitch, hips.hip_tail, hips.jack_reach,
    hips.creeper_span, hips.creeper_step, lengths.top_chord_length, lengths.valley_length,
    lengths.ridge_length, lengths.roof_area, lengths.plan_area,
    saddles.saddle_base, saddles.saddle_count, saddles.saddle_under, saddles.gable_truss_place,
    saddles.outrigger_count, saddles.outrigger_length,
    carrying.who_carries, carrying.what_hangs, carrying.match_carriers, carrying.count_of_kind,
    carrying.delivery_short, carrying.one_tail_only, carrying.which_way_round, carrying.extension_over,
    carrying.which_bracket,
    loads.roof_on_bearing, loads.uplift_at_bearing, loads.which_holds, loads.plumb_limit, loads.bow_limit,
    loads.tie_rows, loads.brace_angle,
    orders.what_comes_next, orders.what_must_wait, orders.chain_of_work, orders.why_before,
    pointing.point_at_truss, pointing.point_at_line,
    spotting.fault_in_row, spotting.fault_in_diary,
    before_lifting.before_the_first_lift, before_lifting.plate_reading, before_lifting.adding_up,
    before_lifting.studs_under, before_lifting.name_the_fault,
    holding_on.tops_along_a_string, holding_on.crossings_to_fix, holding_on.girder_comes_first,
    holding_on.tied_under_saddles, handing_over.accept_or_reject,
    held_still.over_an_inside_wall, held_still.long_webs, held_still.v_or_cross,
    against.half_truss_height, against.ledger_mark, against.tied_to_the_wall,
)  # fmt: skip
FAMILIES: dict[str, Family] = {family.name: family for family in _ALL}
"""Every family by its name."""
