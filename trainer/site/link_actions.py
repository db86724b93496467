"""The right ways to put in a link of the load path."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from trainer.order import Step, Verb
from trainer.plan.points import to_half
from trainer.site.actions import AnyAction, Brace, Fit, Fix
from trainer.site.load_path import SLOTTED, trimmer_at
from trainer.site.model import Site
from trainer.site.uplift import wanted


def _cross(site: Site, step: Step) -> tuple[AnyAction, ...]:
    """From the extension; or from the truss under it, where nothing else crosses that at the same place."""
    crossing = site.layout.crossings[step.end]
    connector, count = wanted(site.job, crossing.over, crossing)
    over, under = (site.at_place.get(tag, tag) for tag in (crossing.over, crossing.under))
    at = to_half(crossing.at)
    from_over = Fix(tag=over, at=at, with_=connector, count=count)
    there = [c for c in site.job.crossings[crossing.under] if c.at == crossing.at]
    return (from_over, Fix(tag=under, at=at, with_=connector, count=count)) if len(there) == 1 else (from_over,)


def _slot(site: Site, step: Step) -> tuple[Fix]:
    return (Fix(tag=_on(site, step), at=to_half(site.job.wall_spots[step.end].at), with_=SLOTTED),)


def _on(site: Site, step: Step) -> str:
    """The truss that stands in the step's place; the place's own while none does."""
    return site.at_place.get(step.tag, step.tag)


LINK_ACTIONS: Mapping[Verb, Callable[[Site, Step], tuple[AnyAction, ...]]] = MappingProxyType(
    {
        "join": lambda site, step: (Fit(part="plies joined", on=_on(site, step)),),
        "seat": lambda site, step: (Fit(part="batten", on=_on(site, step)),),
        "trim": lambda site, step: (Fit(part="trimmer", on=_on(site, step), at=trimmer_at(site, step.tag, step.end)),),
        "prop": lambda site, step: (Brace(kind="prop", tags=(_on(site, step),)),),
        "cross": _cross,
        "bridge": lambda site, step: (Fit(part="trimmer", on=_on(site, step), at=site.job.wall_spots[step.end].run),),
        "slot": _slot,
    }
)
"""For each step of the load path the right actions, the plainest first."""
