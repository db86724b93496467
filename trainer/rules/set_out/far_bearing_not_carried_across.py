"""The two marks for a girder that are each near enough, and not square with each other."""

from __future__ import annotations

from trainer.layout import Member
from trainer.layout.marks import along_bearing
from trainer.rules.marks import marked_on
from trainer.rules.plain import mm
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import READ, Event, Mark, Site
from trainer.words import _


@rule(
    severity="tolerance",
    on=Mark,
    what=_("The two marks for {member} are {got}. Wanted: {want}."),
    why=_("A girder that stands askew makes every truss on it a different length. None of them then fits."),
    fix=_("Carry one measurement across to the far side. Mark both ends from it."),
    safety=_("Mark out from a ladder or platform, never from the plate."),
    source=PRACTICE,
)
def far_bearing_not_carried_across(before: Site, event: Event, after: Site) -> Finds:
    """The mark just made puts the second end of a girder out of square, though each mark is near enough."""
    where = marked_on(event)
    mark = after.set_out[where][-1]
    near = after.job.station_tolerance
    for station in (each for each in after.job.stations.get(where, ()) if abs(mark.is_at - each.run) <= near):
        member = after.layout.by_tag[station.tag]
        if member.kind in ("girder", "truncated_girder"):
            other = _other_end(after, member, 3 - station.end)
            if other and abs(askew := _in_plan(after, member, station.end, mark.is_at - station.run) - other[0]) > (
                near + 2 * READ
            ):
                got = _("{out} out of square with each other").format(out=mm(abs(askew)))
                yield Found(member.tag, got, _("both from one measurement"), f"square {member.tag}")


def _other_end(site: Site, member: Member, end: int) -> tuple[float] | None:
    """How far the last mark for the other end is out in plan, if there is one and it is near enough by itself."""
    where = along_bearing(site.layout, member, end)[0]
    run = next((s.run for s in site.job.stations.get(where, ()) if (s.tag, s.end) == (member.tag, end)), None)
    outs = [mark.is_at - run for mark in site.set_out.get(where, ()) if run is not None]
    close = [out for out in outs if abs(out) <= site.job.station_tolerance]
    return (_in_plan(site, member, end, close[-1]),) if close else None


def _in_plan(site: Site, member: Member, end: int, out: float) -> float:
    """A measure along what an end bears on, as one to the left of the member, mm."""
    (ux, uy), (vx, vy) = along_bearing(site.layout, member, end)[2], member.direction
    return out * (ux * -vy + uy * vx)
