"""Permanent bracing in the order of work: each piece after the trusses it lies over, and before hand-over.

No more is asked: permanent ties early are as good as late (common practice, no source).

Each piece is a step ``restrain``, in a diary ``{do: restrain, kind: roof brace, from: [900, 0], to: [2700, 2400]}``:

=================  ===============================================================================================
roof brace         full-height trusses are crossed on that slope, from plate to ridge, within the angles
bottom-chord tie   no gap along a bottom chord is too long; the tie runs from end truss to end truss, or laps
web tie            at the middles of long webs
top-chord tie      under saddles
end brace          over the plate at both ends of a row
=================  ===============================================================================================

``from`` and ``to`` are plan points. A piece is kept with the standing trusses that it crosses, where they really stand;
an end within a plate or on a girder is tied down round it. Roof braces that do their work hold trusses for good
(``Site.restrained``), so that temporary bracing may come off. The plan is :mod:`trainer.layout.bracing`'s, from the
level's ``bracing:`` block (``permanent:`` names the kinds asked for); any other pieces that serve the same wants are as
right (:mod:`trainer.site.restraints`).
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
