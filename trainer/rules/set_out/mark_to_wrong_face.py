"""A mark to another face of the truss than the level's marks show."""

from __future__ import annotations

from trainer.rules.marks import called, is_marked, marked_on, mismarked
from trainer.rules.plain import mm
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import Event, Mark, Site
from trainer.words import _


@rule(
    severity="tolerance",
    on=Mark,
    what=_("The mark for {member} is {got}. Wanted: {want}."),
    why=_("Marks must all mean the same. A mark to another face puts its truss out by half its thickness."),
    fix=_("Strike the line out, and mark the face that the truss plan names."),
    safety=_("Mark out from a ladder or platform, never from the plate."),
    source=LEVEL,
)
def mark_to_wrong_face(before: Site, event: Event, after: Site) -> Finds:
    """The mark just made shows another face of its truss than the level's marks do."""
    where = marked_on(event)
    wrong = mismarked(after, where, after.set_out[where][-1])
    if wrong is None or wrong.how != "face":
        return
    if not is_marked(before, where, wrong.station.run, after.job.station_tolerance):
        to_face = after.layout.house.trusses.stations_to == "near face"
        want = _("to the face nearest the end wall") if to_face else _("to the middle of the truss")
        got = _("{out} off, on {where}, which is another face").format(
            out=mm(abs(wrong.out)), where=called(after, where)
        )
        yield Found(wrong.station.tag, got, want, wrong.cause)
