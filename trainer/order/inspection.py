"""The inspection at hand-over: some trusses measured, and accepted or rejected, by whoever hands over.

A sample keeps it short on any house: in each wing one truss of each kind that tips, the middle one. Common practice,
no source.

Its steps are ``read``, in a diary ``{do: measure, what: plumb, tag: ST4}``, for plumb and for bow of each truss of the
inspection, and ``inspect``, ``{do: inspect, tag: ST4, accept: true}``, a verdict on each. The job sheet names them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.layout import Layout
from trainer.order.model import TIED, Edge, LevelAsks, Step
from trainer.order.pre_start import about_fault

READINGS = {1: "plumb", 2: "bow"}
"""What is measured of each, by the number of the step."""


def sample(layout: Layout) -> tuple[str, ...]:
    """Return the trusses to be inspected: the middle one of each wing and kind."""
    groups: dict[tuple[str, str], list[str]] = {}
    for member in layout.members:
        if member.kind in TIED:
            groups.setdefault((member.wing, member.kind), []).append(member.tag)
    return tuple(tags[len(tags) // 2] for tags in groups.values())


def inspection_steps(asked: LevelAsks) -> Iterator[Step]:
    """Yield the readings and the verdict for each truss of the sample."""
    for tag in asked.inspect:
        yield from (Step("read", tag, number) for number in READINGS)
        yield Step("inspect", tag)


def inspection_edges(steps: Iterable[Step], asked: LevelAsks) -> Iterator[Edge]:
    """Yield what comes before them: all that is done for a truss, then its readings, then the verdict."""
    for step in steps:
        if step.tag in asked.inspect and step.verb not in ("read", "inspect") and not about_fault(step):
            yield from (Edge(step, Step("read", step.tag, number), "can", "finished") for number in READINGS)
    for tag in asked.inspect:
        yield from (Edge(Step("read", tag, number), Step("inspect", tag), "can", "measured") for number in READINGS)
