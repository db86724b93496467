"""A site as it is found before the first truss is lifted: its walls, its delivery, its wind, its dangers.

All of it is invented for practice.
"""

from __future__ import annotations

from collections import Counter
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from trainer.level.block import MM, UNIQUE, UNIQUE_ITEMS, Block
from trainer.level.dangers import Danger, Lifting

WallFault = Literal[
    "bowed wall", "plate out of level", "wrong length", "out of square", "wall not braced", "studs missing",
    "pack landed badly", "bowed beam", "ledger on brick veneer",
]  # fmt: skip
TrussFault = Literal["missing truss", "swapped tag", "broken web", "loose nailplate", "unwanted tail", "loose brackets"]
BY: frozenset[str] = frozenset({"bowed wall", "plate out of level", "wrong length", "out of square", "bowed beam"})
"""Faults of a wall that have a size, mm."""
CHECKS = ("method statement", "edge protection", "exclusion zone", "weather", "walls braced", "delivery")
"""The places of the look round before anything is lifted, unless a level has a list of its own."""
OTHER_CHECKS = (
    "falls inside", "lifting plan", "power lines", "studs under girders", "plates", "beams and posts", "ledgers",
)  # fmt: skip
"""Places that can be looked at on any level as well: parts of those above, which older levels and diaries name."""
Item = Annotated[str, Field(min_length=1, max_length=60)]
Name = Annotated[str, Field(min_length=1, max_length=10)]
PACK = 12
"""As many trusses as are strapped in one pack; common practice, no source."""
Wind = Literal["calm", "fresh", "strong"]


class WallAsFound(Block):
    """One thing wrong with a wall."""

    wall: Name
    """The wall: A, B, … in the order of the outline."""
    fault: WallFault
    """What is wrong. A bow is inward at the middle; out of level is at the wall's far end."""
    by: Annotated[int, Field(ge=-200, le=200), MM] = 0
    """By how much, mm; for what can be measured. Out of square: how much longer one diagonal is."""

    @model_validator(mode="after")
    def _sized(self) -> Self:
        if (self.fault in BY) != (self.by != 0):
            if self.by:
                raise ValueError(f"has a size, by: {self.by}; {self.fault} has none, so leave it out")
            raise ValueError(f"has no size; say how much as by:, in mm, for {self.fault}")
        return self


class TrussAsFound(Block):
    """One thing wrong with what was delivered."""

    truss: Name
    """The tag on the truss, as the layout has it; for loose brackets, the truss that they belong on."""
    fault: TrussFault
    """What is wrong."""
    other: Name | None = None
    """Where tags are swapped: the truss that wears the other's tag."""

    @model_validator(mode="after")
    def _paired(self) -> Self:
        if (self.fault == "swapped tag") != (self.other is not None):
            wants = "needs other:, the truss it was swapped with" if self.other is None else "takes no other:"
            raise ValueError(f"is of one truss or of two; {self.fault} {wants}")
        return self


def _in_one_pack(packs: tuple[tuple[str, ...], ...]) -> tuple[tuple[str, ...], ...]:
    many = Counter(tag for pack in packs for tag in pack)
    if twice := [tag for tag, count in many.items() if count > 1]:
        raise ValueError(f"names {', '.join(twice)} more than once; a truss lies in one pack")
    return packs


class SiteSettings(Block):
    """What this site asks for and how it is found, whatever the house."""

    clear_of_edge: Annotated[int, Field(ge=0, le=5000), MM] = 1500
    """How far to stay from an unprotected outside wall, mm."""
    fall_height: Annotated[int, Field(ge=0, le=5000), MM] = 2000
    """Height from which this state asks for a written method statement, mm; it differs by state and changes."""
    checks: Annotated[tuple[Item, ...], Field(max_length=30), UNIQUE, UNIQUE_ITEMS] = CHECKS
    """What is checked before anything is lifted."""
    walls: Annotated[tuple[WallAsFound, ...], Field(max_length=100)] = ()
    """Walls that are not as they should be."""
    delivery: Annotated[tuple[TrussAsFound, ...], Field(max_length=100)] = ()
    """Trusses that came wrong."""
    packs: Annotated[
        tuple[Annotated[tuple[Name, ...], Field(min_length=1, max_length=PACK)], ...],
        Field(max_length=100),
        AfterValidator(_in_one_pack),
    ] = ()
    """The packs in the order they were unloaded, each a list of its trusses' tags, the one on top first; all trusses of
    the house. Without it they come as each wing needs them."""
    day: Annotated[int, Field(ge=2, le=300)] | None = None
    """How many trusses are stood in a day; what stands then is left for the night. Without it, one day does it all."""
    wind: Wind = "calm"
    """The wind of this site at night; a strong one takes a row that could rack."""
    dangers: Annotated[tuple[Danger, ...], Field(max_length=30), UNIQUE] = ()
    """Dangers of the day."""
    clear_of_lines: Annotated[int, Field(ge=0, le=20_000), MM] = 3000
    """How far a load stays from a service line, mm; it differs by state and by line."""
    lifting: Lifting | None = None
    """What the lift plan goes by; without it no plan is asked for."""
    loading: bool = False
    """Whether it is asked where the first packs are to land on the finished roof."""
