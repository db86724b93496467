"""Draws a right attempt at a level, and plants one mistake in it where that is asked for."""

from __future__ import annotations

from trainer.layout import Layout
from trainer.level import Level
from trainer.rehearse.mistakes import plant
from trainer.rehearse.playing import actions_of
from trainer.rehearse.sequence import right_sequence
from trainer.session import job_of
from trainer.site import Diary


def rehearse(level: Level, seed: int, mistake: str | None = None, layout: Layout | None = None) -> Diary:
    """Return a right diary for ``level``, its order drawn by ``seed`` from all right orders.

    With ``mistake``, the name of a rule, the same with that one mistake planted. ``layout`` saves working
    it out again.

    :raises UnknownMistake: where there is no such mistake.
    :raises CannotOccur: where this level leaves no room for it.
    :raises LayoutRefused: where the level's house can't be laid out.
    """
    job = job_of(level, seed, layout=layout)
    if mistake is None:
        actions = actions_of(job, right_sequence(job.layout, job.order, seed), seed)
    else:
        actions = plant(job, seed, mistake).actions
    return Diary(level=level.id, seed=seed, actions=tuple(actions))
