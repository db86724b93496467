"""Outriggers that run in less far than they stand out."""

from __future__ import annotations

from trainer.rules.framing import gables_asking
from trainer.rules.plain import mm
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.load_path import parts_on
from trainer.site.verge import far_enough, reach, stand_out
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("On {member} the outriggers run {got}. Wanted: {want}."),
    why=_("They work as a seesaw over the gable truss. With less inside than outside, the verge tips them up."),
    fix=_("Put in longer ones. Run them in as far as they stand out, or further. Fix them to a truss there."),
    safety=_("Work from a guarded platform or scaffold at the gable. Never lean out over the verge."),
    source=PRACTICE,
)
def outriggers_not_far_enough_back(before: Site, event: Event, after: Site) -> Finds:
    """The last truss that outriggers reach is less far in from the gable truss's centre than the verge is out."""
    for place, tag, cause in gables_asking(after, "outrigger"):
        short = [piece for piece in parts_on(after, place, "outrigger") if not far_enough(after, place, piece)]
        if short:
            back = min(piece.back or 0.0 for piece in short)
            got = _("{back} in from its centre").format(back=mm(back, reach(after, place)))
            want = _("{reach} in, to the first truss that is at least as far in as they stand out ({out})")
            want = want.format(reach=mm(reach(after, place)), out=mm(stand_out(after, place)))
            yield Found(tag, got, want, cause)
