"""A hanger, an anchor or a strap with half its nail holes empty."""

from __future__ import annotations

from trainer.rules.inspected import cause_of_half
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import Event, HandOver, Site
from trainer.site.query import half_nailed, half_nailed_between
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("A connector holds what its figure says only with every nail in. Half the nails hold about half of it."),
    fix=_("Fill every hole that the maker's sheet asks for. Use the nails it names."),
    safety=_("Work from a platform. Hang nothing more on a bracket that is half filled."),
    source=PRACTICE,
)
def connector_half_nailed(before: Site, event: Event, after: Site) -> Finds:
    """A truss is handed over with an end, or a crossing, that only half-filled connectors hold; once a truss."""
    for tag in after.stood if "fix" in after.job.stages else ():
        at_ends, between = half_nailed(after, tag), half_nailed_between(after, tag)
        if at_ends:
            end, connector = at_ends[0]
            got = _("a {connector} with half its nails at end {end}").format(connector=connector, end=end)
        elif between:
            got = _("a {connector} with half its nails between its ends").format(connector=between[0])
        else:
            continue
        yield Found(tag, got, _("every nail hole filled that the sheet asks for"), cause_of_half(after, tag))
