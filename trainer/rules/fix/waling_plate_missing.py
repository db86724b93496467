"""Hips and jacks that land on a dutch gable's girder before its waling plate is on."""

from __future__ import annotations

from trainer.layout.model import Crossing
from trainer.order.verge import WALING
from trainer.rules.placement import in_wrong_place
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, Fix, HandOver, Site, Stand
from trainer.site.load_path import crossed, parts_on
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, Fix, HandOver),
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("The tops of hips and jacks rest on the waling plate. With none, they drop or roll off the girder's face."),
    fix=_("Prop what has landed. Fix the waling plate to the girder, level, at the height on the plan."),
    safety=_("Keep out from under the hip end until its tops rest on the plate."),
    source=PRACTICE,
)
def waling_plate_missing(before: Site, event: Event, after: Site) -> Finds:
    """The first hip or jack lands on a girder that has no waling plate, or it is handed over so."""
    for girder, asked in after.job.gable_frames if "fix" in after.job.stages else ():
        tag = after.at_place.get(girder)
        if asked != WALING or tag is None or parts_on(after, girder, "waling plate") or in_wrong_place(after, tag):
            continue
        landing = [c for c in after.job.crossings.get(girder, ()) if c.under == girder]
        first = any(_landed(after, c) for c in landing) and not any(_landed(before, c) for c in landing)
        if first or isinstance(event.action, HandOver):
            want = _("the waling plate on it before a hip or jack lands there")
            yield Found(tag, _("no waling plate"), want, f"frame {girder} waling plate")


def _landed(site: Site, crossing: Crossing) -> bool:
    """Whether a top lies on the girder: what hangs on it as soon as both stand, what runs on to it once it is fixed."""
    if crossing.bears:
        return crossed(site, crossing)
    return crossing.over in site.at_place and crossing.under in site.at_place
