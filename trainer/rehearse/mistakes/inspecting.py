"""Inspections gone wrong: what is crooked accepted, what is sound rejected, and what nobody looked at."""

from __future__ import annotations

from trainer.chance import shuffled
from trainer.order import Step
from trainer.rehearse.mistakes.placing import off_station
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs, without
from trainer.rehearse.mistakes.truing import crooked_as_stood
from trainer.rehearse.playing import STRIKE
from trainer.site import HandOver, Job, needed_no_more
from trainer.site.actions import Inspect
from trainer.words import _


@needs(_("an inspection"))
def accepted_out_of_limits(job: Job, seed: int) -> Plantings:
    """A truss that was never plumbed is accepted as it leans; else one that stands off its station."""
    for tag in shuffled(crooked_as_stood(job), seed, "accepted"):
        if Step("inspect", tag) in job.order.into and Step("plumb", tag) in job.order.into:
            steps, actions = without(job, seed, [Step("plumb", tag)])
            event = steps.index(Step("inspect", tag))
            actions[event] = Inspect(tag=tag, accept=True)
            yield Planted(actions, tag, event)
    drawn = RightAttempt.drawn(job, seed).steps
    for planted in off_station.plant(job, seed):
        if (inspect := Step("inspect", planted.member)) in drawn:
            yield Planted(planted.actions, planted.member, drawn.index(inspect))


@needs(_("an inspection"))
def rejected_though_sound(job: Job, seed: int) -> Plantings:
    """A truss with nothing wrong is rejected."""
    attempt = RightAttempt.drawn(job, seed)
    for i, action in shuffled(list(enumerate(attempt.actions)), seed, "rejected"):
        if isinstance(action, Inspect) and action.accept:
            turned_round = action.model_copy(update={"accept": False})
            yield Planted([*attempt.actions[:i], turned_round, *attempt.actions[i + 1 :]], action.tag, i)


@needs(_("an inspection"))
def accepted_unmeasured(job: Job, seed: int) -> Plantings:
    """A reading of a truss is left out before it is judged."""
    for reading in shuffled([step for step in job.order.steps if step.verb == "read"], seed, "by eye"):
        steps, actions = without(job, seed, [reading])
        yield Planted(actions, reading.tag, steps.index(Step("inspect", reading.tag)))


@needs(_("an inspection"))
def not_inspected(job: Job, seed: int) -> Plantings:
    """A truss of the inspection gets no verdict."""
    for verdict in shuffled([step for step in job.order.steps if step.verb == "inspect"], seed, "not inspected"):
        steps, actions = without(job, seed, [verdict])
        yield Planted(actions, verdict.tag, len(steps) - 1)


@needs(_("permanent bracing that replaces a brace"))
def braces_left_inside(job: Job, seed: int) -> Plantings:
    """The roof is handed over with the braces to the floor and the props still in."""
    attempt = RightAttempt.drawn(job, seed)
    struck = [i for i, step in enumerate(attempt.steps) if step == STRIKE]
    if struck:
        site = attempt.sites[struck[0]]
        actions = [*attempt.actions[: struck[0]], HandOver()]
        yield Planted(actions, needed_no_more(site)[0].tags[0], len(actions) - 1, strikes=False)
