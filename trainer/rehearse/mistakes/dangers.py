"""Dangers passed over: not reported, lifted through, planned or loaded wrongly."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import get_args

from trainer.chance import pick, shuffled
from trainer.level.dangers import Lifting
from trainer.order import HAND_OVER, Step
from trainer.rehearse.mistakes.planting import Mistake, Planted, Planter, Plantings, RightAttempt, needs, without
from trainer.site import RIGHT_PATTERN, Flaw, Job, Lift, loose
from trainer.site.actions import Load, Pattern, Plan
from trainer.words import _


def _left(named: Callable[[Flaw], str], *faults: str) -> Planter:
    """Plant that a danger of these kinds is not reported before the first lift."""

    def plant(job: Job, seed: int) -> Plantings:
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
    attempt = RightAttempt.drawn(job, seed)
    lates = [late for late in job.order.late if job.conditions.flaws[late.step.end].what == fault]
    for late in shuffled(lates, seed, "late", fault):
        at = attempt.steps.index(late.step)
        steps, actions = without(job, seed, [late.step])
        event = next(i for i, step in enumerate(steps) if i >= at and step.verb == "stand")
        yield Planted(actions, steps[event].tag, event)


@needs(_("a gust at noon"))
def lifted_in_gust(job: Job, seed: int) -> Plantings:
    """Lifting goes on when the wind gets up."""
    yield from lifted_through(job, seed, "gust at noon")


@needs(_("a pack set down on the row"))
def pack_left_on_row(job: Job, seed: int) -> Plantings:
    """A pack that was set down on the row is not reported."""
    for planted in lifted_through(job, seed, "pack on a half-braced row"):
        yield Planted(planted.actions, "row", planted.event)


@needs(_("a gust at noon"))
def stopped_unsecured(job: Job, seed: int) -> Plantings:
    """Lifting stops as soon as the wind gets up, with the last truss in nobody's hands."""
    attempt = RightAttempt.drawn(job, seed)
    for late in job.order.late:
        if late.step.verb == "stop":
            at = attempt.steps.index(late.step)
            up = max(i for i, step in enumerate(attempt.steps[:at]) if step.verb == "stand") + 1
            free = next(loose(attempt.sites[up]), None)
            if free is not None:
                actions = [*attempt.actions[:at], *attempt.actions[at + 1 :]]
                yield Planted([*actions[:up], attempt.actions[at], *actions[up:]], free, up)


@needs(_("a lift plan"))
def lift_not_planned(job: Job, seed: int) -> Plantings:
    """Nobody plans how one kind of truss is lifted."""
    for kind in shuffled(list(job.lifts), seed, "not planned"):
        step = Step("plan", kind)
        if step in job.order.into:
            steps, actions = without(job, seed, [step])
            event = _first_of(job, steps, kind)
            yield Planted(actions, steps[event].tag, event)


def _planned(fits: Callable[[Lift, Lifting], bool], changed: Mapping[str, object]) -> Planter:
    """Plant a plan that is ``changed``, for a kind of truss that it does not fit."""

    def plant(job: Job, seed: int) -> Plantings:
        attempt, limits = RightAttempt.drawn(job, seed), job.conditions.lifting or Lifting()
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


@needs(_("a lift plan, or a truss that was slung by its apex"))
def slung_at_apex(job: Job, seed: int) -> Plantings:
    """A kind of truss is planned to hang by its apex; or one that was found slung so is not reported."""
    yield from _planned(lambda _lift, _limits: True, {"by": "crane", "slung": "apex"})(job, seed)
    for number, flaw in enumerate(job.conditions.flaws):
        step = Step("report", flaw.where, number)
        if flaw.what == "sling at the apex" and step in job.order.into:
            steps, actions = without(job, seed, [step])
            yield Planted(actions, flaw.tag, steps.index(Step("stand", flaw.tag)))


@needs(_("the first packs asked about"))
def roof_loaded_unevenly(job: Job, seed: int) -> Plantings:
    """The first packs are sent to land in a heap."""
    attempt, step = RightAttempt.drawn(job, seed), Step("load", "")
    if step in job.order.into:
        at = attempt.steps.index(step)
        wrong = pick([each for each in get_args(Pattern) if each != RIGHT_PATTERN], seed, "pattern")
        actions = [*attempt.actions[:at], Load(what="packs", pattern=wrong), *attempt.actions[at + 1 :]]
        yield Planted(actions, "roof", attempt.steps.index(HAND_OVER))


@needs(_("the first packs asked about"))
def loading_not_agreed(job: Job, seed: int) -> Plantings:
    """Nobody says where the first packs land."""
    step = Step("load", "")
    if step in job.order.into:
        steps, actions = without(job, seed, [step])
        yield Planted(actions, "roof", steps.index(HAND_OVER))


service_line_in_reach = Mistake(_left(lambda _f: "service line", "service line"), _("a service line"))
stair_void_open = Mistake(_left(lambda _f: "open stair void", "open stair void"), _("an open stair void"))
edge_left_open = Mistake(_left(_edge, "missing rail", "missing platform"), _("a rail or a platform that is missing"))
people_under_the_lift = Mistake(
    _left(lambda _f: "exclusion zone", "people in the exclusion zone"), _("people in the exclusion zone")
)
forecast_not_heeded = Mistake(_left(lambda _f: "weather", "gust forecast"), _("a forecast of gusts"))
lifted_without_licence = Mistake(_left(lambda _f: "licence", "licence missing"), _("a licence that is missing"))
too_heavy_by_hand = Mistake(
    _planned(lambda lift, limits: not lift.by_hand(limits), {"by": "hand"}),
    _("a lift plan, and a truss too heavy or too long for hands"),
)
too_few_to_lift = Mistake(
    _planned(lambda _lift, _limits: True, {"by": "crane", "people": 1, "slung": "spread slings"}), _("a lift plan")
)
slings_not_spread = Mistake(
    _planned(lambda lift, limits: lift.spread(limits), {"by": "crane", "slung": "panel points"}),
    _("a lift plan, and a truss long enough for spread slings"),
)
