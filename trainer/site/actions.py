"""The verbs of a diary: everything a person can do on this site, one small record each.

The set is closed and is the diary file's own vocabulary. Plan coordinates are (x, y) in mm; ``at`` is
mm from a wall's first corner or from a girder's ``from`` end.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self, get_args

from pydantic import BaseModel, ConfigDict, Field, model_validator

from trainer.layout.bracing import RestraintKind
from trainer.level.as_found import TrussFault, WallFault
from trainer.level.dangers import LIES, NAMED, Reported, placed
from trainer.read.schema_walk import UNIT
from trainer.terms import TrussKind

MM = Field(ge=-200_000, le=200_000, allow_inf_nan=False, json_schema_extra={UNIT: "mm"})
Millimetres = Annotated[float, MM]
Place = tuple[Millimetres, Millimetres]
Word = Annotated[str, Field(min_length=1, max_length=60)]
"""A tag, a wall, a part or a connector; whether there is such a thing is for the site to say."""
LEAST_EVERY = 100
"""The least gap between the pieces of a set, or between rows of battens, mm."""
MOST_EVERY = 12_000
"""The widest gap between rows of battens that can be told, mm."""


class _Action(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", validate_by_name=True, validate_by_alias=True)


class Mark(_Action):
    """Mark a station on a wall's top plate or on the ledger along it, or on a girder for what hangs there.

    The tape runs on from the first corner, or from the girder's ``from``, unless ``measured_from`` (``from`` in a
    diary) says that it was set down on the mark there, or at the other end, and measured on from that.
    """

    do: Literal["mark"] = "mark"
    wall: Word | None = None
    on: Word | None = None
    at: Millimetres
    measured_from: Millimetres | None = Field(default=None, validation_alias="from", serialization_alias="from")

    @model_validator(mode="after")
    def _somewhere(self) -> Self:
        if (self.wall is None) == (self.on is None):
            raise ValueError("marks nothing or two things; give wall: for a plate, or on: for a girder")
        return self


class Fit(_Action):
    """Fit a part to a truss or a ledger before something is set down on it, or a set of parts to a gable truss.

    On a ledger, ``at`` runs along its wall from the wall's first corner.

    Of a set: ``every`` so many mm; outriggers run ``back`` so many mm in from the gable truss.
    """

    do: Literal["fit"] = "fit"
    part: Word
    on: Word
    at: Millimetres | None = None
    every: Annotated[float, MM, Field(ge=LEAST_EVERY)] | None = None
    back: Annotated[float, MM, Field(ge=0)] | None = None


class Stand(_Action):
    """Stand a truss: its own ``from`` end at ``start``, its ``to`` end at ``finish``."""

    do: Literal["stand"] = "stand"
    tag: Word
    start: Place = Field(validation_alias="from", serialization_alias="from")
    finish: Place = Field(validation_alias="to", serialization_alias="to")


class Remove(_Action):
    """Take a truss down again."""

    do: Literal["remove"] = "remove"
    tag: Word


BraceKind = Literal["solid", "batten", "steel brace", "diagonal", "prop", "wall tie"]


Every = Annotated[int, Field(ge=LEAST_EVERY, le=MOST_EVERY, json_schema_extra={UNIT: "mm"})]


def _only_battens(kind: BraceKind | Literal["roof brace"], every: int | None) -> None:
    if kind != "batten" and every is not None:
        raise ValueError(f"has rows every so many mm, but only battens go in rows; leave every out with kind: {kind}")


def _only_solid(kind: BraceKind | Literal["roof brace"], to: str | None) -> None:
    if to is not None and kind != "solid":
        raise ValueError(f"runs to a beam, but only a solid brace does; leave to: out with kind: {kind}")


class Brace(_Action):
    """Put temporary bracing on.

    ``solid`` holds each truss to something that can't move; a ``wall tie`` holds its top to the studs of a higher wall
    that it runs up to or stands against, and stays for good. A ``batten`` or a ``steel brace`` along the
    tops ties trusses to each other. Battens go in rows along the top chords, from the ridge down each slope,
    ``every`` so many mm on the level; as the job sheet says, where that is left out. A solid brace runs to the floor,
    the ground or a braced wall, unless ``to`` says that it was fixed to a verandah beam, which moves with its posts.
    """

    do: Literal["brace"] = "brace"
    kind: BraceKind
    tags: Annotated[tuple[Word, ...], Field(min_length=1, max_length=100)]
    every: Every | None = None
    to: Literal["beam"] | None = None

    @model_validator(mode="after")
    def _rows(self) -> Self:
        _only_battens(self.kind, self.every)
        _only_solid(self.kind, self.to)
        return self


class Fix(_Action):
    """Fasten an end (1 is the truss's own ``from``, 2 its ``to``), or a crossing at a place.

    All nail holes of a connector are filled, unless ``nails`` says that half of them were left empty.
    """

    do: Literal["fix"] = "fix"
    tag: Word
    end: Annotated[int, Field(ge=1, le=2)] | None = None
    at: Place | None = None
    with_: Word = Field(validation_alias="with", serialization_alias="with")
    count: Annotated[int, Field(ge=1, le=20)] = 1
    nails: Literal["all", "half"] | None = None

    @model_validator(mode="after")
    def _somewhere(self) -> Self:
        if (self.end is None) == (self.at is None):
            raise ValueError("fixes nothing or two things; give end: 1 or 2, or at: [x, y] for a crossing")
        return self


class Restrain(_Action):
    """Put in one piece of permanent bracing, in a straight line between two plan points.

    A roof brace runs over the top chords, from the plate that it is tied down round up to the ridge. The ties
    run along a row, from one held end to the other; an end brace over the plate, from truss to truss. A strap is
    tensioned until it is straight, unless its ``tension`` says that it was pulled hard.
    """

    do: Literal["restrain"] = "restrain"
    kind: RestraintKind
    start: Place = Field(validation_alias="from", serialization_alias="from")
    finish: Place = Field(validation_alias="to", serialization_alias="to")
    tension: Literal["straight", "hard"] | None = None

    @model_validator(mode="after")
    def _only_straps(self) -> Self:
        if self.kind != "roof brace" and self.tension is not None:
            raise ValueError(
                f"is tensioned, but only a roof brace is a strap; leave tension out with kind: {self.kind}"
            )
        return self


class Check(_Action):
    """Check one of the level's pre-start items."""

    do: Literal["check"] = "check"
    item: Word


WallReading = Literal["diagonals", "level", "straight", "length"]
TrussReading = Literal["plumb", "bow", "apex"]
PlaceReading = Literal["clearance"]
_READ_OF = {"wall": WallReading, "tag": TrussReading, "at": PlaceReading}


class Measure(_Action):
    """Take a reading of a wall's plate, of a standing truss, or of how near loads swing to a line at a place.

    It changes nothing.
    """

    do: Literal["measure"] = "measure"
    what: Literal[WallReading, TrussReading, PlaceReading]
    wall: Word | None = None
    tag: Word | None = None
    at: Place | None = None

    @model_validator(mode="after")
    def _something(self) -> Self:
        wants = next(key for key, readings in _READ_OF.items() if self.what in get_args(readings))
        given = {key for key in ("wall", "tag", "at") if getattr(self, key) is not None}
        if given != {wants}:
            raise ValueError(f"reads nothing, or two things; {self.what} wants {NAMED[wants]} alone")
        return self


class Report(_Action):
    """Report something wrong with a wall or a truss, or a danger; if it is so, it is put right."""

    do: Literal["report"] = "report"
    fault: Literal[WallFault, TrussFault, Reported, "a fall"]
    wall: Word | None = None
    tag: Word | None = None
    at: Place | None = None

    @model_validator(mode="after")
    def _of_something(self) -> Self:
        if self.fault in LIES:
            placed(self.fault, {"at": self.at, "wall": self.wall, "tag": self.tag})
            return self
        if self.at is not None:
            raise ValueError(f"lies at no point; {self.fault} takes no at:")
        if self.fault == "a fall":
            if self.wall is not None or self.tag is not None:
                raise ValueError("is of no one wall or truss; leave wall: and tag: out")
            return self
        of_wall = self.fault in get_args(WallFault)
        if (self.wall is not None, self.tag is not None) != (of_wall, not of_wall):
            raise ValueError(f"is of nothing, or two things; {self.fault} wants {'wall:' if of_wall else 'tag:'} alone")
        return self


class Unbrace(_Action):
    """Take a piece of temporary bracing off again; ``every`` says which of two sets of battens on the same trusses,
    ``to`` that it is the brace to a verandah beam.

    With the kind ``roof brace``: release trusses that are braced for good, by taking off every roof brace that lies
    over all of them.
    """

    do: Literal["unbrace"] = "unbrace"
    kind: BraceKind | Literal["roof brace"]
    tags: Annotated[tuple[Word, ...], Field(min_length=1, max_length=100)]
    every: Every | None = None
    to: Literal["beam"] | None = None

    @model_validator(mode="after")
    def _rows(self) -> Self:
        _only_battens(self.kind, self.every)
        _only_solid(self.kind, self.to)
        return self


class String(_Action):
    """Pull a string line from the top of one truss to the top of another."""

    do: Literal["string"] = "string"
    start: Word = Field(validation_alias="from", serialization_alias="from")
    finish: Word = Field(validation_alias="to", serialization_alias="to")


class Plumb(_Action):
    """Straighten a truss: line and plumb."""

    do: Literal["plumb"] = "plumb"
    tag: Word


class Cut(_Action):
    """Cut a truss somewhere."""

    do: Literal["cut"] = "cut"
    tag: Word
    where: Literal["tail", "top chord", "bottom chord", "web"]


Pattern = Literal["both slopes", "one slope", "middle of span", "eaves", "one stack"]
Slung = Literal["panel points", "spread slings", "spreader", "apex"]


class Load(_Action):
    """Put a load on the roof; or, with a ``pattern``, say where the first packs are to land once it is handed over."""

    do: Literal["load"] = "load"
    what: Literal["battens", "sheets", "tiles", "packs"]
    pattern: Pattern | None = None


class Plan(_Action):
    """Plan how all trusses of a kind are lifted: by whom, how many, and what of the truss hangs in the slings."""

    do: Literal["plan"] = "plan"
    kind: TrussKind
    by: Literal["hand", "crane"]
    people: Annotated[int, Field(ge=1, le=10)]
    slung: Slung | None = None

    @model_validator(mode="after")
    def _slung(self) -> Self:
        if (self.by == "crane") != (self.slung is not None):
            raise ValueError(
                "does not say how the truss is slung; give slung:"
                if self.by == "crane"
                else "is by hand, and hands take no slings; leave slung: out"
            )
        return self


class Stop(_Action):
    """Stop lifting: hands leave the row until it is safe to go on."""

    do: Literal["stop"] = "stop"


class Inspect(_Action):
    """At the end, accept or reject a truss as it stands."""

    do: Literal["inspect"] = "inspect"
    tag: Word
    accept: bool


class Clear(_Action):
    """After a fall that was reported: clear it away, and have new trusses for what fell or was struck."""

    do: Literal["clear"] = "clear"


class Undo(_Action):
    """Practice only: take back the action before."""

    do: Literal["undo"] = "undo"


class HandOver(_Action):
    """Hand the roof over to be judged."""

    do: Literal["hand_over"] = "hand_over"


AnyAction = (
    Check | Measure | Report | Mark | Fit | Stand | Brace | Unbrace | Restrain | String | Plumb | Fix | Cut | Remove
    | Load | Plan | Stop | Inspect | Clear | Undo | HandOver
)  # fmt: skip
Action = Annotated[AnyAction, Field(discriminator="do")]
