"""What is not as it should be on a site before the first truss is lifted: walls out, and faults in the delivery."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trainer.level.as_found import CHECKS, TrussFault, WallFault, Wind
from trainer.level.dangers import DangerKind, Lifting
from trainer.plan import Point
from trainer.words import _

MEASURED: Mapping[str, str] = MappingProxyType(
    {
        "bowed wall": "straight",
        "plate out of level": "level",
        "wrong length": "length",
        "out of square": "diagonals",
        "bowed beam": "straight",
    }
)
"""What shows a fault that the eye can't see: the reading to take of the wall."""
LOOKED_AT: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "wall not braced": ("walls braced",),
        "studs missing": ("studs under girders", "walls braced"),
        "ledger on brick veneer": ("ledgers", "walls braced"),
        "pack landed badly": ("delivery",),
        "missing truss": ("delivery",),
        "swapped tag": ("delivery",),
        "broken web": ("delivery",),
        "loose nailplate": ("delivery",),
        "unwanted tail": ("delivery",),
        "loose brackets": ("delivery",),
        "service line": ("power lines", "exclusion zone"),
        "open stair void": ("falls inside", "edge protection"),
        "missing rail": ("edge protection",),
        "missing platform": ("edge protection",),
        "people in the exclusion zone": ("exclusion zone",),
        "pack on a lintel": ("delivery",),
        "gust forecast": ("weather",),
        "sling at the apex": ("lifting plan", "delivery"),
        "licence missing": ("lifting plan", "method statement"),
        "beam not bolted down": ("beams and posts", "walls braced"),
        "beam propped": ("beams and posts", "walls braced"),
        "post not braced": ("beams and posts", "walls braced"),
        "post not tied down": ("beams and posts", "walls braced"),
    }
)
"""And what shows any other: the places of the look round, any of which comes on it. What is not here shows itself."""
PACKS_ON_WALLS = frozenset({"pack landed badly", "pack on a lintel"})
NEAR = 1500.0
"""A danger is meant by whoever points this near to it, mm."""
_SAYS: Mapping[str, str] = MappingProxyType(
    {
        "bowed wall": _("Wall {wall} is bowed by {by} mm."),
        "plate out of level": _("The plate of wall {wall} is out of level by {by} mm."),
        "wrong length": _("Wall {wall} is {by} mm out in length."),
        "out of square": _("The plates are out of square. One diagonal is {by} mm longer."),
        "wall not braced": _("The frame of wall {wall} is not braced."),
        "studs missing": _("Wall {wall} has no studs under its girder."),
        "ledger on brick veneer": _("The ledger on wall {wall} is bolted to the brick veneer, not to the studs."),
        "pack landed badly": _("A pack stands on wall {wall}, where the frame can't take it."),
        "missing truss": _("{tag} is not in the load."),
        "swapped tag": _("{tag} and {other} wear each other's tags."),
        "broken web": _("{tag} has a broken web."),
        "loose nailplate": _("{tag} has a loose nailplate."),
        "unwanted tail": _("{tag} has a tail where it should have none."),
        "loose brackets": _("The brackets of {tag} lie loose. They are not fitted."),
        "service line": _("A live service line hangs at {at}. Loads will swing within {clear} mm of it."),
        "open stair void": _("The stair void at {at} is open. Nothing guards it."),
        "missing rail": _("There is no rail along wall {wall}."),
        "missing platform": _("There is no work platform at {at}."),
        "people in the exclusion zone": _("People are at work at {at}, inside the exclusion zone."),
        "pack on a lintel": _("A pack stands on the lintel of wall {wall}."),
        "pack on a half-braced row": _("A pack was set down on the row at {at}. The row is half braced."),
        "gust forecast": _("Strong gusts are forecast for today."),
        "gust at noon": _("The wind gets up. A strong gust goes through the row."),
        "sling at the apex": _("{tag} is slung by its apex alone."),
        "licence missing": _("Nobody here has a licence to direct the crane."),
        "bowed beam": _("The verandah beam on wall {wall} is bowed by {by} mm."),
        "beam not bolted down": _("The verandah beam on wall {wall} is not bolted to its posts."),
        "beam propped": _("A prop holds up the middle of the verandah beam on wall {wall}."),
        "post not braced": _("The post at {at} is not braced both ways."),
        "post not tied down": _("The foot of the post at {at} is not tied down to the ground."),
        "post brace taken off": _("Somebody took the braces off the post at {at}. The roof is not braced yet."),
    }
)


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing wrong: with a wall, ``by`` mm (bowed: inward at its middle; out of level: high at its end;
    wrong length: too long; out of square: how much longer one diagonal is), with a truss, or a danger. ``other`` is
    the truss that wears ``tag``'s tag where tags are swapped. A danger may lie ``at`` a point; ``clear`` is how near
    loads swing to a service line, mm; ``after`` how many lifts a danger of the day comes up.
    """

    what: WallFault | TrussFault | DangerKind
    wall: str = ""
    tag: str = ""
    other: str = ""
    by: float = 0.0
    at: Point | None = None
    clear: float = 0.0
    after: int = 0

    def is_called(self, what: str, wall: str | None, tag: str | None, at: Point | None = None) -> bool:
        """Whether a report of ``what``, there, is of this flaw; all walls are out of square as one.

        A pack over an opening is a pack on a wall, whichever of the two it is called.
        """
        if what != self.what and not {what, self.what} <= PACKS_ON_WALLS:
            return False
        if self.at is not None:
            return at is not None and math.dist(self.at, at) <= NEAR
        if not (self.wall or self.tag):
            return True
        on_wall = wall is not None and (wall == self.wall or what == "out of square")
        return on_wall or (tag is not None and tag in (self.tag, self.other))

    @property
    def where(self) -> str:
        """The wall or the truss; else the point, as a learner reads it; nothing for what lies nowhere."""
        if self.at is not None:
            return f"{self.at[0]:g}, {self.at[1]:g}"
        return self.wall or self.tag

    @property
    def in_words(self) -> str:
        """What whoever comes on it sees, in a sentence."""
        return _SAYS[self.what].format(
            wall=self.wall,
            tag=self.tag,
            other=self.other,
            by=f"{abs(self.by):g}",
            at=self.where,
            clear=f"{self.clear:g}",
        )


@dataclass(frozen=True, slots=True)
class Conditions:
    """A site as it is found: what is to be checked, what is wrong, how many trusses are stood in a ``day`` (none: one
    day does it all), the wind at night, and the tags in each pack of the load where the level says so. ``lifting`` is
    what the lift plan goes by, where one is asked for; ``loading`` whether it is asked where the first packs land.
    """

    checks: tuple[str, ...] = CHECKS
    flaws: tuple[Flaw, ...] = ()
    wind: Wind = "calm"
    day: int | None = None
    packs: tuple[tuple[str, ...], ...] = ()
    lifting: Lifting | None = None
    loading: bool = False


@dataclass(frozen=True, slots=True)
class Limits:
    """How true things must be, by the level's own values; mm.

    Out of plumb: the lesser of height / ``plumb_ratio`` and ``plumb_cap``. Bowed: the lesser of length /
    ``bow_ratio`` and ``bow_cap``. ``apex``: off the line of the tops. ``plates``: plates out of true.
    ``clear_of_lines``: how far a load stays from a service line.
    """

    plumb_ratio: float = 50.0
    plumb_cap: float = 50.0
    bow_ratio: float = 200.0
    bow_cap: float = 50.0
    apex: float = 10.0
    plates: float = 5.0
    clear_of_lines: float = 3000.0

    def matters(self, flaw: Flaw) -> bool:
        """Whether a flaw is to be put right: anything but plates and lines within their limits."""
        if flaw.what == "service line":
            return flaw.clear < self.clear_of_lines
        return flaw.by == 0 or abs(flaw.by) > self.plates

    def plumb(self, height: float) -> float:
        """How far out of plumb a truss of this height may be, mm."""
        return min(height / self.plumb_ratio, self.plumb_cap)

    def bow(self, length: float) -> float:
        """How far a truss of this length may be bowed, mm."""
        return min(length / self.bow_ratio, self.bow_cap)
