"""A row that goes over: how far each truss has tipped at each moment, from the row as it stood."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from trainer.picture.solids import Solid

FLAT = math.radians(84)
"""How far a truss tips before it lies on the next one, radians."""
PASSED_ON = 0.35
"""After how much of its own fall a truss takes the next one with it."""


def tipping(solids: Mapping[str, Solid], fell: Sequence[str], let_go: Sequence[str], share: float) -> dict[str, float]:
    """Return how far each truss of ``fell`` has tipped to its left, radians, at a ``share`` (0 to 1) of the whole fall.

    It begins with the truss that was ``let_go`` and goes through the row; a truss alone falls to where it leans.
    """
    row = [tag for tag in fell if tag in solids]
    if not row:
        return {}
    first = next((tag for tag in let_go if tag in row), row[-1])
    nx, ny = -solids[first].unit[1], solids[first].unit[0]

    def place(tag: str) -> float:
        x, y = solids[tag].start
        return x * nx + y * ny

    others = [place(tag) - place(first) for tag in row if tag != first]
    way = sum(others) if others else solids[first].shape.lean
    sign = 1.0 if way >= 0 else -1.0
    ordered = sorted(row, key=lambda tag: (sign * place(tag) < sign * place(first), abs(place(tag) - place(first))))
    whole = 1.0 + PASSED_ON * (len(ordered) - 1)
    over = {}
    for number, tag in enumerate(ordered):
        own = min(1.0, max(0.0, share * whole - PASSED_ON * number))
        left = -solids[tag].unit[1] * nx + solids[tag].unit[0] * ny
        over[tag] = sign * math.copysign(1.0, left) * FLAT * own * own
    return over
