"""Why a step comes now: what it is for, and what waits for it, as the edges of the order have it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from trainer.order import Step
from trainer.site import Site, done
from trainer.terms import WHAT_FOR
from trainer.words import _, listed

MOST = 2
"""How many trusses that wait are named."""


def why_now(site: Site, step: Step) -> str:
    """Return what a step is for and which trusses wait for it."""
    waiting = list(dict.fromkeys(_waiting(site, step)))
    if not waiting:
        return WHAT_FOR[step.verb]
    named = waiting[:MOST] if len(waiting) <= MOST else [*waiting[:MOST], _("others")]
    return _("{what_for} {trusses} can't go up before.").format(what_for=WHAT_FOR[step.verb], trusses=listed(named))


def _waiting(site: Site, step: Step) -> Iterator[str]:
    """The trusses that may not be stood before this step is done, in the order of the edges."""
    for edge in site.job.order.out_of.get(step, ()):
        if edge.then.verb == "stand" and edge.then.tag != step.tag and not done(site, edge.then):
            yield edge.then.tag


def hints_counted(depths: Sequence[int]) -> str:
    """Return in words how many hints went how deep."""
    counted = Counter(depths)
    return _("Hints: {why} why, {which} which, {where} where, {do_it} do it.").format(
        why=counted[1], which=counted[2], where=counted[3], do_it=counted[4]
    )
