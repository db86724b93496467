"""Gable and verge framing left out, too far apart, too short, or too soon."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from trainer.chance import shuffled
from trainer.order import Step
from trainer.order.verge import FRAMED, WALING_FIRST, WITH_VERGE
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs, without
from trainer.site import Fit, Job, start
from trainer.site.verge import PAST_CENTRE, centres, reach
from trainer.words import _

WIDER = 1.5
"""How many spacings are left between outriggers set too far apart."""
SHORT = 150.0
"""How far in outriggers run that stop short of every truss, mm."""


@needs(_("a gable whose verge overhangs"))
def outriggers_missing(job: Job, seed: int) -> Plantings:
    """A gable gets no outriggers, and so no verge rafters."""
    for step in _frames(job, seed, "outrigger"):
        verge = Step("frame", step.tag, FRAMED.index("verge rafter") + 1)
        steps, actions = without(job, seed, [step, verge])
        yield Planted(actions, step.tag, len(steps) - 1)


@needs(_("a gable whose verge overhangs"))
def verge_rafters_missing(job: Job, seed: int) -> Plantings:
    """A gable gets no verge rafters."""
    yield from _left_out(job, seed, "verge rafter")


@needs(_("a gable truss that stands in from its wall's face"))
def gable_studs_missing(job: Job, seed: int) -> Plantings:
    """A gable gets neither studs nor packing."""
    yield from _left_out(job, seed, "gable stud")


@needs(_("a dutch gable whose small verge stands out"))
def verge_ladder_missing(job: Job, seed: int) -> Plantings:
    """The small verge of a dutch gable gets no ladders."""
    yield from _left_out(job, seed, "verge ladder")


@needs(_("a dutch gable"))
def waling_plate_missing(job: Job, seed: int) -> Plantings:
    """A dutch gable's girder gets no waling plate; it is missed when the first hip or jack lands there."""
    for step in _frames(job, seed, "waling plate"):
        steps, actions = without(job, seed, [step])
        waiting = {edge.then for edge in job.order.out_of[step] if edge.why == WALING_FIRST}
        landed = [i for i, then in enumerate(steps) if then in waiting and _lands(job, step.tag, then)]
        yield Planted(actions, step.tag, landed[0] if landed else len(steps) - 1)


def _lands(job: Job, girder: str, step: Step) -> bool:
    """Whether a step sets a top down on a girder: what hangs there lands as it is stood, what runs on when fixed."""
    return (step.verb == "stand") == (girder in job.layout.by_tag[step.tag].carried_by)


@needs(_("a gable wide enough for several outriggers"))
def outriggers_too_far_apart(job: Job, seed: int) -> Plantings:
    """Outriggers are set at one and a half spacings."""
    every = round(job.layout.house.trusses.spacing * WIDER)
    for step in _frames(job, seed, "outrigger"):
        if job.layout.by_tag[step.tag].span / 2 > every:
            yield _otherwise(job, seed, step, {"every": float(every)})


@needs(_("a gable whose verge overhangs"))
def outriggers_not_far_enough_back(job: Job, seed: int) -> Plantings:
    """Outriggers run in to a truss that is nearer than the verge is out, or stop a good way short of the next."""
    for step in _frames(job, seed, "outrigger"):
        site = start(job)
        far_in = centres(site, step.tag)
        nearer = far_in[: far_in.index(reach(site, step.tag))]
        yield _otherwise(job, seed, step, {"back": nearer[-1] if nearer else SHORT})


@needs(_("a gable whose verge overhangs, with a row of trusses behind it"))
def outriggers_end_between_trusses(job: Job, seed: int) -> Plantings:
    """Outriggers run on past the truss that would hold them, and end in the middle of the bay behind it."""
    for step in _frames(job, seed, "outrigger"):
        site = start(job)
        held = reach(site, step.tag)
        behind = next((far for far in centres(site, step.tag) if far > held + 4 * PAST_CENTRE), None)
        if behind is not None:
            yield _otherwise(job, seed, step, {"back": (held + behind) / 2})


@needs(_("a verge that overhangs"))
def verge_before_row_straight(job: Job, seed: int) -> Plantings:
    """Outriggers or verge ladders are fitted as soon as the truss that they go on stands."""
    attempt = RightAttempt.drawn(job, seed)
    for step in (step for part in WITH_VERGE for step in _frames(job, seed, part)):
        at, stood = attempt.steps.index(step), attempt.steps.index(Step("stand", step.tag))
        early = [*attempt.actions[: stood + 1], attempt.actions[at], *attempt.actions[stood + 1 : at]]
        if any(edge.strength == "should" for edge in job.order.into[step]) and at > stood + 1:
            yield Planted([*early, *attempt.actions[at + 1 :]], step.tag, stood + 1)


def _frames(job: Job, seed: int, part: str) -> list[Step]:
    number = FRAMED.index(part) + 1
    steps = [step for step in job.order.steps if step.verb == "frame" and step.end == number]
    return shuffled(steps, seed, "frame", part)


def _left_out(job: Job, seed: int, part: str) -> Plantings:
    for step in _frames(job, seed, part):
        steps, actions = without(job, seed, [step])
        yield Planted(actions, step.tag, len(steps) - 1)


def _otherwise(job: Job, seed: int, step: Step, change: Mapping[str, Any]) -> Planted:
    attempt = RightAttempt.drawn(job, seed)
    at = attempt.steps.index(step)
    fit = attempt.actions[at]
    assert isinstance(fit, Fit)
    changed = fit.model_copy(update=dict(change))
    return Planted([*attempt.actions[:at], changed, *attempt.actions[at + 1 :]], step.tag, len(attempt.actions) - 1)
