"""Mistakes before the first truss is lifted: what was not looked at, or not put right."""

from trainer.rules.pre_start.brackets_left_loose import brackets_left_loose
from trainer.rules.pre_start.check_left_undone import check_left_undone
from trainer.rules.pre_start.edge_left_open import edge_left_open
from trainer.rules.pre_start.forecast_not_heeded import forecast_not_heeded
from trainer.rules.pre_start.ledger_not_on_studs import ledger_not_on_studs
from trainer.rules.pre_start.lift_not_planned import lift_not_planned
from trainer.rules.pre_start.lifted_without_licence import lifted_without_licence
from trainer.rules.pre_start.missing_truss_not_reported import missing_truss_not_reported
from trainer.rules.pre_start.pack_landed_badly import pack_landed_badly
from trainer.rules.pre_start.people_under_the_lift import people_under_the_lift
from trainer.rules.pre_start.plate_out_of_true import plate_out_of_true
from trainer.rules.pre_start.report_without_looking import report_without_looking
from trainer.rules.pre_start.service_line_in_reach import service_line_in_reach
from trainer.rules.pre_start.slings_not_spread import slings_not_spread
from trainer.rules.pre_start.slung_at_apex import slung_at_apex
from trainer.rules.pre_start.stair_void_open import stair_void_open
from trainer.rules.pre_start.studs_missing_under_girder import studs_missing_under_girder
from trainer.rules.pre_start.too_few_to_lift import too_few_to_lift
from trainer.rules.pre_start.too_heavy_by_hand import too_heavy_by_hand
from trainer.rules.pre_start.unbraced_wall_loaded import unbraced_wall_loaded
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    check_left_undone,
    service_line_in_reach,
    stair_void_open,
    edge_left_open,
    people_under_the_lift,
    forecast_not_heeded,
    lifted_without_licence,
    unbraced_wall_loaded,
    studs_missing_under_girder,
    ledger_not_on_studs,
    plate_out_of_true,
    pack_landed_badly,
    missing_truss_not_reported,
    brackets_left_loose,
    lift_not_planned,
    too_heavy_by_hand,
    too_few_to_lift,
    slung_at_apex,
    slings_not_spread,
    report_without_looking,
)
"""In the order in which they are told."""
