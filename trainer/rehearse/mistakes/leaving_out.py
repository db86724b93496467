"""Things left out: brackets and fixings."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.chance import shuffled
from trainer.order import TIED, Step, needs_bracket
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs, without
from trainer.site import Fix, Hung, Job
from trainer.words import _

HOLED = ("hanger", "heavy girder bracket", "framing anchor", "tie-down strap")
"""Connectors with nail holes to fill."""


@needs(_("a truss in a hanger"))
def hanger_missing(job: Job, seed: int) -> Plantings:
    """A hanger is never fitted."""
    yield from _no_bracket(job, seed, "hanger")


@needs(_("a girder hung on another"))
def heavy_girder_bracket_missing(job: Job, seed: int) -> Plantings:
    """A heavy girder bracket is never fitted."""
    yield from _no_bracket(job, seed, "heavy girder bracket")


@needs(_("a truss that carries nothing"))
def tie_down_missing(job: Job, seed: int) -> Plantings:
    """One end of a truss that nothing waits for is nailed, which holds it as it goes up, and never tied down."""
    attempt = RightAttempt.drawn(job, seed)
    ends = [
        Step("fix", member.tag, end)
        for member in job.layout.members
        for end in (1, 2)
        if member.kind in TIED and not job.layout.carries[member.tag] and not needs_bracket(member, end)
    ]
    for step in shuffled([step for step in ends if step in job.order.into], seed, "tie-down"):
        at = attempt.steps.index(step)
        nailed = attempt.actions[at].model_copy(update={"with_": "nails", "count": 1})
        actions = [*attempt.actions[:at], nailed, *attempt.actions[at + 1 :]]
        yield Planted(actions, step.tag, len(actions) - 1)


@needs(_("an end that a connector holds"))
def connector_half_nailed(job: Job, seed: int) -> Plantings:
    """Half the nails of the connector at one end are left out; of a hanger first, where there is one."""
    attempt = RightAttempt.drawn(job, seed)
    ends = [(i, a) for i, a in enumerate(attempt.actions) if isinstance(a, Fix) and a.end and a.with_ in HOLED]
    in_turn = shuffled(ends, seed, "half nailed")
    for i, action in sorted(in_turn, key=lambda each: each[1].with_ != "hanger"):
        half = action.model_copy(update={"nails": "half"})
        actions = [*attempt.actions[:i], half, *attempt.actions[i + 1 :]]
        yield Planted(actions, action.tag, len(actions) - 1)


def _no_bracket(job: Job, seed: int, part: str) -> Plantings:
    for bracket in shuffled(list(_alone(job, part)), seed, part):
        fit = Step("fit", bracket.tag, bracket.end)
        if fit in job.order.into:
            steps, actions = without(job, seed, [fit])
            yield Planted(actions, bracket.tag, steps.index(Step("stand", bracket.tag)))


def _alone(job: Job, part: str) -> Iterator[Hung]:
    """Brackets at a spot of their own; where two trusses share a spot, either could be the one without."""
    for ends in job.hung.values():
        for hung in ends:
            beside = [other for other in ends if abs(other.at - hung.at) <= job.station_tolerance]
            if hung.part == part and len(beside) == 1:
                yield hung
