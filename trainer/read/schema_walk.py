"""What a model wants at a place, read off its JSON Schema, so that faults and editors say the same."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from trainer.read.document import Where
from trainer.words import _

if TYPE_CHECKING:
    from pydantic import BaseModel

Schema = Mapping[str, Any]

UNIT = "x-unit"
"""Schema keyword of ours: the unit of a number, ``mm`` or ``degrees``."""
WANTED = "x-wanted"
"""Schema keyword of ours: what to write, where type and range don't say it."""


@lru_cache(maxsize=8)
def schema_of(model: type[BaseModel]) -> Schema:
    """Return the JSON Schema of ``model``."""
    return model.model_json_schema()


def find(root: Schema, loc: tuple[int | str, ...]) -> tuple[Where, Schema]:
    """Follow a pydantic error's ``loc``; return the way to it in the document, and the schema there.

    They differ where a union's tag stands in ``loc``, which is no place in the document.
    """
    where: list[str | int] = []
    schema = _resolved(root, root)
    for part in loc:
        mapping = schema.get("discriminator", {}).get("mapping", {})
        if part in mapping:
            schema = _resolved(root, {"$ref": mapping[part]})
        elif part != "[key]":
            where.append(part)
            schema = _inner(root, schema, part)
    return tuple(where), schema


def _inner(root: Schema, schema: Schema, part: str | int) -> Schema:
    inner: Schema | bool = {}
    if isinstance(part, str):
        inner = schema.get("properties", {}).get(part, schema.get("additionalProperties", {}))
    elif part < len(schema.get("prefixItems", ())):
        inner = schema["prefixItems"][part]
    else:
        inner = schema.get("items", {})
    return _resolved(root, inner) if isinstance(inner, Mapping) else {}


def _resolved(root: Schema, schema: Schema) -> Schema:
    """Follow references, and look through "or null"."""
    while "$ref" in schema or "anyOf" in schema:
        rest = {key: value for key, value in schema.items() if key not in ("$ref", "anyOf")}
        if "$ref" in schema:
            target: Schema = root["$defs"][schema["$ref"].rsplit("/", 1)[-1]]
        else:
            choices = [choice for choice in schema["anyOf"] if choice.get("type") != "null"]
            if len(choices) != 1:
                return rest
            target = choices[0]
        schema = {**target, **rest}
    return schema


def wanted(schema: Schema) -> str:
    """Say in words what may be written there."""
    if WANTED in schema:
        return str(schema[WANTED])
    if "const" in schema:
        return _shown(schema["const"])
    if "enum" in schema:
        return _("one of: ") + ", ".join(map(_shown, schema["enum"]))
    kind = schema.get("type")
    if kind in ("integer", "number"):
        return (_("a whole number") if kind == "integer" else _("a number")) + _range(schema)
    return {
        "boolean": _("true or false"),
        "string": _("text") + _count(schema, "Length", _("characters")),
        "array": _("a list [ ]") + _count(schema, "Items", _("entries")),
        "object": _("keys with values: ") + ", ".join(schema.get("required") or schema.get("properties", {})),
    }.get(str(kind), _("what the schema asks for"))


def _shown(value: object) -> str:
    return value if isinstance(value, str) else json.dumps(value)


def _range(schema: Schema) -> str:
    unit = f" {schema[UNIT]}" if UNIT in schema else ""
    least, most = schema.get("minimum"), schema.get("maximum")
    if least is not None and most is not None:
        return _(" from {least:g} to {most:g}{unit}").format(least=least, most=most, unit=unit)
    if least is not None:
        return _(" of at least {least:g}{unit}").format(least=least, unit=unit)
    return (
        _(" of at most {most:g}{unit}").format(most=most, unit=unit)
        if most is not None
        else unit and _(" of{unit}").format(unit=unit)
    )


def _count(schema: Schema, what: str, of: str) -> str:
    least, most = schema.get(f"min{what}"), schema.get(f"max{what}")
    if least and most:
        return (_(" of {least} {of}") if least == most else _(" of {least} to {most} {of}")).format(
            least=least, most=most, of=of
        )
    if most:
        return _(" of at most {most} {of}").format(most=most, of=of)
    return _(" of at least {least} {of}").format(least=least, of=of) if least else ""
