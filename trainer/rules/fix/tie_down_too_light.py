"""A truss held down by the right kind of connector, but by too few or too light for the wind."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.layout.model import Crossing
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import listed
from trainer.rules.rule import LEVEL, Finds, Found, rule
from trainer.site import (
    Bearing,
    Event,
    Fastened,
    HandOver,
    Site,
    area,
    crossing_key,
    drawn,
    held_down,
    needed,
    pressure,
    uplift,
    wanted,
)
from trainer.words import _

SLACK = 0.005
"""Short by less is not short: what is said is rounded to 0.01 kN."""


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_(
        "Wind lifts each end, and each crossing, by the roof it carries. Too few connectors let go, and the roof goes."
    ),
    fix=_(
        "Work out the uplift: net pressure times the roof area, in plan, that this end holds. Add connectors until "
        "they hold that much."
    ),
    safety=_("Follow the tie-down plan. If it seems wrong, stop and ask the designer."),
    source=LEVEL,
)
def tie_down_too_light(before: Site, event: Event, after: Site) -> Finds:
    """A truss is handed over with connectors that hold less than the wind lifts: at an end, or where it crosses."""
    for place, tag in after.at_place.items() if "fix" in after.job.stages else ():
        if in_wrong_place(after, tag):
            continue
        if not after.stood[tag].turned:
            yield from _first(after, tag, f"fix {place}", ((place, end) for end in (1, 2)))
        crossings = (c for c in after.job.crossings.get(place, ()) if c.over == place and c.under in after.at_place)
        yield from _first(after, tag, f"cross {place}", ((place, crossing) for crossing in crossings))


def _first(site: Site, tag: str, cause: str, bearings: Iterable[tuple[str, Bearing]]) -> Finds:
    """The first of a truss's bearings that is held too lightly: the others have the same cause."""
    for place, at in bearings:
        fixed = _fixed(site, tag, at)
        holds = held_down(site.job, drawn(site.job, place, at), fixed)
        if needed(site.job, place, at) and 0 < holds < uplift(site.job, place, at) - SLACK:
            yield Found(tag, _got(site, place, at, fixed, holds), _want(site, place, at), cause)
            return


def _fixed(site: Site, tag: str, at: Bearing) -> tuple[Fastened, ...]:
    key = crossing_key(site, at) if isinstance(at, Crossing) else (tag, site.stood[tag].own_end(at))
    return () if key is None else site.fixed.get(key, ())


def _got(site: Site, place: str, at: Bearing, fixed: tuple[Fastened, ...], holds: float) -> str:
    if isinstance(at, Crossing):
        bearing = site.at_place[at.under]
        text = _("{connectors} where it crosses {bearing}, holding {holds:.2f} kN")
    else:
        bearing = site.layout.by_tag[place].ends[at - 1].bears_on
        text = _("{connectors} on {bearing}, holding {holds:.2f} kN")
    each = listed([f"{one.count} × {one.with_}" for one in fixed])
    return text.format(connectors=each, bearing=bearing, holds=holds)


def _want(site: Site, place: str, at: Bearing) -> str:
    """The arithmetic: the pressure there times area is the uplift, and how many that hold so much each it takes."""
    connector, count = wanted(site.job, place, at)
    text = _(
        "{pressure:.2f} kPa × {area:.3f} m² = {lift:.2f} kN of uplift, "
        "which takes {count} × {connector}, each holding {each:.2f} kN"
    )
    return text.format(
        pressure=pressure(site.job, place, at),
        area=area(site.job, place, at),
        lift=uplift(site.job, place, at),
        count=count,
        connector=connector,
        each=site.job.tie_down.capacity.of(connector),
    )
