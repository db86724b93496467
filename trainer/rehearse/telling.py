"""Turns steps into actions, choosing among the right ways to do each."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.order import Step
from trainer.rehearse.chance import pick
from trainer.site import AnyAction, Job, Refused, act, start, ways


def tell(job: Job, steps: Iterable[Step], seed: int) -> list[AnyAction]:
    """Return an action for each step, in order; ``seed`` chooses among the right ways to do it."""
    site = start(job)
    actions: list[AnyAction] = []
    for step in steps:
        action = pick(ways(site, step), seed, "way", step.verb, step.tag, step.end)
        result = act(site, len(actions), action)
        if isinstance(result, Refused):
            raise AssertionError(f"{action!r} should have been possible: {result.why}")
        site = result[0]
        actions.append(action)
    return actions
