"""The top of a truss off the line of the others."""

from __future__ import annotations

from trainer.rules.rule import LEVEL, Finds, rule
from trainer.rules.trueness import handed_over_untrue
from trainer.site import Event, HandOver, Site
from trainer.words import _


@rule(
    severity="tolerance",
    on=HandOver,
    what=_("{member} stands {got} of the others. Wanted: {want}."),
    why=_("The ridge then wanders. Plates are rarely dead straight, so tails in line don't put tops in line."),
    fix=_(
        "Pull a string between the tops of the two outermost standard trusses. Shift the truss until its top meets it."
    ),
    safety=_("Shift a truss only while others hold it. Keep clear of the outside walls."),
    source=LEVEL,
)
def apex_off_line(before: Site, event: Event, after: Site) -> Finds:
    """A full-height truss was lined up by a plate that is not straight."""
    yield from handed_over_untrue(after, "apex")
