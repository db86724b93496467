"""What is not as it should be on a site before the first truss is lifted: walls out, and faults in the delivery."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trainer.level.as_found import CHECKS, TrussFault, WallFault, Wind
from trainer.words import _

MEASURED: Mapping[str, str] = MappingProxyType(
    {"bowed wall": "straight", "plate out of level": "level", "wrong length": "length", "out of square": "diagonals"}
)
"""What shows a fault that the eye can't see: the reading to take of the wall."""
LOOKED_AT: Mapping[str, str] = MappingProxyType(
    {
        "wall not braced": "walls braced",
        "studs missing": "studs under girders",
        "pack landed badly": "delivery",
        "missing truss": "delivery",
        "swapped tag": "delivery",
        "broken web": "delivery",
        "loose nailplate": "delivery",
        "unwanted tail": "delivery",
        "loose brackets": "delivery",
    }
)
"""And what shows any other: the pre-start item that comes on it."""
_SAYS: Mapping[str, str] = MappingProxyType(
    {
        "bowed wall": _("Wall {wall} is bowed by {by} mm."),
        "plate out of level": _("The plate of wall {wall} is out of level by {by} mm."),
        "wrong length": _("Wall {wall} is {by} mm out in length."),
        "out of square": _("The plates are out of square. One diagonal is {by} mm longer."),
        "wall not braced": _("The frame of wall {wall} is not braced."),
        "studs missing": _("Wall {wall} has no studs under its girder."),
        "pack landed badly": _("A pack stands on wall {wall}, where the frame can't take it."),
        "missing truss": _("{tag} is not in the load."),
        "swapped tag": _("{tag} and {other} wear each other's tags."),
        "broken web": _("{tag} has a broken web."),
        "loose nailplate": _("{tag} has a loose nailplate."),
        "unwanted tail": _("{tag} has a tail where it should have none."),
        "loose brackets": _("The brackets of {tag} lie loose. They are not fitted."),
    }
)


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

    @property
    def told(self) -> str:
        """What whoever comes on it sees, in a sentence."""
        return _SAYS[self.what].format(wall=self.wall, tag=self.tag, other=self.other, by=f"{abs(self.by):g}")


@dataclass(frozen=True, slots=True)
class Conditions:
    """A site as it is found: what is to be checked, what is wrong, how many trusses are stood in a ``day`` (none: one
    day does it all), the wind at night, and the tags in each pack of the load where the level says so.
    """

    checks: tuple[str, ...] = CHECKS
    flaws: tuple[Flaw, ...] = ()
    wind: Wind = "calm"
    day: int | None = None
    packs: tuple[tuple[str, ...], ...] = ()


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
