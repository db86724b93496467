"""Dangers of the day that a site can have, and what is decided there about lifting.

All of it is invented for practice, after common practice, no source. On a job the safe work method statement and the
law of the state decide.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from trainer.level.block import MM, Block, Corner
from trainer.read.schema_walk import UNIT

Reported = Literal[
    "service line", "open stair void", "missing rail", "missing platform", "people in the exclusion zone",
    "pack on a lintel", "pack on a half-braced row", "gust forecast", "sling at the apex", "licence missing",
    "beam not bolted down", "beam propped", "post not braced", "post not tied down", "post brace taken off",
]  # fmt: skip
"""Dangers that are put right by reporting them under their own name."""
DangerKind = Literal[
    "service line", "open stair void", "missing rail", "missing platform", "people in the exclusion zone",
    "unbraced wall", "pack on a lintel", "pack on a half-braced row", "gust forecast", "gust at noon",
    "sling at the apex", "licence missing", "beam not bolted down", "beam propped", "post not braced",
    "post not tied down", "post brace taken off",
]  # fmt: skip
OF_BEAMS: frozenset[DangerKind] = frozenset({"beam not bolted down", "beam propped"})
OF_POSTS: frozenset[DangerKind] = frozenset({"post not braced", "post not tied down", "post brace taken off"})
"""Dangers of a verandah beam, on the wall that it is named by, and of a post, at its place."""
LIES: Mapping[str, str] = MappingProxyType(
    {
        "service line": "at",
        "open stair void": "at",
        "missing rail": "wall",
        "missing platform": "at",
        "people in the exclusion zone": "at",
        "unbraced wall": "wall",
        "pack on a lintel": "wall",
        "pack on a half-braced row": "at",
        "gust forecast": "",
        "gust at noon": "",
        "sling at the apex": "tag",
        "licence missing": "",
        "beam not bolted down": "wall",
        "beam propped": "wall",
        "post not braced": "at",
        "post not tied down": "at",
        "post brace taken off": "at",
    }
)
"""What says where a danger lies: a point, a wall, a truss's tag; nothing where it lies nowhere."""
LATE: frozenset[str] = frozenset({"pack on a half-braced row", "gust at noon", "post brace taken off"})
"""Dangers that come up while trusses are lifted."""
NAMED = {"at": "at: [x, y]", "wall": "wall:", "tag": "tag:"}


def placed(what: str, where: Mapping[str, object]) -> None:
    """Check that whoever names a danger says where it lies, and nothing else.

    ``where`` holds what was given under ``at``, ``wall`` and ``tag``.

    :raises ValueError: where it does not.
    """
    wants = LIES[what]
    if {key for key, value in where.items() if value is not None} != ({wants} if wants else set()):
        takes = f"wants {NAMED[wants]} alone" if wants else "lies nowhere; leave out at:, wall: and tag:"
        raise ValueError(f"is of nothing, or two things; {what} {takes}")


class Danger(Block):
    """One danger, and where it lies."""

    what: DangerKind
    """What can hurt somebody."""
    at: Corner | None = None
    """Where it lies, mm."""
    wall: Annotated[str, Field(min_length=1, max_length=10)] | None = None
    """The wall that it is on: A, B, … in the order of the outline."""
    tag: Annotated[str, Field(min_length=1, max_length=10)] | None = None
    """The truss that is slung so."""
    clear: Annotated[int, Field(ge=0, le=50_000), MM] = 0
    """How near to a service line the load swings, mm; one that is far enough off is no danger."""
    after: Annotated[int, Field(ge=1, le=300)] | None = None
    """For what comes up on the day: after how many lifts it does."""

    @model_validator(mode="after")
    def _whole(self) -> Self:
        placed(self.what, {"at": self.at, "wall": self.wall, "tag": self.tag})
        if (self.what in LATE) != (self.after is not None):
            raise ValueError(
                f"does not say when; give after:, the number of lifts after which the {self.what} comes"
                if self.what in LATE
                else f"is there from the start, so {self.what} takes no after:"
            )
        if self.clear and self.what != "service line":
            raise ValueError(f"has clear:, which only a service line takes; leave it out of {self.what}")
        return self


class Lifting(Block):
    """What the lift plan of this house goes by; invented."""

    by_hand: Annotated[int, Field(ge=10, le=200), Field(json_schema_extra={UNIT: "kg"})] = 60
    """The heaviest truss that is lifted by hand, kg."""
    by_hand_span: Annotated[int, Field(ge=1000, le=20_000), MM] = 4800
    """The longest truss that is lifted by hand, mm."""
    spread_over: Annotated[int, Field(ge=1000, le=30_000), MM] = 9000
    """Trusses longer than this hang from spread slings or a spreader, mm."""
    density: Annotated[int, Field(ge=300, le=1200), Field(json_schema_extra={UNIT: "kg/m³"})] = 550
    """Mass of the timber, kg/m³, nailplates counted in."""
