"""A saddle truss set on trusses that were not ready for it."""

from __future__ import annotations

from trainer.rules.carriers import set_down_too_early
from trainer.rules.rule import PRACTICE, Finds, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Saddle {member} was set down {got}. Wanted: {want}."),
    why=_("A saddle sits on the trusses below and loads their tops. Loose trusses lean over under it."),
    fix=_("Take the saddle down. Brace and fix every truss under it first."),
    safety=_("Never stand on a truss that is not braced and fixed."),
    source=PRACTICE,
)
def saddle_before_support(before: Site, event: Event, after: Site) -> Finds:
    """A truss under the saddle just stood was not standing, held and fixed."""
    yield from set_down_too_early(before, after, truss_of(event), lambda member, _carrier: member.kind == "saddle")
