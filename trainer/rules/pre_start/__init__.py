"""Mistakes before the first truss is lifted: what was not looked at, or not put right."""

from trainer.rules.pre_start.brackets_left_loose import brackets_left_loose
from trainer.rules.pre_start.check_left_undone import check_left_undone
from trainer.rules.pre_start.missing_truss_not_reported import missing_truss_not_reported
from trainer.rules.pre_start.pack_landed_badly import pack_landed_badly
from trainer.rules.pre_start.plate_out_of_true import plate_out_of_true
from trainer.rules.pre_start.report_without_looking import report_without_looking
from trainer.rules.pre_start.studs_missing_under_girder import studs_missing_under_girder
from trainer.rules.pre_start.unbraced_wall_loaded import unbraced_wall_loaded
from trainer.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    check_left_undone,
    unbraced_wall_loaded,
    studs_missing_under_girder,
    plate_out_of_true,
    pack_landed_badly,
    missing_truss_not_reported,
    brackets_left_loose,
    report_without_looking,
)
"""In the order in which they are told."""
