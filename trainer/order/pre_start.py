"""What is done before anything is lifted: the level's checks, reporting what is wrong, and the lift plan."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.layout import Layout
from trainer.order.model import Edge, LevelAsks, Step

PRE_START = "pre-start"
"""The reason of every edge from a step of the pre-start: nothing is lifted before it."""


def fault_step(where: str, number: int) -> Step:
    """Return the step that reports the fault ``number`` of the level, from 0, of a wall, a truss or a place."""
    return Step("report", where, number)


def about_fault(step: Step) -> bool:
    """Whether a step looks for what is wrong, or says so."""
    return step.verb in ("check", "report")


def pre_start_steps(asked: LevelAsks) -> Iterator[Step]:
    """Yield a check for each item, a report for each fault, and a plan for each kind of truss."""
    yield from (Step("check", item) for item in asked.checks)
    yield from (fault_step(tag, number) for number, tag in asked.faults)
    yield from (Step("plan", kind) for kind in asked.plans)


def pre_start_edges(layout: Layout, asked: LevelAsks) -> Iterator[Edge]:
    """Yield the edges from each of them to every stand; in what order they are done is free.

    A kind of truss is planned before the first of it is lifted.
    """
    for step in pre_start_steps(asked):
        lifted = (m for m in layout.members if step.verb != "plan" or m.kind == step.tag)
        yield from (Edge(step, Step("stand", member.tag), "must", PRE_START) for member in lifted)
