"""The kinds of value in what a machine wrote, and what is wrong with such data, in words."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from trainer.read.document import path_of
from trainer.read.schema_walk import WANTED, find, schema_of, wanted
from trainer.records.clock import LAST_MOMENT
from trainer.words import _, ngettext

LARGEST = 2**53 - 1
"""The largest whole number that RFC 8785 takes."""
Whole = Annotated[
    int,
    Field(ge=0, le=LARGEST, json_schema_extra={WANTED: _("a whole number from 0 to {most}").format(most=LARGEST)}),
]
Moment = Annotated[
    int, Field(ge=0, le=LAST_MOMENT, json_schema_extra={WANTED: _("a time in ms, from the year 1970 to 9999")})
]
Percent = Annotated[int, Field(ge=0, le=100)]
Name = Annotated[str, Field(max_length=40)]
CODE = r"[A-Za-z0-9][A-Za-z0-9_-]{0,39}"
"""A code name: nothing in it can be taken for a formula by a spreadsheet or for a folder by a system."""
CodeName = Annotated[
    str, Field(pattern=f"^{CODE}$", json_schema_extra={WANTED: _("a code name: letters, figures, - and _, 40 at most")})
]
LevelId = Annotated[
    str,
    Field(
        pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$",
        max_length=40,
        json_schema_extra={WANTED: _("a level's id: small letters, figures and -")},
    ),
]
Title = Annotated[str, Field(max_length=80)]
Sentence = Annotated[str, Field(max_length=2000)]
Table = Annotated[dict[str, Any], Field(json_schema_extra={WANTED: _("a set of keys")})]
"""Keys with values that somebody else looks at."""


def hexes(length: int) -> Any:
    """Bytes in so many small hexadecimal figures, as the metadata of a field."""
    words = ngettext(
        "{n} hexadecimal figure, in small letters", "{n} hexadecimal figures, in small letters", length
    ).format(n=length)
    return Field(pattern=rf"^[0-9a-f]{{{length}}}$", json_schema_extra={WANTED: words})


Hash = Annotated[str, hexes(64)]
"""A SHA-256 hash, or a public key."""
Signature = Annotated[str, hexes(128)]


class Recorded(BaseModel):
    """Keys and values that a machine wrote. Unknown keys are left alone: a later trainer may have added them."""

    model_config = ConfigDict(extra="ignore", strict=True, frozen=True, validate_by_name=True, validate_by_alias=True)

    def as_json(self) -> dict[str, Any]:
        """Return it as files and entries hold it; what there is not is not in it."""
        return self.model_dump(mode="json", by_alias=True, exclude_none=True)


class Exact(Recorded):
    """A set of keys that a machine wrote, and that has no others."""

    model_config = ConfigDict(extra="forbid")


def fault_of(data: object, model: type[Recorded]) -> str:
    """Return the first thing that is wrong with a set of keys, or an empty text."""
    try:
        model.model_validate(data)
    except ValidationError as error:
        first = error.errors(include_url=False, include_context=False)[0]
        where, schema = find(schema_of(model), first["loc"])
        if not where:
            return _("a set of keys")
        if first["type"] == "extra_forbidden":
            return _("'{key}' is not known here").format(key=path_of(where))
        return _("'{key}' should be {wanted}").format(key=path_of(where), wanted=wanted(schema))
    return ""
