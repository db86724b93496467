"""Dangers passed over: not reported, lifted through, planned or loaded wrongly."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import get_args

from trainer.chance import pick, shuffled
from trainer.level.dangers import Lifting
from trainer.order import HAND_OVER, Step
from trainer.rehearse.mistakes.planting import Attempt, Mistake, Planted, Planter, without
from trainer.site import RIGHT_PATTERN, Flaw, Job, Lift, Load, Plan, loose
from trainer.site.actions import Pattern
from trainer.words import _


def _left(named: Callable[[Flaw], str], *faults: str) -> Planter:
    """Plant that a danger of these kinds is not reported before the first lift."""

    def plant(job: Job, seed: int) -> Iterator[Planted]:
        flaws = [(i, flaw) for i, flaw in enumerate(job.conditions.flaws) if flaw.what in faults]
        for number, flaw in shuffled(flaws, seed, "left", *faults):
            step = Step("report", flaw.where or flaw.what, number)
            if step in job.order.into:
                steps, actions = without(job, seed, [step])
                yield Planted(actions, named(flaw), next(i for i, s in enumerate(steps) if s.verb == "stand"))

    return plant


def _edge(flaw: Flaw) -> str:
    return _("wall {wall}").format(wall=flaw.wall) if flaw.wall else _("the place to work")


def lifted_through(job: Job, seed: int, fault: str) -> Iterator[Planted]:
    """Plant that what comes up on the day is passed over; found on the truss lifted then."""
    attempt = Attempt.drawn(job, seed)
    lates = [late for late in job.order.late if job.conditions.flaws[late.step.end].what == fault]
    for late in shuffled(lates, seed, "late", fault):
        at = attempt.steps.index(late.step)
        steps, actions = without(job, seed, [late.step])
        event = next(i for i, step in enumerate(steps) if i >= at and step.verb == "stand")
        yield Planted(actions, steps[event].tag, event)


def lifted_in_gust(job: Job, seed: int) -> Iterator[Planted]:
    """Lifting goes on when the wind gets up."""
    yield from lifted_through(job, seed, "gust at noon")


def pack_left_on_row(job: Job, seed: int) -> Iterator[Planted]:
    """A pack that was set down on the row is not reported."""
    for planted in lifted_through(job, seed, "pack on a half-braced row"):
        yield Planted(planted.actions, "row", planted.event)


def stopped_unsecured(job: Job, seed: int) -> Iterator[Planted]:
    """Lifting stops as soon as the wind gets up, with the last truss in nobody's hands."""
    attempt = Attempt.drawn(job, seed)
    for late in job.order.late:
        if late.step.verb == "stop":
            at = attempt.steps.index(late.step)
            up = max(i for i, step in enumerate(attempt.steps[:at]) if step.verb == "stand") + 1
            free = next(loose(attempt.sites[up]), None)
            if free is not None:
                actions = [*attempt.actions[:at], *attempt.actions[at + 1 :]]
                yield Planted([*actions[:up], attempt.actions[at], *actions[up:]], free, up)


def lift_not_planned(job: Job, seed: int) -> Iterator[Planted]:
    """Nobody plans how one kind of truss is lifted."""
    for kind in shuffled(list(job.lifts), seed, "not planned"):
        step = Step("plan", kind)
        if step in job.order.into:
            steps, actions = without(job, seed, [step])
            event = _first_of(job, steps, kind)
            yield Planted(actions, steps[event].tag, event)


def _planned(fits: Callable[[Lift, Lifting], bool], changed: Mapping[str, object]) -> Planter:
    """Plant a plan that is ``changed``, for a kind of truss that it does not fit."""

    def plant(job: Job, seed: int) -> Iterator[Planted]:
        attempt, limits = Attempt.drawn(job, seed), job.conditions.lifting or Lifting()
        for kind in shuffled([kind for kind, lift in job.lifts.items() if fits(lift, limits)], seed, *changed):
            step = Step("plan", kind)
            if step in job.order.into:
                at, event = attempt.steps.index(step), _first_of(job, attempt.steps, kind)
                wrong = Plan.model_validate({"kind": kind, "people": 2, **changed})
                actions = [*attempt.actions[:at], wrong, *attempt.actions[at + 1 :]]
                yield Planted(actions, attempt.steps[event].tag, event)

    return plant


