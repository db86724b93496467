"""What the job sheet says of lifting: the limits of the house, and how heavy and long each kind of truss is."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.rules.plain import kg, mm
from trainer.site import Job
from trainer.terms import counted
from trainer.words import _


def lift_sheet(job: Job) -> Iterator[str]:
    """Yield the lines about lifting, in plain sentences; none where no lift plan is asked for."""
    if job.conditions.lifting is None:
        return
    yield _("Plan the lift of each kind of truss before the first of it goes up.")
    yield from lift_limits(job)
    for kind, lift in job.lifts.items():
        text = _("{trusses}, up to {mass} and {length} long.")
        yield text.format(trusses=counted(kind, lift.many), mass=kg(lift.mass), length=mm(lift.length))
    yield _(
        "Lengths are between bearings, without tails. These figures are invented. "
        "The fabricator's own sheet gives the mass of each truss."
    )


def lift_limits(job: Job) -> Iterator[str]:
    """Yield what a lift plan of this house goes by, in plain sentences; nothing where none is asked for."""
    limits = job.conditions.lifting
    if limits is None:
        return
    hands = _("By hand, two people: no more than {mass} and {length} long. A crane beyond that, with two people.")
    yield hands.format(mass=kg(limits.by_hand), length=mm(limits.by_hand_span))
    spread = _("Slung at panel points. Over {length}: spread slings or a spreader.")
    yield spread.format(length=mm(limits.spread_over))
