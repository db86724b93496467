"""What is done before anything is lifted: the level's checks, and reporting what is wrong."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.layout import Layout
from trainer.order.model import Asked, Edge, Step

PRE_START = "pre-start"
"""The reason of every edge from a step of the pre-start: nothing is lifted before it."""


def pre_start_steps(asked: Asked) -> Iterator[Step]:
    """Yield a check for each item, and a report for each fault."""
    yield from (Step("check", item) for item in asked.checks)
    yield from (Step("report", tag, number) for number, tag in asked.faults)


def pre_start_edges(layout: Layout, asked: Asked) -> Iterator[Edge]:
    """Yield the edges from each of them to every stand; in what order they are done is free."""
    for step in pre_start_steps(asked):
        yield from (Edge(step, Step("stand", member.tag), "must", PRE_START) for member in layout.members)
