"""The right ways to do a step: what a hint suggests, and what a rehearsal chooses from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from types import MappingProxyType
from typing import Literal

from trainer.order import Step, Verb
from trainer.order.inspection import READINGS
from trainer.order.model import spot
from trainer.order.verge import FRAMED
from trainer.site.actions import (
    AnyAction,
    Brace,
    Check,
    Clear,
    Fit,
    Fix,
    HandOver,
    Inspect,
    Load,
    Mark,
    Measure,
    Plan,
    Plumb,
    Report,
    Restrain,
    Stand,
    Stop,
    String,
    Unbrace,
)
from trainer.site.bracing import LONGEST
from trainer.site.inspection import sound
from trainer.site.link_actions import LINK_ACTIONS
from trainer.site.model import Site
from trainer.site.on_the_day import RIGHT_PATTERN, plans
from trainer.site.overnight import unsafe_rows
from trainer.site.placing import same_both_ways
from trainer.site.query import beside, bracket_wanted, held, mark_wanted, occupant, string_ends
from trainer.site.restraints import locked
from trainer.site.striking import next_out
from trainer.site.uplift import wanted
from trainer.site.verge import centres, reach


def step_actions(site: Site, step: Step) -> tuple[AnyAction, ...]:
    """Return the right actions for a step that is ready on this site, the plainest first.

    A step for a truss that does not stand is told as if the place's own truss stood there.
    """
    return _ACTIONS[step.verb](site, step)


def _check(_site: Site, step: Step) -> tuple[Check]:
    return (Check(item=step.tag),)


def _report(site: Site, step: Step) -> tuple[Report]:
    flaw = site.job.conditions.flaws[step.end]
    given = {"fault": flaw.what, "wall": flaw.wall or None, "tag": flaw.tag or None, "at": flaw.at}
    return (Report.model_validate(given),)


def _plan(site: Site, step: Step) -> tuple[Plan, ...]:
    return plans(site.job, next(kind for kind in site.job.lifts if kind == step.tag))


def _fit(site: Site, step: Step) -> tuple[Fit]:
    carrier, bracket = bracket_wanted(site, step.tag, step.end)
    return (Fit(part=bracket.part, on=carrier, at=bracket.at),)


def _mark(site: Site, step: Step) -> tuple[Mark]:
    where, at = mark_wanted(site, step.tag, step.end)
    on_wall = bool(site.layout.by_tag[step.tag].ends[step.end - 1].wall)
    return (Mark(wall=where, at=at) if on_wall else Mark(on=where, at=at),)


def _stand(site: Site, step: Step) -> tuple[Stand, ...]:
    """As drawn; a truss with like ends also the other way about."""
    member = site.layout.by_tag[step.tag]
    as_drawn = Stand(tag=member.tag, start=member.start, finish=member.finish)
    if not same_both_ways(member):
        return (as_drawn,)
    return as_drawn, Stand(tag=member.tag, start=member.finish, finish=member.start)


def _tie(site: Site, step: Step) -> tuple[Brace, ...]:
    """Battens to neighbours a bay away that are held; solid where none is, as a girder of an opening always is.

    At a higher wall its top is tied to that.
    """
    place = step.tag
    tag = site.at_place.get(place, place)
    if place in site.layout.at_wall:
        return (Brace(kind="wall tie", tags=(tag,)),)
    solid = Brace(kind="solid", tags=(tag,))
    if site.layout.by_tag[place].kind == "girder" or tag not in site.stood:
        return (solid,)
    held_near = [other for other in beside(site, tag) if held(site, other)]
    choices: list[tuple[str, ...]] = [(tag, other) for other in held_near]
    every = site.job.bracing.batten_rows
    if len(held_near) > 1:
        choices.append((held_near[0], tag, held_near[1]))
    return tuple(Brace(kind="batten", tags=tags, every=every) for tags in choices) or (solid,)


def _secure(site: Site, step: Step) -> tuple[Brace, ...]:
    """A diagonal between the two nearest trusses of those that could rack; where none are near, one more solid."""
    tips = next((tags for row, tags in unsafe_rows(site) if row == step.tag), ())
    if not tips:
        return ()
    places = {tag: site.layout.by_tag[site.stood[tag].place or tag] for tag in tips}
    one, other = min(pairwise(tips), key=lambda pair: abs(spot(places[pair[0]]) - spot(places[pair[1]])))
    if abs(spot(places[one]) - spot(places[other])) <= LONGEST:
        return (Brace(kind="diagonal", tags=(one, other)),)
    solid = {tag for piece in site.bracing if piece.solid for tag in piece.tags}
    return (Brace(kind="solid", tags=(next((tag for tag in tips if tag not in solid), one),)),)


def _strike(site: Site, _step: Step) -> tuple[Brace | Unbrace, ...]:
    action = next_out(site)
    return (action,) if action else ()


def _string(site: Site, step: Step) -> tuple[String]:
    first, last = (site.at_place.get(place, place) for place in string_ends(site, step.tag))
    return (String(start=first, finish=last),)


def _plumb(site: Site, step: Step) -> tuple[Plumb | Unbrace]:
    """One that is braced for good has to be released first."""
    tag = site.at_place.get(step.tag, step.tag)
    return (Unbrace(kind="roof brace", tags=(tag,)) if tag in locked(site) else Plumb(tag=tag),)


def _read(site: Site, step: Step) -> tuple[Measure]:
    what: Literal["plumb", "bow"] = "plumb" if READINGS[step.end] == "plumb" else "bow"
    return (Measure(what=what, tag=step.tag),)


def _inspect(site: Site, step: Step) -> tuple[Inspect]:
    return (Inspect(tag=step.tag, accept=step.tag not in site.stood or sound(site, step.tag)),)


def _fix(site: Site, step: Step) -> tuple[Fix]:
    truss = occupant(site, step.tag)
    connector, count = wanted(site.job, step.tag, step.end)
    if truss is None:
        return (Fix(tag=step.tag, end=step.end, with_=connector, count=count),)
    return (Fix(tag=truss.tag, end=truss.own_end(step.end), with_=connector, count=count),)


def _restrain(site: Site, step: Step) -> tuple[Restrain, ...]:
    """As planned, from either end."""
    piece = site.job.restraint(step.tag)
    as_planned = Restrain(kind=piece.kind, start=piece.start, finish=piece.finish)
    return as_planned, Restrain(kind=piece.kind, start=piece.finish, finish=piece.start)


def _frame(site: Site, step: Step) -> tuple[Fit, ...]:
    """A set at the spacing; outriggers as far in as they must run, or to the truss after; studs, or packing instead."""
    tag, part = site.at_place.get(step.tag, step.tag), FRAMED[step.end - 1]
    every = float(site.layout.house.trusses.spacing)
    if part == "outrigger":
        far_in = [far for far in centres(site, step.tag) if far >= reach(site, step.tag)][:2]
        return tuple(Fit(part=part, on=tag, every=every, back=far) for far in far_in or (0.0,))
    if part == "gable stud":
        return Fit(part=part, on=tag, every=every), Fit(part="packer", on=tag)
    return (Fit(part=part, on=tag),)


_ACTIONS: Mapping[Verb, Callable[[Site, Step], tuple[AnyAction, ...]]] = MappingProxyType(
    {
        "check": _check,
        "report": _report,
        "plan": _plan,
        "stop": lambda _site, _step: (Stop(),),
        "load": lambda _site, _step: (Load(what="packs", pattern=RIGHT_PATTERN),),
        "mark": _mark,
        "fit": _fit,
        "stand": _stand,
        "secure": _secure,
        "strike": _strike,
        "clear": lambda _site, _step: (Clear(),),
        "string": _string,
        "plumb": _plumb,
        "tie": _tie,
        "fix": _fix,
        "read": _read,
        "inspect": _inspect,
        **LINK_ACTIONS,
        "restrain": _restrain,
        "frame": _frame,
        "hand_over": lambda _site, _step: (HandOver(),),
    }
)
