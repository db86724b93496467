"""A hip truss stood before the truncated girder that carries it was ready."""

from __future__ import annotations

from trainer.layout.model import Member
from trainer.rules.carriers import set_down_too_early
from trainer.rules.rule import PRACTICE, Finds, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("Hip truss {member} was set down {got}. Wanted: {want}."),
    why=_("The hip hangs on the truncated girder. Until that is braced and fixed, the hip pushes it over."),
    fix=_("Take the hip down. Stand the truncated girder, brace it and fix both its ends first."),
    safety=_("Keep clear of the corner until both are fixed."),
    source=PRACTICE,
)
def hip_before_truncated_girder(before: Site, event: Event, after: Site) -> Finds:
    """The hip truss just stood hangs on a truncated girder that was not standing, held and fixed."""
    yield from set_down_too_early(before, after, truss_of(event), _on_its_girder)


def _on_its_girder(member: Member, carrier: Member) -> bool:
    return (member.kind, carrier.kind) == ("hip", "truncated_girder")
