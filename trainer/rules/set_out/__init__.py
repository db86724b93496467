"""Mistakes of setting out: marks that are off, to the wrong face, or measured bay by bay."""

from trainer.rules.rule import Rule
from trainer.rules.set_out.far_bearing_not_carried_across import far_bearing_not_carried_across
from trainer.rules.set_out.mark_off_station import mark_off_station
from trainer.rules.set_out.mark_to_wrong_face import mark_to_wrong_face
from trainer.rules.set_out.measured_bay_by_bay import measured_bay_by_bay
from trainer.rules.set_out.station_not_marked import station_not_marked

RULES: tuple[Rule, ...] = (
    mark_off_station,
    mark_to_wrong_face,
    measured_bay_by_bay,
    far_bearing_not_carried_across,
    station_not_marked,
)
"""In the order in which they are told."""
