"""Permanent bracing in the order of work: each piece after the trusses it lies over, and before hand-over.

A roof brace locks the row as it stands, so the trusses under it are straight and plumb first. No more is asked:
permanent ties early are as good as late (common practice, no source).

Each piece is a step ``restrain``, in a diary ``{do: restrain, kind: roof brace, from: [900, 0], to: [2700, 2400]}``:

=================  ========================================================================================
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.layout import Layout
from trainer.order.model import TIED, Edge, LevelAsks, Step

TRUE_FIRST = "true before braced for good"
"""The reason why a roof brace waits for the trusses under it."""


def restraint_steps(asked: LevelAsks) -> Iterator[Step]:
    """Yield a step for each piece of the plan."""
    yield from (Step("restrain", piece.name) for piece in asked.restraints)


def restraint_edges(layout: Layout, asked: LevelAsks) -> Iterator[Edge]:
    """Yield the edges into each of them: what it lies over has to stand, and true under a roof brace."""
    for piece in asked.restraints:
        yield from (Edge(Step("stand", tag), Step("restrain", piece.name), "can", "stood") for tag in piece.over)
        if piece.kind == "roof brace":
            under = (tag for tag in piece.over if layout.by_tag[tag].kind in TIED)
            yield from (Edge(Step("plumb", tag), Step("restrain", piece.name), "must", TRUE_FIRST) for tag in under)
