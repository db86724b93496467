"""The right ways to put in a link of the load path."""

from __future__ import annotations

from trainer.order import Step
from trainer.plan.points import to_half
from trainer.site.actions import AnyAction, Brace, Fit, Fix
from trainer.site.load_path import SLOTTED, trimmer_at
from trainer.site.model import Site
from trainer.site.uplift import wanted


def cross(site: Site, step: Step) -> tuple[AnyAction, ...]:
    """From the extension; or from the truss under it, where nothing else crosses that at the same place."""
    crossing = site.layout.crossings[step.end]
    connector, count = wanted(site.job, crossing.over, crossing)
    over, under = (site.at_place.get(tag, tag) for tag in (crossing.over, crossing.under))
    at = to_half(crossing.at)
    from_over = Fix(tag=over, at=at, with_=connector, count=count)
    there = [c for c in site.job.crossings[crossing.under] if c.at == crossing.at]
    return (from_over, Fix(tag=under, at=at, with_=connector, count=count)) if len(there) == 1 else (from_over,)


def slot(site: Site, step: Step) -> tuple[Fix]:
    """A slotted bracket where the truss passes over the internal wall."""
    return (Fix(tag=_placed(site, step), at=to_half(site.job.wall_spots[step.end].at), with_=SLOTTED),)


def _placed(site: Site, step: Step) -> str:
    """The truss that stands in the step's place; the place's own while none does."""
    return site.at_place.get(step.tag, step.tag)


def join(site: Site, step: Step) -> tuple[Fit]:
    """Its plies are joined into one."""
    return (Fit(part="plies joined", on=_placed(site, step)),)


def seat(site: Site, step: Step) -> tuple[Fit]:
    """A batten under the saddle, from truss to truss."""
    return (Fit(part="batten", on=_placed(site, step)),)


def trim(site: Site, step: Step) -> tuple[Fit]:
    """A trimmer between two trusses, where the end comes."""
    return (Fit(part="trimmer", on=_placed(site, step), at=trimmer_at(site, step.tag, step.end)),)


def prop(site: Site, step: Step) -> tuple[Brace]:
    """A prop under the extension until the trusses under it stand."""
    return (Brace(kind="prop", tags=(_placed(site, step),)),)


def bridge(site: Site, step: Step) -> tuple[Fit]:
    """A trimmer beside the internal wall, to fix that to."""
    return (Fit(part="trimmer", on=_placed(site, step), at=site.job.wall_spots[step.end].run),)
