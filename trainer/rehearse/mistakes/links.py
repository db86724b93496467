"""Gaps in the load path: links left out, put in too late, too light, or fixed hard."""

from __future__ import annotations

import math
from collections.abc import Sequence

from trainer.chance import shuffled
from trainer.order import Step, runs_over_truncated
from trainer.rehearse.mistakes.ordering import DRAWS, DRAWS_APART
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs, without
from trainer.rehearse.playing import play
from trainer.site import Bearing, Fastened, Fix, Job, drawn, held_down, needed, start, uplift
from trainer.site.load_path import NEAR
from trainer.terms import StepVerb
from trainer.words import _


@needs(_("a truss of two plies or more"))
def plies_not_joined(job: Job, seed: int) -> Plantings:
    """The plies of a truss are never joined."""
    for step in _links(job, seed, "join"):
        steps, actions = without(job, seed, [step])
        carried = [Step("stand", tag) for tag in job.layout.carries[step.tag]]
        first = min((steps.index(stand) for stand in carried if stand in steps), default=len(steps) - 1)
        yield Planted(actions, step.tag, first)


@needs(_("a saddle"))
def saddle_without_batten(job: Job, seed: int) -> Plantings:
    """The batten under a saddle is left out."""
    yield from _under_saddle(job, seed, "seat")


@needs(_("a saddle on a trimmer"))
def saddle_without_trimmer(job: Job, seed: int) -> Plantings:
    """A trimmer under a saddle is left out."""
    yield from _under_saddle(job, seed, "trim")


@needs(_("an extension that crosses another truss"))
def extension_not_fixed(job: Job, seed: int) -> Plantings:
    """An extension is not fixed where it crosses one truss."""
    yield from _at_the_end(job, seed, "cross")


@needs(_("an internal wall under the trusses"))
def slotted_bracket_missing(job: Job, seed: int) -> Plantings:
    """An internal wall goes without one of its brackets."""
    yield from _at_the_end(job, seed, "slot")


@needs(_("an internal wall under the trusses"))
def fixed_hard_to_internal_wall(job: Job, seed: int) -> Plantings:
    """A truss is nailed to an internal wall, over which it has no bracket yet."""
    attempt = RightAttempt.drawn(job, seed)
    for step in _links(job, seed, "slot"):
        at = attempt.steps.index(step)
        right = attempt.actions[at]
        crossed = any(math.dist(c.at, job.wall_spots[step.end].at) <= NEAR for c in job.crossings.get(step.tag, ()))
        if isinstance(right, Fix) and not crossed:
            hard = right.model_copy(update={"with_": "nails"})
            yield Planted([*attempt.actions[:at], hard, *attempt.actions[at:]], right.tag, at)


@needs(_("an extension over truncated trusses"))
def extension_not_propped(job: Job, seed: int) -> Plantings:
    """The next truss is lifted while a hip's extension has nothing under it."""
    for again in range(DRAWS):
        sequence = RightAttempt.drawn(job, seed + again * DRAWS_APART).sequence
        for prop in shuffled([step for step in sequence if step.verb == "prop"], seed, "prop"):
            steps = [step for step in sequence if step != prop]
            then = _left_free(job, steps, prop.tag)
            if then is not None:
                played = play(start(job), steps, seed)
                yield Planted(played.actions, prop.tag, played.steps.index(then))


def _left_free(job: Job, steps: Sequence[Step], tag: str) -> Step | None:
    """The next lift, if no truss under its extension can hold that up by then."""
    stood = steps.index(Step("stand", tag))
    then = next((i for i in range(stood + 1, len(steps)) if steps[i].verb == "stand"), None)
    if then is None:
        return None
    before = set(steps[:then])
    under = runs_over_truncated(job.layout, tag)
    ties = {Step("cross", tag, i) for i, c in enumerate(job.layout.crossings) if c.over == tag and c.under in under}
    return None if ties & before or all(Step("stand", other) in before for other in under) else steps[then]


@needs(_("an end that one light connector does not hold"))
def tie_down_too_light(job: Job, seed: int) -> Plantings:
    """An end or crossing that takes several connectors gets one fewer; or for the heavier that it takes a light one."""
    attempt = RightAttempt.drawn(job, seed)
    last = len(attempt.actions) - 1
    for i in shuffled(range(last), seed, "too light"):
        step, right = attempt.steps[i], attempt.actions[i]
        if step.verb not in ("fix", "cross") or not isinstance(right, Fix):
            continue
        at: Bearing = step.end if step.verb == "fix" else job.layout.crossings[step.end]
        own = drawn(job, step.tag, at)
        light = right.model_copy(update={"with_": own, "count": max(1, right.count - 1)})
        short = 0 < held_down(job, own, [Fastened(light.with_, light.count)]) < uplift(job, step.tag, at)
        if short and needed(job, step.tag, at):
            yield Planted([*attempt.actions[:i], light, *attempt.actions[i + 1 :]], step.tag, last)


def _links(job: Job, seed: int, verb: StepVerb) -> list[Step]:
    return shuffled([step for step in job.order.steps if step.verb == verb], seed, verb)


def _at_the_end(job: Job, seed: int, verb: StepVerb) -> Plantings:
    for step in _links(job, seed, verb):
        steps, actions = without(job, seed, [step])
        yield Planted(actions, step.tag, len(steps) - 1)


def _under_saddle(job: Job, seed: int, verb: StepVerb) -> Plantings:
    for step in _links(job, seed, verb):
        steps, actions = without(job, seed, [step])
        stand = Step("stand", step.tag)
        yield Planted(actions, step.tag, steps.index(stand) if stand in steps else len(steps) - 1)
