"""The verbs of a diary: everything a person can do on this site, one small record each.

The set is closed and is the diary file's own vocabulary. Plan coordinates are (x, y) in mm; ``at`` is
mm from a wall's first corner or from a girder's ``from`` end.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Place = tuple[float, float]
Millimetres = Annotated[float, Field(ge=-200_000, le=200_000)]


class _Action(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class Mark(_Action):
    """Mark a station on a wall's top plate, or on a girder for what hangs there."""

    do: Literal["mark"] = "mark"
    wall: str | None = None
    on: str | None = None
    at: Millimetres


class Fit(_Action):
    """Fit a part to a truss before something is set down on it."""

    do: Literal["fit"] = "fit"
    part: str
    on: str
    at: Millimetres | None = None


class Stand(_Action):
    """Stand a truss: its ``from`` end at ``start``, its ``to`` end at ``finish``."""

    do: Literal["stand"] = "stand"
    tag: str
    start: Place = Field(alias="from")
    finish: Place = Field(alias="to")


class Remove(_Action):
    """Take a truss down again."""

    do: Literal["remove"] = "remove"
    tag: str


BraceKind = Literal["solid", "batten", "steel brace", "diagonal", "prop"]


class Brace(_Action):
    """Put temporary bracing on: ``solid`` holds one truss to something that can't move; a ``batten`` ties two or more."""

    do: Literal["brace"] = "brace"
    kind: BraceKind
    tags: tuple[str, ...] = Field(min_length=1)


class Fix(_Action):
    """Fasten an end (1 is ``from``, 2 is ``to``), or a crossing at a place."""

    do: Literal["fix"] = "fix"
    tag: str
    end: Literal[1, 2] | None = None
    at: Place | None = None
    with_: str = Field(alias="with")
    count: Annotated[int, Field(ge=1, le=20)] = 1


class Undo(_Action):
    """Practice only: take back the action before."""

    do: Literal["undo"] = "undo"


class HandOver(_Action):
    """Hand the roof over to be judged."""

    do: Literal["hand_over"] = "hand_over"


Action = Annotated[Mark | Fit | Stand | Remove | Brace | Fix | Undo | HandOver, Field(discriminator="do")]
