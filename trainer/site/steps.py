"""The steps of a job on the site: when each is done, and the right ways to do it.

The ways are what a hint suggests, and what a rehearsal chooses from.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from types import MappingProxyType
from typing import Literal, NamedTuple

from trainer.order import TIED, Edge, Step, finishing
from trainer.order.inspection import READINGS
from trainer.order.model import spot
from trainer.order.verge import FRAMED
from trainer.site import link_actions as link
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
    Report,
    Restrain,
    Stand,
    Stop,
    String,
)
from trainer.site.bracing import LONGEST
from trainer.site.inspection import sound
from trainer.site.load_path import bridged, crossed, joined, propped, seated, slotted, trimmed
from trainer.site.model import Site
from trainer.site.on_the_day import RIGHT_PATTERN, plans
from trainer.site.overnight import unsafe_rows
from trainer.site.placing import same_both_ways
from trainer.site.query import (
    beside,
    bracket_wanted,
    bracketed,
    end_fixed,
    held,
    mark_wanted,
    marked,
    occupant,
    string_ends,
    string_up,
    tied,
)
from trainer.site.releasing import coming_out, straightening
from trainer.site.restraints import is_in
from trainer.site.shape import untrue
from trainer.site.uplift import wanted
from trainer.site.verge import centres, framed, reach
from trainer.terms import STAGE_OF, StepVerb


def _check(_site: Site, step: Step) -> tuple[Check]:
    """Look at one item of the pre-start."""
    return (Check(item=step.tag),)


def _report(site: Site, step: Step) -> tuple[Report]:
    """Say what is wrong and where."""
    flaw = site.job.conditions.flaws[step.end]
    given = {"fault": flaw.what, "wall": flaw.wall or None, "tag": flaw.tag or None, "at": flaw.at}
    return (Report.model_validate(given),)


def _plan(site: Site, step: Step) -> tuple[Plan, ...]:
    """Plan how a kind of truss is lifted."""
    return plans(site.job, next(kind for kind in site.job.lifts if kind == step.tag))


def _fit(site: Site, step: Step) -> tuple[Fit]:
    """The bracket for a hung end, on its carrier."""
    carrier, bracket = bracket_wanted(site, step.tag, step.end)
    return (Fit(part=bracket.part, on=carrier, at=bracket.at),)


def _mark(site: Site, step: Step) -> tuple[Mark]:
    """A mark on the plate or on the carrier, where the end comes."""
    where, at = mark_wanted(site, step.tag, step.end)
    on_wall = bool(site.layout.by_tag[step.tag].ends[step.end - 1].wall)
    return (Mark(wall=where, at=at) if on_wall else Mark(on=where, at=at),)


def _stand(site: Site, step: Step) -> tuple[Stand, ...]:
    """As drawn; a truss with like ends also the other way about. Where it stands in another's place, one like it."""
    member = site.layout.by_tag[step.tag]
    like = (m.tag for m in site.layout.members if m.like == member.like and m.tag in site.at_place.keys() - site.stood)
    tag = next(like, member.tag) if member.tag in site.stood else member.tag
    as_drawn = Stand(tag=tag, start=member.start, finish=member.finish)
    if not same_both_ways(member):
        return (as_drawn,)
    return as_drawn, Stand(tag=tag, start=member.finish, finish=member.start)


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


def _strike(site: Site, _step: Step) -> tuple[AnyAction, ...]:
    """Whatever temporary bracing comes out now, one after the other."""
    return coming_out(site)


def _string(site: Site, step: Step) -> tuple[String]:
    """A string along the row's full-height trusses."""
    first, last = (site.at_place.get(place, place) for place in string_ends(site, step.tag))
    return (String(start=first, finish=last),)


def _plumb(site: Site, step: Step) -> tuple[AnyAction]:
    """Straighten a truss."""
    return (straightening(site, site.at_place.get(step.tag, step.tag)),)


def _read(site: Site, step: Step) -> tuple[Measure]:
    """Measure a truss for the inspection."""
    what: Literal["plumb", "bow"] = "plumb" if READINGS[step.end] == "plumb" else "bow"
    return (Measure(what=what, tag=step.tag),)


def _inspect(site: Site, step: Step) -> tuple[Inspect]:
    """The verdict that a truss as it stands deserves."""
    return (Inspect(tag=step.tag, accept=step.tag not in site.stood or sound(site, step.tag)),)


def _fix(site: Site, step: Step) -> tuple[Fix]:
    """As the schedule of fixings has it, at whichever end of the truss that stands there."""
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


def _hand_over(_site: Site, _step: Step) -> tuple[HandOver]:
    """Hand the roof over."""
    return (HandOver(),)


def _stop(_site: Site, _step: Step) -> tuple[Stop]:
    """Stop the lift."""
    return (Stop(),)


