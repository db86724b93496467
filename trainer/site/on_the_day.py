"""What is decided and done about danger on the day: the lift plan, stopping, and where the first packs land."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from trainer.level.dangers import LATE, Lifting
from trainer.site.actions import Load, Pattern, Plan, Stand, Stop
from trainer.site.conditions import Flaw
from trainer.site.doing import does
from trainer.site.job import Job
from trainer.site.model import Event, Refused, Site, changed
from trainer.site.query import held
from trainer.site.refusals import unknown
from trainer.terms import TrussKind
from trainer.words import _

PEOPLE = 2
"""Fewest people at a lift: two carry by hand; with a crane one lands the truss and one holds the tag line. Common
practice, no source."""
RIGHT_PATTERN: Pattern = "both slopes"
"""Where packs land on a finished roof: in small stacks on both slopes, near the walls. Common practice, no source."""


def plans(job: Job, kind: TrussKind) -> tuple[Plan, ...]:
    """Return the right plans for a kind of truss, the plainest first."""
    limits, lift = job.conditions.lifting or Lifting(), job.lifts[kind]
    spread = Plan(kind=kind, by="crane", people=PEOPLE, slung="spread slings")
    points = Plan(kind=kind, by="crane", people=PEOPLE, slung="panel points")
    by_hand = (Plan(kind=kind, by="hand", people=PEOPLE),) if lift.by_hand(limits) else ()
    return (*by_hand, *(() if lift.spread(limits) else (points,)), spread)


@does(Plan)
def plan(site: Site, index: int, action: Plan) -> tuple[Site, Event] | Refused:
    """Write down how a kind of truss is lifted; the plan in force counts at the next lift of that kind."""
    if action.kind not in site.job.lifts:
        return unknown(_("kind of truss"), action.kind, site.job.lifts)
    as_before = site.plans.get(action.kind) == action
    kinds = site.lifted_kinds if as_before else site.lifted_kinds - {action.kind}
    return changed(site, plans={**site.plans, action.kind: action}, lifted_kinds=kinds), Event(index, action)


@does(Stop)
def stop(site: Site, index: int, action: Stop) -> tuple[Site, Event]:
    """Stop lifting, for a fall or for wind; the wind that it is stopped for blows itself out."""
    over = tuple(flaw for flaw in come_up(site) if flaw.what == "gust at noon")
    fall = replace(site.fall, stopped=True) if site.fall else None
    return changed(site, put_right=site.put_right.union(over), fall=fall), Event(index, action, put_right=over)


def agree(site: Site, index: int, action: Load) -> tuple[Site, Event]:
    """Say where the first packs are to land; nothing is put on the roof by it."""
    return changed(site, pattern=action.pattern or ""), Event(index, action)


def is_there(site: Site, flaw: Flaw) -> bool:
    """Whether a flaw is there yet: some come up only once so many trusses have been lifted."""
    return site.lifted >= flaw.after


def come_up(site: Site) -> tuple[Flaw, ...]:
    """Return the dangers that came up on the day, after the lift before, and that nothing was done about."""
    return tuple(flaw for flaw in site.flaws if flaw.what in LATE and flaw.after == site.lifted)


def loose(site: Site) -> Iterator[str]:
    """Yield the truss still in somebody's hands, where nothing else would hold it."""
    if site.last is not None and not held(site, site.last):
        yield site.last


def counted(after: Site, event: Event) -> tuple[Site, Event]:
    """Count a lift, and let come up what comes up after it."""
    if not isinstance(event.action, Stand):
        return after, event
    tag = event.action.tag
    kind = after.layout.by_tag[after.stood[tag].place or tag].kind
    kinds = after.lifted_kinds if kind in after.lifted_kinds else after.lifted_kinds | {kind}
    after = changed(after, lifted=after.lifted + 1, lifted_kinds=kinds)
    return after, replace(event, seen=(*event.seen, *come_up(after))) if after.job.conditions.flaws else event
