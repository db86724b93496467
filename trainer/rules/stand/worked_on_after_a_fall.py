"""Work that went on while trusses lay where they fell."""

from __future__ import annotations

from trainer.rules.plain import listed
from trainer.rules.rule import INCIDENT, Finds, Found, rule
from trainer.site import Brace, Event, Fall, Fit, Fix, HandOver, Remove, Restrain, Site, Stand, gone_on_around
from trainer.site.actions import Clear, Cut, Inspect, Load, Plumb, String, Unbrace
from trainer.words import _


@rule(
    severity="stop-work",
    on=(Stand, Brace, Unbrace, Fix, Fit, Plumb, String, Restrain, Cut, Remove, Load, Inspect, Clear, HandOver),
    what=_("{member} fell, and {got}. Wanted: {want}."),
    why=_("Someone may be hurt, and what still stands may be damaged. Nobody knows until it has been looked at."),
    fix=_(
        "Stop and help the hurt. Keep people out and report the fall. Once it is released, clear it, "
        "and stand new trusses."
    ),
    safety=_("Leave the place as it is until it is released. Only what saves people comes before that."),
    source=INCIDENT,
)
def worked_on_after_a_fall(before: Site, event: Event, after: Site) -> Finds:
    """A truss was lifted, or what fell was worked on, before the fall was reported and cleared; once a fall.

    What fell, was read as cleared and is handed over as it lay is found again then: the roof is not whole.
    """
    if event.went_on is not None:
        if isinstance(event.action, Stand):
            got = _("{tag} was lifted with the fall not cleared").format(tag=event.action.tag)
        elif isinstance(event.action, HandOver):
            got = _("the roof was handed over with the fall not cleared")
        else:
            got = _("work went on with the fall not cleared")
        yield _found(event.went_on, got)
    elif isinstance(event.action, Clear) and before.fall is not None and not before.fall.reported:
        yield _found(before.fall, _("it was cleared before anybody reported it"))
    if isinstance(event.action, HandOver):
        yield from _handed_over(before)


def _handed_over(site: Site) -> Finds:
    """Once for each cause: the trusses that work went on around and that no new ones were stood for."""
    by_cause: dict[str, list[str]] = {}
    for tag, fall in gone_on_around(site).items():
        if not fall.lying[tag].struck:
            by_cause.setdefault(fall.cause, []).append(tag)
    for cause, tags in by_cause.items():
        got = _("the roof was handed over with the fall never cleared, and no new truss stood")
        yield Found(listed(tags), got, _("what fell cleared, and new trusses stood"), cause)


def _found(fall: Fall, got: str) -> Found:
    fell = [tag for tag, lying in fall.lying.items() if not lying.struck]
    return Found(listed(fell), got, _("all work stopped, the fall reported, then cleared"), fall.cause)
