"""What is done before a drill begins: all that its own steps need, and no more."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from trainer.layout import Layout
from trainer.level import Level
from trainer.order import Order, Step, hold_steps
from trainer.rehearse.playing import actions_of
from trainer.rehearse.sequence import right_sequence
from trainer.session import job_of
from trainer.site import AnyAction, Job


@dataclass(frozen=True)
class DrillSite:
    """A job and one right order of all its steps."""

    job: Job
    sequence: tuple[Step, ...]
    seed: int

    @staticmethod
    def of(level: Level, layout: Layout, seed: int) -> DrillSite:
        """Draw one for a level."""
        job = job_of(level, seed, layout=layout)
        return DrillSite(job, tuple(right_sequence(layout, job.order, seed)), seed)

    def needed(self, steps: Iterable[Step]) -> list[Step]:
        """Return ``steps`` and all that comes before them, in a right order."""
        needed = _with_all_before(self.job.order, steps)
        return [step for step in self.sequence if step in needed]

    def left(self, goal: Iterable[Step]) -> list[Step]:
        """Return the steps of ``goal``, and those it needs that in turn wait for a part of it, in a right order."""
        left = set(goal)
        for step in self.needed(left):
            if any(edge.first in left for edge in self.job.order.into[step]):
                left.add(step)
        return [step for step in self.sequence if step in left]

    def given(self, left: Iterable[Step]) -> tuple[AnyAction, ...]:
        """Return the actions that do all that is needed before the steps ``left``, and hold what then stands."""
        left = set(left)
        given = [step for step in self.needed(left) if step not in left]
        stood = {step.tag for step in given if step.verb == "stand"}
        ties = {tie for tag in stood for tie in hold_steps(self.job.layout, self.job.order, tag)} - left
        kept = ties.union(given)
        played = [step for step in self.sequence if step in kept]
        return tuple(actions_of(self.job, played, self.seed))


def _with_all_before(order: Order, steps: Iterable[Step]) -> set[Step]:
    found = set(steps)
    waiting = list(found)
    while waiting:
        firsts = {edge.first for edge in order.into[waiting.pop()]} - found
        found |= firsts
        waiting += firsts
    return found