def _first_of(job: Job, steps: Iterable[Step], kind: str) -> int:
    return next(i for i, s in enumerate(steps) if s.verb == "stand" and job.layout.by_tag[s.tag].kind == kind)


def slung_at_apex(job: Job, seed: int) -> Iterator[Planted]:
    """A kind of truss is planned to hang by its apex; or one that was found slung so is not reported."""
    yield from _planned(lambda _lift, _limits: True, {"by": "crane", "slung": "apex"})(job, seed)
    for number, flaw in enumerate(job.conditions.flaws):
        step = Step("report", flaw.where, number)
        if flaw.what == "sling at the apex" and step in job.order.into:
            steps, actions = without(job, seed, [step])
            yield Planted(actions, flaw.tag, steps.index(Step("stand", flaw.tag)))


def roof_loaded_unevenly(job: Job, seed: int) -> Iterator[Planted]:
    """The first packs are sent to land in a heap."""
    attempt, step = Attempt.drawn(job, seed), Step("load", "")
    if step in job.order.into:
        at = attempt.steps.index(step)
        wrong = pick([each for each in get_args(Pattern) if each != RIGHT_PATTERN], seed, "pattern")
        actions = [*attempt.actions[:at], Load(what="packs", pattern=wrong), *attempt.actions[at + 1 :]]
        yield Planted(actions, "roof", attempt.steps.index(HAND_OVER))


def loading_not_agreed(job: Job, seed: int) -> Iterator[Planted]:
    """Nobody says where the first packs land."""
    step = Step("load", "")
    if step in job.order.into:
        steps, actions = without(job, seed, [step])
        yield Planted(actions, "roof", steps.index(HAND_OVER))


MISTAKES: Mapping[str, Mistake] = MappingProxyType(
    {
        "service-line-in-reach": Mistake(_left(lambda _f: "service line", "service line"), _("a service line")),
        "stair-void-open": Mistake(_left(lambda _f: "open stair void", "open stair void"), _("an open stair void")),
        "edge-left-open": Mistake(
            _left(_edge, "missing rail", "missing platform"), _("a rail or a platform that is missing")
        ),
        "people-under-the-lift": Mistake(
            _left(lambda _f: "exclusion zone", "people in the exclusion zone"), _("people in the exclusion zone")
        ),
        "forecast-not-heeded": Mistake(_left(lambda _f: "weather", "gust forecast"), _("a forecast of gusts")),
        "lifted-without-licence": Mistake(
            _left(lambda _f: "licence", "licence missing"), _("a licence that is missing")
        ),
        "lift-not-planned": Mistake(lift_not_planned, _("a lift plan")),
        "too-heavy-by-hand": Mistake(
            _planned(lambda lift, limits: not lift.by_hand(limits), {"by": "hand"}),
            _("a lift plan, and a truss too heavy or too long for hands"),
        ),
        "too-few-to-lift": Mistake(
            _planned(lambda _lift, _limits: True, {"by": "crane", "people": 1, "slung": "spread slings"}),
            _("a lift plan"),
        ),
        "slung-at-apex": Mistake(slung_at_apex, _("a lift plan, or a truss that was slung by its apex")),
        "slings-not-spread": Mistake(
            _planned(lambda lift, limits: lift.spread(limits), {"by": "crane", "slung": "panel points"}),
            _("a lift plan, and a truss long enough for spread slings"),
        ),
        "lifted-in-gust": Mistake(lifted_in_gust, _("a gust at noon")),
        "stopped-unsecured": Mistake(stopped_unsecured, _("a gust at noon")),
        "pack-left-on-row": Mistake(pack_left_on_row, _("a pack set down on the row")),
        "roof-loaded-unevenly": Mistake(roof_loaded_unevenly, _("the first packs asked about")),
        "loading-not-agreed": Mistake(loading_not_agreed, _("the first packs asked about")),
    }
)
