"""A gable truss set back from its wall, with neither studs nor packing."""

from __future__ import annotations

from trainer.rules.framing import gables_asking
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.verge import stud_gap
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got} with no stud. Wanted: {want}."),
    why=_("Cladding or brick ties need something to hold to. The gable truss stands in from the wall's face."),
    fix=_("Fit studs at the spacing. Or pack the truss out to the wall's face."),
    safety=_("Work from a guarded platform or scaffold at the gable. Never lean out over the verge."),
    source=LEVEL,
)
def gable_studs_missing(before: Site, event: Event, after: Site) -> Finds:
    """A gable is handed over with no packing, and a stretch longer than the spacing with no stud."""
    most = after.layout.house.trusses.spacing
    for place, tag, cause in gables_asking(after, "gable stud"):
        if (gap := stud_gap(after, place)) > most + after.job.station_tolerance:
            want = _("studs no more than {most} apart, or packing").format(most=mm(most))
            yield Found(tag, mm(gap, most), want, cause)
