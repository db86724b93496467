"""What the blocks of a level file have in common: strict keys, units, and ranges that editors see too."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Annotated, Literal, TypeVar

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from trainer.read.schema_walk import UNIT, WANTED
from trainer.words import _


class Block(BaseModel):
    """A part of a level file. Unknown keys are faults; once read it never changes."""

    model_config = ConfigDict(frozen=True, extra="forbid")


MM = Field(json_schema_extra={UNIT: "mm"})
DEGREES = Field(json_schema_extra={UNIT: "degrees"})
KPA = Field(json_schema_extra={UNIT: "kPa"})
KN = Field(json_schema_extra={UNIT: "kN"})

Coordinate = Annotated[int, Field(ge=-200_000, le=200_000), MM]
Corner = Annotated[
    tuple[Coordinate, Coordinate],
    Field(json_schema_extra={WANTED: "a corner [x, y] in whole mm, within 200000 either way"}),
]

T = TypeVar("T", bound=Hashable)


def _no_repeats(entries: tuple[T, ...]) -> tuple[T, ...]:
    for i, entry in enumerate(entries):
        if entry in entries[:i]:
            raise ValueError(_("names '{entry}' twice; leave one out").format(entry=entry))
    return entries


UNIQUE = AfterValidator(_no_repeats)
UNIQUE_ITEMS = Field(json_schema_extra={"uniqueItems": True})


def _not_true(value: object) -> object:
    if value is True:  # which pydantic would take for the 1 it equals
        raise ValueError(_("is true; write 1"))
    return value


Edition = Annotated[Literal[1], BeforeValidator(_not_true), Field(alias="schema")]
"""Edition of a file; always 1."""
Title = Annotated[str, Field(min_length=1, max_length=80)]
Name = Field(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$", max_length=40)
"""A short name that a file is called by."""
SMALL = "small letters, digits and hyphens, 40 at most"
