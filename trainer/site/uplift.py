"""Wind lifting at each bearing, and what holds it down: net pressure times the plan area that the bearing carries.

The formula is that of the AS 1684 guides. Pressures and capacities are the level's own invented values; check the
truss plan and the current standard. An extension hands the roof nearest to a crossing down there, as any truss does
to its nearest bearing (:mod:`trainer.layout.shares`), so its fixing there is counted alike: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from trainer.layout.model import Crossing
from trainer.layout.posts import Post, beam_under, post_areas
from trainer.order import needs_bracket
from trainer.site.job import Job
from trainer.site.model import Fastened

Bearing = int | Crossing
"""An end (1 or 2) of a place, or a crossing where the extension of the place runs over another truss."""

ENOUGH: dict[str, tuple[str, ...]] = {
    "framing anchor": ("framing anchor", "tie-down strap"),
    "tie-down strap": ("tie-down strap",),
    "hanger": ("hanger", "nails", "screws"),
    "heavy girder bracket": ("heavy girder bracket", "screws"),
}
"""What will do where the layout names a connector. In a bracket, its own nails or screws hold the truss."""
HEAVIER = {"framing anchor": "tie-down strap"}
MOST = 2
"""As many of a light connector as go on one end before a heavier one is used; common practice, no source."""
SLACK = 1e-6
"""Rounding that no connector is short by, kN."""


def area(job: Job, place: str, at: Bearing) -> float:
    """Plan area that comes down at a bearing of a place, m²: a saddle's own roof is halved between its ends."""
    load = job.loads[place]
    if isinstance(at, Crossing):
        return load.crossings_m2[at.under] if at.bears else 0.0
    if job.layout.by_tag[place].kind == "saddle":
        return load.direct_m2 / 2
    return load.ends_m2[at - 1]


def uplift(job: Job, place: str, at: Bearing) -> float:
    """Uplift at a bearing of a place, kN."""
    return pressure(job, place, at) * area(job, place, at)


def pressure(job: Job, place: str, at: Bearing) -> float:
    """Net pressure at a bearing of a place, kPa: more over a verandah beam, where it is open underneath."""
    tie_down = job.tie_down
    if isinstance(at, Crossing) or beam_under(job.layout.house.plan, job.layout.by_tag[place].ends[at - 1]) is None:
        return tie_down.net_pressure
    return tie_down.pressure_over_beams


def post_uplift(job: Job) -> Mapping[Post, float]:
    """Uplift at each post of a verandah beam, kN, to hold from beam to post and from post to ground."""
    plan, over = job.layout.house.plan, job.tie_down.pressure_over_beams
    return {post: over * m2 for beam in plan.beams for post, m2 in post_areas(job.layout, beam)}


def needed(job: Job, place: str, at: Bearing) -> bool:
    """Whether how much holds a bearing is counted: a bracket was chosen with the house, and is enough or not there."""
    return isinstance(at, Crossing) or not needs_bracket(job.layout.by_tag[place], at)


def drawn(job: Job, place: str, at: Bearing) -> str:
    """The connector that the layout names for a bearing."""
    return (
        job.layout.house.fixings.crossing if isinstance(at, Crossing) else job.layout.by_tag[place].ends[at - 1].fixing
    )


def wanted(job: Job, place: str, at: Bearing) -> tuple[str, int]:
    """Return (connector, how many) that fasten a bearing: as many of the layout's own as it takes, or a heavier one.

    A bracket is one, chosen with the house: see :func:`trainer.session.job.site_faults`.
    """
    own = drawn(job, place, at)
    if not needed(job, place, at):
        return own, 1
    number = _number(job, own, uplift(job, place, at))
    heavier = HEAVIER.get(own)
    if heavier is None or number <= MOST:
        return own, number
    return heavier, _number(job, heavier, uplift(job, place, at))


def held_down(job: Job, connector: str, fastened: Iterable[Fastened]) -> float:
    """What the fixings at one bearing hold in all, kN, where the layout names ``connector``; others don't count."""
    return sum(
        job.tie_down.capacity.of(one.with_) * one.count for one in fastened if one.with_ in ENOUGH.get(connector, ())
    )


def _number(job: Job, connector: str, load: float) -> int:
    return max(1, math.ceil((load - SLACK) / job.tie_down.capacity.of(connector)))
