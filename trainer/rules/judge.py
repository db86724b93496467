"""Every rule, by stage, and the judging of one event."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.rules.brace.bracing_taken_too_early import bracing_taken_too_early
from trainer.rules.brace.row_with_nothing_solid import row_with_nothing_solid
from trainer.rules.brace.stood_before_last_tied import stood_before_last_tied
from trainer.rules.finding import Finding
from trainer.rules.fix.hanger_missing import hanger_missing
from trainer.rules.fix.heavy_girder_bracket_missing import heavy_girder_bracket_missing
from trainer.rules.fix.tie_down_missing import tie_down_missing
from trainer.rules.hand_over.loaded_before_hand_over import loaded_before_hand_over
from trainer.rules.hand_over.truss_left_over import truss_left_over
from trainer.rules.hand_over.truss_missing import truss_missing
from trainer.rules.rule import Rule
from trainer.rules.stand.carried_before_carrier import carried_before_carrier
from trainer.rules.stand.damaged_truss_stood import damaged_truss_stood
from trainer.rules.stand.end_for_end import end_for_end
from trainer.rules.stand.girder_off_plate_line import girder_off_plate_line
from trainer.rules.stand.hip_before_truncated_girder import hip_before_truncated_girder
from trainer.rules.stand.off_station import off_station
from trainer.rules.stand.out_of_order import out_of_order
from trainer.rules.stand.saddle_before_support import saddle_before_support
from trainer.rules.stand.setback_not_the_levels import setback_not_the_levels
from trainer.rules.stand.spacing_too_wide import spacing_too_wide
from trainer.rules.stand.tail_cut import tail_cut
from trainer.rules.stand.tail_where_none_belongs import tail_where_none_belongs
from trainer.rules.stand.taken_down_again import taken_down_again
from trainer.rules.stand.truss_cut import truss_cut
from trainer.rules.stand.wrong_truss_for_place import wrong_truss_for_place
from trainer.site import AnyAction, Event, Site

_ALL: tuple[Rule, ...] = (
    wrong_truss_for_place,
    setback_not_the_levels,
    girder_off_plate_line,
    off_station,
    spacing_too_wide,
    end_for_end,
    hip_before_truncated_girder,
    saddle_before_support,
    carried_before_carrier,
    out_of_order,
    taken_down_again,
    damaged_truss_stood,
    tail_where_none_belongs,
    truss_cut,
    tail_cut,
    row_with_nothing_solid,
    stood_before_last_tied,
    bracing_taken_too_early,
    heavy_girder_bracket_missing,
    hanger_missing,
    tie_down_missing,
    truss_missing,
    truss_left_over,
    loaded_before_hand_over,
)


def _by_action() -> Mapping[type[AnyAction], tuple[Rule, ...]]:
    kinds = dict.fromkeys(kind for rule in _ALL for kind in rule.on)
    return MappingProxyType({kind: tuple(rule for rule in _ALL if kind in rule.on) for kind in kinds})


_BY_ACTION = _by_action()


def all_rules() -> tuple[Rule, ...]:
    """Return every rule, stage by stage in the order of the job."""
    return _ALL


def judge(before: Site, event: Event, after: Site) -> tuple[Finding, ...]:
    """Return what is found in one event: ``before`` and ``after`` are the site on either side of it.

    What is done is judged on any level. What belongs to a stage that the job counts as done is not missed.
    """
    rules = _BY_ACTION.get(type(event.action), ())
    return tuple(finding for rule in rules for finding in rule.judge(before, event, after))
