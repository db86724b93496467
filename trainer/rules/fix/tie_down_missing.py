"""A truss end that nothing holds down, or too little."""

from __future__ import annotations

from trainer.order import needs_bracket
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import ENOUGH, Event, HandOver, Site, bracketed, wanted
from trainer.words import _


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("Wind lifts a roof. Each end must be held down, in one chain from roof to ground."),
    fix=_("Fasten the end with the connector on the plan, with all its nails."),
    safety=_("Work from a platform inside the walls. Do not lean out over the eave."),
    source=PRACTICE,
)
def tie_down_missing(before: Site, event: Event, after: Site) -> Finds:
    """A truss is handed over with an end not fastened as the layout says; once a truss."""
    for place, tag in after.at_place.items() if "fix" in after.job.stages else ():
        if in_wrong_place(after, tag) or after.stood[tag].turned:
            continue
        short = [(end, got) for end in (1, 2) if (got := _short(after, place, end)) is not None]
        if short:
            want = dict.fromkeys(_wanted(after, place, end) for end, _got in short)
            yield Found(tag, listed([got for _end, got in short]), listed(list(want)), f"fix {place}")


def _short(site: Site, place: str, end: int) -> str | None:
    """What is wrong with the fastening of one end, or none."""
    here = site.layout.by_tag[place].ends[end - 1]
    stood = site.stood[site.at_place[place]]
    if needs_bracket(site.layout.by_tag[place], end) and not (
        (here.on_ledger or here.bears_on in site.at_place) and bracketed(site, place, end)
    ):
        return None
    fixed = [fastened.with_ for fastened in site.fixed.get((stood.tag, stood.own_end(end)), ())]
    if any(connector in ENOUGH.get(here.fixing, (here.fixing,)) for connector in fixed):
        return None
    if fixed:
        return _("only {connector} on {bearing}").format(connector=listed(fixed), bearing=here.bears_on)
    return _("nothing to hold it down on {bearing}").format(bearing=here.bears_on)


def _wanted(site: Site, place: str, end: int) -> str:
    connector, count = wanted(site.job, place, end)
    bearing = site.layout.by_tag[place].ends[end - 1].bears_on
    if count > 1:
        return _("{count} × {connector} on {bearing}").format(count=count, connector=connector, bearing=bearing)
    return _("{connector} on {bearing}").format(connector=connector, bearing=bearing)
