"""A truss end held down by the right kind of connector, but by too few or too light for the wind."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import listed
from trainer.rules.rule import LEVEL, Found, rule
from trainer.site import Event, Fastened, HandOver, Site, area, held_down, needed, uplift, wanted
from trainer.words import _

SLACK = 0.005
"""Short by less is not short: what is said is rounded to 0.01 kN."""


@rule(
    "tie-down-too-light",
    stage="fix",
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("Wind lifts each end by the roof it carries. Too few connectors let go, and the roof goes with them."),
    fix=_("Work out the lift: net pressure times roof area. Add connectors until they hold that much."),
    safety=_("Follow the tie-down plan. If it seems wrong, stop and ask the designer."),
    source=LEVEL,
)
def tie_down_too_light(before: Site, event: Event, after: Site) -> Iterator[Found]:
    """A truss is handed over with an end whose connectors hold less than the wind lifts; once a truss."""
    for place, tag in after.at_place.items() if "fix" in after.job.stages else ():
        stood = after.stood[tag]
        if in_wrong_place(after, tag) or stood.turned:
            continue
        for end in (1, 2):
            fixed = after.fixed.get((tag, stood.own_end(end)), ())
            own = after.layout.by_tag[place].ends[end - 1].fixing
            holds = held_down(after.job, own, fixed)
            if needed(after.job, place, end) and 0 < holds < uplift(after.job, place, end) - SLACK:
                yield Found(tag, _got(after, place, end, fixed, holds), _want(after, place, end), f"fix {place}")
                break


def _got(site: Site, place: str, end: int, fixed: tuple[Fastened, ...], holds: float) -> str:
    bearing = site.layout.by_tag[place].ends[end - 1].bears_on
    text = _("{connectors} on {bearing}, which hold {holds:.1f} kN")
    each = listed([f"{one.count} × {one.with_}" for one in fixed])
    return text.format(connectors=each, bearing=bearing, holds=holds)


def _want(site: Site, place: str, end: int) -> str:
    """The arithmetic: pressure times area is the lift, and what holds that."""
    connector, count = wanted(site.job, place, end)
    text = _("{pressure:.2f} kPa × {area:.2f} m² = {lift:.1f} kN of lift, so {count} × {connector} at {each:.1f} kN")
    return text.format(
        pressure=site.job.tie_down.net_pressure,
        area=area(site.job, place, end),
        lift=uplift(site.job, place, end),
        count=count,
        connector=connector,
        each=site.job.tie_down.capacity.of(connector),
    )
