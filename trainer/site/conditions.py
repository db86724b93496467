"""What is not as it should be on a site before the first truss is lifted: walls out, and faults in the delivery."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.level.as_found import CHECKS, TrussFault, WallFault, Wind


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing wrong: with a wall, ``by`` mm (bowed: inward at its middle; out of level: high at its end;
    wrong length: too long; out of square: how much longer one diagonal is), or with a truss. ``other`` is
    the truss that wears ``tag``'s tag where tags are swapped.
    """

    what: WallFault | TrussFault
    wall: str = ""
    tag: str = ""
    other: str = ""
    by: float = 0.0

    def is_called(self, what: str, wall: str | None, tag: str | None) -> bool:
        """Whether a report of ``what``, on that wall or truss, is of this flaw; all walls are out of square as one."""
        on_wall = wall is not None and (wall == self.wall or what == "out of square")
        return what == self.what and (on_wall or (tag is not None and tag in (self.tag, self.other)))


@dataclass(frozen=True, slots=True)
class Conditions:
    """A site as it is found: what is to be checked, what is wrong, and its wind at the end of a day."""

    checks: tuple[str, ...] = CHECKS
    flaws: tuple[Flaw, ...] = ()
    wind: Wind = "calm"


@dataclass(frozen=True, slots=True)
class Limits:
    """How true things must be, by the level's own values; mm.

    Out of plumb: the lesser of height / ``plumb_ratio`` and ``plumb_cap``. Bowed: the lesser of length /
    ``bow_ratio`` and ``bow_cap``. ``apex``: off the line of the tops. ``plates``: plates out of true.
    """

    plumb_ratio: float = 50.0
    plumb_cap: float = 50.0
    bow_ratio: float = 200.0
    bow_cap: float = 50.0
    apex: float = 10.0
    plates: float = 5.0

    def matters(self, flaw: Flaw) -> bool:
        """Whether a flaw is to be put right: anything but a wall out by no more than plates may be."""
        return flaw.by == 0 or abs(flaw.by) > self.plates

    def plumb(self, height: float) -> float:
        """How far out of plumb a truss of this height may be, mm."""
        return min(height / self.plumb_ratio, self.plumb_cap)

    def bow(self, length: float) -> float:
        """How far a truss of this length may be bowed, mm."""
        return min(length / self.bow_ratio, self.bow_cap)
