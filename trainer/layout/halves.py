"""Half a wing, where a lower roof's ridge runs along the face of a higher wall.

The wing is laid out as if doubled by its mirror image beyond that face, and the half that is really there is kept:
stations, hips and setbacks are those of the whole wing. Standard and truncated trusses become half trusses, ``to`` on
the face, in brackets on a ledger. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from trainer.layout.draft import Draft
from trainer.roof.rects import Profile, RoofRect
from trainer.terms import TrussKind


@dataclass(frozen=True, slots=True)
class Across:
    """A wing seen across its ridge: its real sides ``v``, and ``low`` and ``span`` of the whole wing, mm.

    ``face`` is where the higher wall stands, where there is one, and ``kept`` which halves are there: low, high.
    """

    v: tuple[float, float]
    low: float
    span: float
    kept: tuple[bool, ...]
    face: float | None = None

    def is_there(self, across: float) -> bool:
        """Whether a truss square to the wall, ``across`` mm from ``low``, belongs to the half that is kept."""
        return self.face is None or self.v[0] <= self.low + across <= self.v[1]

    def beside_wall(self, across: float, width: float) -> float:
        """Where such a truss ``width`` thick stands: clear of the wall, its face against it where it would touch."""
        if self.face is None:
            return across
        inside = self.face - self.low, (1 if self.face == self.v[0] else -1) * width / 2
        return inside[0] + inside[1] if abs(across - inside[0]) < width / 2 else across


def across_of(wing: RoofRect, v: tuple[float, float]) -> Across:
    """How a wing with its sides on the lines ``v`` looks across its ridge."""
    side = 1 if wing.axis == "x" else 0
    if wing.half is None:
        return Across(v, v[0], v[1] - v[0], (False, True))
    at_low = wing.half == side
    return Across(v, v[0] - wing.width if at_low else v[0], wing.span, (at_low,), v[0] if at_low else v[1])


def half_line(v: tuple[float, float], peak: float, at_low: bool) -> Profile:
    """The roof line from side to side of half a wing that rises to ``peak`` from its eave; ``at_low``: the wall is."""
    low, high = v
    line = ((low, 0.0), (low + peak, peak), (high, peak)) if peak < high - low else ((low, 0.0), (high, peak))
    return tuple((low + high - t, d) for t, d in reversed(line)) if at_low else line


def kept_half(draft: Draft) -> TrussKind:
    """What a truss is in the half that is kept: a half truss, where it ran from side to side and ends on a ledger."""
    on_ledger = draft.ends[0].ledger or draft.ends[1].ledger
    return "half" if on_ledger and draft.kind in ("standard", "truncated") else draft.kind