def _clear(_site: Site, _step: Step) -> tuple[Clear]:
    """Clear up what fell."""
    return (Clear(),)


def _load(_site: Site, _step: Step) -> tuple[Load]:
    """Say where the first packs land."""
    return (Load(what="packs", pattern=RIGHT_PATTERN),)


class _StepOnSite(NamedTuple):
    """Whether a step is done, and the right actions that do it, the plainest first."""

    done: Callable[[Site, Step], bool]
    actions: Callable[[Site, Step], tuple[AnyAction, ...]]


def _put_right(site: Site, step: Step) -> bool:
    return site.job.conditions.flaws[step.end] in site.put_right


def _true(site: Site, step: Step) -> bool:
    return step.tag in site.at_place and next(untrue(site, site.at_place[step.tag]), None) is None


def _never(_site: Site, _step: Step) -> bool:
    """What is asked for by how the site stands, and not by the order of the job, is never behind one."""
    return False


_STEPS: Mapping[StepVerb, _StepOnSite] = MappingProxyType(
    {
        "check": _StepOnSite(lambda site, step: step.tag in site.checked, _check),
        "report": _StepOnSite(_put_right, _report),
        "plan": _StepOnSite(lambda site, step: step.tag in site.plans, _plan),
        "mark": _StepOnSite(marked, _mark),
        "fit": _StepOnSite(lambda site, step: bracketed(site, step.tag, step.end), _fit),
        "stand": _StepOnSite(lambda site, step: step.tag in site.at_place, _stand),
        "tie": _StepOnSite(tied, _tie),
        "string": _StepOnSite(string_up, _string),
        "plumb": _StepOnSite(_true, _plumb),
        "fix": _StepOnSite(lambda site, step: end_fixed(site, step.tag, step.end), _fix),
        "join": _StepOnSite(lambda site, step: joined(site, step.tag), link.join),
        "seat": _StepOnSite(lambda site, step: seated(site, step.tag), link.seat),
        "trim": _StepOnSite(lambda site, step: trimmed(site, step.tag, step.end), link.trim),
        "prop": _StepOnSite(propped, link.prop),
        "cross": _StepOnSite(lambda site, step: crossed(site, site.layout.crossings[step.end]), link.cross),
        "bridge": _StepOnSite(lambda site, step: bridged(site, step.end) or slotted(site, step.end), link.bridge),
        "slot": _StepOnSite(lambda site, step: slotted(site, step.end), link.slot),
        "frame": _StepOnSite(lambda site, step: framed(site, step.tag, step.end), _frame),
        "restrain": _StepOnSite(lambda site, step: is_in(site, site.job.restraint(step.tag)), _restrain),
        "read": _StepOnSite(lambda site, step: (READINGS[step.end], step.tag) in site.readings, _read),
        "inspect": _StepOnSite(lambda site, step: step.tag in site.inspected, _inspect),
        "load": _StepOnSite(lambda site, _step: bool(site.pattern), _load),
        "hand_over": _StepOnSite(lambda site, _step: site.handed_over, _hand_over),
        "stop": _StepOnSite(_put_right, _stop),
        "clear": _StepOnSite(_never, _clear),
        "secure": _StepOnSite(_never, _secure),
        "strike": _StepOnSite(_never, _strike),
    }
)


def done(site: Site, step: Step) -> bool:
    """Whether ``step`` has been done; steps of stages that the job leaves out are."""
    left_out = step.verb != "hand_over" and STAGE_OF[step.verb] not in site.job.stages
    return left_out or _STEPS[step.verb].done(site, step)


def step_actions(site: Site, step: Step) -> tuple[AnyAction, ...]:
    """Return the right actions for a step that is ready on this site, the plainest first.

    A step for a truss that does not stand is told as if the place's own truss stood there.
    """
    return _STEPS[step.verb].actions(site, step)


def missing_before(site: Site, step: Step) -> tuple[Edge, ...]:
    """Return the must and should edges into ``step`` whose first step has not been done."""
    edges = site.job.order.into.get(step, ())
    return tuple(edge for edge in edges if edge.strength != "can" and not _well_enough(site, edge.first))


def unready(site: Site, place: str) -> tuple[Step, ...]:
    """Return what is still to do before the truss in ``place`` can carry another: standing, held, both ends fixed."""
    return tuple(step for step in finishing(site.layout.by_tag[place]) if not _well_enough(site, step))


def _well_enough(site: Site, step: Step) -> bool:
    """Whether a step is done, or what others wait for: a truss at a higher wall may be held by more than its wall tie.

    That the tie itself is missing is found where the truss is let go.
    """
    tag = site.at_place.get(step.tag) if step.verb == "tie" else None
    return done(site, step) or (tag is not None and tag in site.holds and site.layout.by_tag[tag].kind in TIED)
