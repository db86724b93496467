"""The judging of actions one after another, on a site on which nothing has been done."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.rules.finding import Finding
from trainer.rules.judge import judge
from trainer.site import AnyAction, Job, Refused, Site, act, start


def judged(job: Job, actions: Iterable[AnyAction]) -> tuple[Site, tuple[Finding, ...]] | None:
    """Return the site after ``actions`` and all that is found in them; None where nobody could do one of them."""
    site = start(job)
    found: list[Finding] = []
    for index, action in enumerate(actions):
        result = act(site, index, action)
        if isinstance(result, Refused):
            return None
        after, event = result
        found += judge(site, event, after)
        site = after
    return site, tuple(found)
