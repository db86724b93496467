"""Permanent bracing in the order of work: each piece after the trusses it lies over, and before hand-over.

No more is asked: permanent ties early are as good as late (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.order.model import Asked, Edge, Step


def restraint_steps(asked: Asked) -> Iterator[Step]:
    """Yield a step for each piece of the plan."""
    yield from (Step("restrain", piece.name) for piece in asked.restraints)


def restraint_edges(asked: Asked) -> Iterator[Edge]:
    """Yield the edges into each of them: what it lies over has to stand."""
    for piece in asked.restraints:
        yield from (Edge(Step("stand", tag), Step("restrain", piece.name), "can", "stood") for tag in piece.over)
