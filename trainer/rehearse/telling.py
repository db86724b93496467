"""Turns steps into actions, choosing among the right ways to do each."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.chance import pick
from trainer.order import Step
from trainer.site import AnyAction, Job, Refused, Site, act, start, ways


def tell(job: Job, steps: Iterable[Step], seed: int) -> list[AnyAction]:
    """Return an action for each step, in order; ``seed`` chooses among the right ways to do it."""
    return tell_on(start(job), steps, seed)[0]


def tell_on(site: Site, steps: Iterable[Step], seed: int) -> tuple[list[AnyAction], Site]:
    """Return the actions that do ``steps`` on a site where all before them is done, and the site after them."""
    actions: list[AnyAction] = []
    for step in steps:
        action = pick(ways(site, step), seed, "way", step.verb, step.tag, step.end)
        result = act(site, site.done, action)
        if isinstance(result, Refused):
            raise AssertionError(f"{action!r} should have been possible: {result.why}")
        site = result[0]
        actions.append(action)
    return actions, site
