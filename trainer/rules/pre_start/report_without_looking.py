"""Something reported that is not so, without a look."""

from __future__ import annotations

from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import LOOKED_AT, MEASURED, Event, Site, looked
from trainer.site.actions import Report
from trainer.words import _


@rule(
    severity="habit",
    on=Report,
    what=_("What was reported of {member} is not so: {got}. Wanted: {want}."),
    why=_("Others stop work for a report. One that is not so costs them time, and the next is not believed."),
    fix=_("Take the report back. Next time look first: go to the place, measure the wall, or check the load."),
    safety=_("When in doubt about safety, stop and ask. Asking is never wrong."),
    source=PRACTICE,
)
def report_without_looking(before: Site, event: Event, after: Site) -> Finds:
    """A report of something that is not there, by someone who did not look or measure."""
    action = event.action
    if not isinstance(action, Report) or action.fault == "a fall":
        return
    if not event.put_right and not looked(before, action.fault, action.wall):
        look = [item for item in LOOKED_AT.get(action.fault, ()) if item in before.job.conditions.checks]
        want = (
            _("a look first: {item}").format(item=look[0])
            if look
            else _("a reading first: {what}").format(what=MEASURED[action.fault])
        )
        on_wall = _("wall {wall}").format(wall=action.wall) if action.wall else ""
        yield Found(action.tag or on_wall or _("the site"), action.fault, want)
