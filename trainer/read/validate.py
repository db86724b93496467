"""Holds a document against a model and reports every fault at once, in words that say what to do."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

from trainer.read.document import Document, Where
from trainer.read.fault import MOST_SHOWN, WHOLE_FILE, Fault, Faulty
from trainer.read.schema_walk import Schema, find, schema_of, wanted
from trainer.read.suggest import did_you_mean
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from pydantic import BaseModel
    from pydantic_core import ErrorDetails

M = TypeVar("M", bound="BaseModel")

_LONGEST_SHOWN = 40


def validate(model: type[M], document: Document, also: Iterable[tuple[Where, str]] = ()) -> M:
    """Return ``document`` as a ``model``, types taken strictly: no text for numbers, no numbers for true and false.

    ``also`` are faults that the caller found in the same data. Raises :class:`Faulty` with all of them,
    those of the reading, and the model's.
    """
    faults = [*document.faults, *(document.fault(where, what) for where, what in also)]
    instance: M | None = None
    # Slow to load, and the board's first frame reads colours alone: loaded where there is something to check.
    from pydantic import ValidationError  # noqa: PLC0415

    try:
        # As JSON, since only there does strict still take a list for a tuple.
        instance = model.model_validate_json(json.dumps(document.data), strict=True)
    except ValidationError as error:
        details = [detail for detail in error.errors(include_url=False) if not _follows(detail)]
        faults += [_fault(schema_of(model), document, detail) for detail in details[:MOST_SHOWN]]
        if len(details) > MOST_SHOWN:
            left = len(details) - MOST_SHOWN
            more = ngettext(
                "has {n} more fault; put these right first", "has {n} more faults; put these right first", left
            ).format(n=left)
            faults.append(Fault(document.file, document.line_of(()), WHOLE_FILE, more))
    if instance is None or faults:
        raise Faulty(faults)
    return instance


def _follows(error: ErrorDetails) -> bool:
    """Whether a list is short only for want of its faulty entries, which are named for themselves."""
    return error["type"] == "too_short" and len(error["input"]) >= error["ctx"]["min_length"]


def _fault(root: Schema, document: Document, error: ErrorDetails) -> Fault:
    kind, value, context = error["type"], error["input"], error.get("ctx", {})
    where, schema = find(root, error["loc"])
    around_where, around = find(root, error["loc"][:-1])
    if kind == "missing" and where and isinstance(where[-1], int):  # an entry short: the fault is the whole list's
        kind, where, schema = "too_short", around_where, around
    match kind:
        case "missing":
            what = _("is missing; add it: {wanted}").format(wanted=wanted(schema))
        case "extra_forbidden":
            what = _unknown_key(str(where[-1]), around)
        case "union_tag_invalid" | "union_tag_not_found":
            where, what = (*where, str(schema["discriminator"]["propertyName"])), _wrong_tag(schema, context)
        case "value_error" | "assertion_error":
            what = str(context["error"])
        case "too_long" | "too_short":
            what = ngettext("has {n} entry; write {wanted}", "has {n} entries; write {wanted}", len(value)).format(
                n=len(value), wanted=wanted(schema)
            )
        case _:
            what = _unlike(value, schema)
    return document.fault(where, what)


def _unknown_key(key: str, around: Schema) -> str:
    known = list(around.get("properties", {}))
    guess = did_you_mean(key, known)
    return _("is not known here; {guess}").format(
        guess=guess or _("take it out; known here: {keys}").format(keys=", ".join(known))
    )


def _wrong_tag(schema: Schema, context: Mapping[str, Any]) -> str:
    known = list(schema["discriminator"]["mapping"])
    choice = _("one of: {names}").format(names=", ".join(known))
    if "tag" not in context:
        return _("is missing; add it: {choice}").format(choice=choice)
    tag = str(context["tag"])
    return _("is {seen}; {advice}").format(
        seen=_seen(tag), advice=did_you_mean(tag, known) or _("write {wanted}").format(wanted=choice)
    )


def _unlike(value: object, schema: Schema) -> str:
    """Say what stands there and what should."""
    known = [choice for choice in schema.get("enum", ()) if isinstance(choice, str)]
    guess = did_you_mean(value, known) if isinstance(value, str) else ""
    hint = ""
    if isinstance(value, str) and schema.get("type") in ("integer", "number") and re.match(r"\s*[-+]?[0-9]", value):
        hint = _(", in figures alone, without quotes or unit")
    elif schema.get("type") == "string" and isinstance(value, bool | int | float):
        hint = _(", in quotes")
    advice = f"{guess} ({wanted(schema)})" if guess else _("write {wanted}").format(wanted=wanted(schema)) + hint
    return _("is {seen}; {advice}").format(seen=_seen(value), advice=advice)


def _seen(value: object) -> str:
    if value is None:
        return _("left empty")
    if isinstance(value, list):
        return _("a list")
    if isinstance(value, dict):
        return _("a set of keys")
    text = f"'{' '.join(value.split())}'" if isinstance(value, str) else json.dumps(value)
    text = text if len(text) <= _LONGEST_SHOWN else text[:_LONGEST_SHOWN] + "…"
    return _("the text {text}").format(text=text) if isinstance(value, str) else text
