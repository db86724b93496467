"""Draws a right attempt at a level, and plants one mistake in it where that is asked for."""

from __future__ import annotations

from trainer.layout import Layout
from trainer.level import Level
from trainer.order import Step
from trainer.rehearse.chance import pick
from trainer.rehearse.sequence import right_sequence
from trainer.session import job_of
from trainer.site import AnyAction, Diary, Job, Refused, act, start, ways


def rehearse(level: Level, seed: int, mistake: str | None = None, layout: Layout | None = None) -> Diary:
    """Return a right diary for ``level``, its order drawn by ``seed`` from all right orders.

    With ``mistake``, the name of a rule, the same with that one mistake planted.

    :raises CannotOccur: where this level leaves no room for that mistake, or no such mistake is known.
    :raises LayoutRefused: where the level's house can't be laid out.
    """
    job = job_of(level, seed, layout=layout)
    steps = right_sequence(job.layout, job.order, seed)
    actions = tell(job, steps, seed)
    return Diary(level=level.id, seed=seed, actions=tuple(actions))


def tell(job: Job, steps: list[Step], seed: int) -> list[AnyAction]:
    """Return an action for each step, choosing among the right ways to do it."""
    site = start(job)
    actions: list[AnyAction] = []
    for step in steps:
        action = pick(ways(site, step), seed, "way", step.verb, step.tag, step.end)
        result = act(site, len(actions), action)
        if isinstance(result, Refused):
            raise AssertionError(f"a right order was refused at {action!r}: {result.why}")
        site = result[0]
        actions.append(action)
    return actions
