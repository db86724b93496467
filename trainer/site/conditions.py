"""What is not as it should be on a site before the first truss is lifted: walls out, and faults in the delivery."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

WallFlaw = Literal["bowed wall", "plate out of level", "wall not braced"]
TrussFlaw = Literal["missing truss", "swapped tag", "broken web", "loose nailplate", "unwanted tail"]

CHECKS = (
    "method statement",
    "edge protection",
    "falls inside",
    "exclusion zone",
    "lifting plan",
    "weather",
    "power lines",
    "walls braced",
    "studs under girders",
    "plates",
    "delivery",
)
"""What is checked before anything is lifted, unless a level has a list of its own."""


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing wrong: with a wall, ``by`` mm (bowed: inward at its middle; out of level: high at its end),
    or with a truss. ``other`` is the truss that wears ``tag``'s tag where tags are swapped.
    """

    what: Literal[WallFlaw, TrussFlaw]
    wall: str = ""
    tag: str = ""
    other: str = ""
    by: float = 0.0

    def is_called(self, what: str, wall: str | None, tag: str | None) -> bool:
        """Whether a report of ``what``, on that wall or truss, is of this flaw."""
        on_wall = wall is not None and wall == self.wall
        return what == self.what and (on_wall or (tag is not None and tag in (self.tag, self.other)))


@dataclass(frozen=True, slots=True)
class Conditions:
    """A site as it is found. ``out_of_square`` is how much longer one diagonal of the plates is, mm."""

    checks: tuple[str, ...] = CHECKS
    flaws: tuple[Flaw, ...] = ()
    out_of_square: float = 0.0


@dataclass(frozen=True, slots=True)
class Limits:
    """The lesser of height / ``plumb_ratio`` and ``plumb_cap`` mm out of plumb; of length / ``bow_ratio`` and
    ``bow_cap`` mm bowed; and ``apex`` mm off the line of the tops. A level's own values.
    """

    plumb_ratio: float = 50.0
    plumb_cap: float = 50.0
    bow_ratio: float = 200.0
    bow_cap: float = 50.0
    apex: float = 10.0

    def plumb(self, height: float) -> float:
        """How far out of plumb a truss of this height may be, mm."""
        return min(height / self.plumb_ratio, self.plumb_cap)

    def bow(self, length: float) -> float:
        """How far a truss of this length may be bowed, mm."""
        return min(length / self.bow_ratio, self.bow_cap)
