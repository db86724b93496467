"""How heavy and how long each kind of truss is, which its lift plan goes by.

A truss's mass is that of its timber: the lengths of its chords and webs, times their depth and the thickness of a ply,
times its plies, times the level's density, in which nailplates are counted. All of it is common practice, no source:
a fabricator's own sheet gives the mass of its trusses.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from trainer.layout import Layout
from trainer.layout.model import House, Member
from trainer.layout.webs import TOP_CHORD, WEB, webs
from trainer.level.dangers import Lifting
from trainer.terms import TrussKind

CUBIC = 1e-9
"""m³ in a mm³."""


@dataclass(frozen=True, slots=True)
class Lift:
    """What there is to lift of one kind of truss: the ``mass`` of its heaviest, kg, the ``length`` of its longest, mm,
    from bearing to bearing, and how ``many`` there are.
    """

    mass: float
    length: float
    many: int

    def by_hand(self, limits: Lifting) -> bool:
        """Whether it may be lifted by hand."""
        return self.mass <= limits.by_hand and self.length <= limits.by_hand_span

    def spread(self, limits: Lifting) -> bool:
        """Whether its slings have to be spread."""
        return self.length > limits.spread_over


def mass(member: Member, house: House, density: float) -> float:
    """Return the mass of a truss of ``house``, all its plies joined, kg; ``density`` in kg/m³."""
    frame = webs(member, house)
    chords = TOP_CHORD * sum(math.dist(a, b) for a, b in pairwise(frame.top))
    chords += frame.bottom_depth * (frame.last - frame.first)
    inside = WEB * sum(web.length for web in frame.webs)
    return (chords + inside) * house.trusses.thickness * member.plies * density * CUBIC


def lifts(layout: Layout, density: float) -> Mapping[TrussKind, Lift]:
    """Return what there is to lift of each kind of truss of a layout."""
    found: dict[TrussKind, Lift] = {}
    for member in layout.members:
        so_far = found.get(member.kind, Lift(0.0, 0.0, 0))
        heavy = mass(member, layout.house, density)
        found[member.kind] = Lift(max(so_far.mass, heavy), max(so_far.length, member.span), so_far.many + 1)
    return found
