"""A truss hung on a carrier that could not carry it yet."""

from __future__ import annotations

from trainer.layout.model import Member
from trainer.rules.carriers import set_down_too_early
from trainer.rules.rule import PRACTICE, Finds, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _


@rule(
    severity="stop-work",
    on=Stand,
    what=_("{member} was set down {got}. Wanted: {want}."),
    why=_("A truss that hangs needs a carrier that can't move. A loose carrier tips, and both come down."),
    fix=_("Take it down again. Stand the carrier, brace it and fix both its ends. Then hang the truss."),
    safety=_("Keep everyone out from under a truss until its carrier is fixed."),
    source=PRACTICE,
)
def carried_before_carrier(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood hangs on a carrier that was not standing, held and fixed. Hips have a rule of their own."""
    yield from set_down_too_early(before, after, truss_of(event), _hangs)


def _hangs(member: Member, carrier: Member) -> bool:
    return member.kind != "saddle" and (member.kind, carrier.kind) != ("hip", "truncated_girder")
