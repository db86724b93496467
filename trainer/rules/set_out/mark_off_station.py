"""A mark that is further from its station than the level allows."""

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
    why=_("A truss goes where its mark says. A wrong mark puts a wrong truss line in the whole roof."),
    fix=_("Strike the line out. Measure again from the end, and mark it clearly."),
    safety=_("Mark out from a ladder or platform, never from the plate."),
    source=LEVEL,
)
def mark_off_station(before: Site, event: Event, after: Site) -> Finds:
    """The mark just made is out by more than the level's tolerance, and its station is not marked right already."""
    where = marked_on(event)
    wrong = mismarked(after, where, after.set_out[where][-1])
    if wrong is None or wrong.how == "face":
        return
    if not is_marked(before, where, wrong.station.run, after.job.station_tolerance):
        got = _("{out} off, on {where}").format(
            out=mm(abs(wrong.out), after.job.station_tolerance), where=called(after, where)
        )
        want = _("within {near} of {run:g}").format(near=mm(after.job.station_tolerance), run=wrong.station.run)
        yield Found(wrong.station.tag, got, want, wrong.cause)
