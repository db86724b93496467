"""The descriptions of level files and house styles for editors."""

from __future__ import annotations

import ast
import inspect
import textwrap
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from trainer.level.block import Block
from trainer.level.model import Level
from trainer.level.style import Style

_EDITION = {"$schema": "https://json-schema.org/draft/2020-12/schema"}


def level_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of level files; the plan's own rules are beyond what it can say.

    A level that names a style may leave to it what must stand in any other.
    """
    schema = _described(Level)
    settings = schema["$defs"]["TrussSettings"]
    by_itself = {"required": ["trusses"], "properties": {"trusses": {"required": settings.pop("required")}}}
    schema["required"].remove("trusses")
    return {**_EDITION, **schema, "anyOf": [{"required": ["style"]}, by_itself]}


def style_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of house styles."""
    return {**_EDITION, **_described(Style)}


def _described(model: type[Block]) -> dict[str, Any]:
    """Return a model's schema, each key described by the text under its field.

    Only here are these texts read: reading a level asks for none of them, and the source of every block is slow to
    look through.
    """
    schema = model.model_json_schema()
    parts = {model.__name__: schema, **schema.get("$defs", {})}
    for block in _blocks(Block):
        keys = parts.get(block.__name__, {}).get("properties", {})
        for name, text in _texts(block).items():
            key = block.model_fields[name].alias or name
            if key in keys:
                keys[key].setdefault("description", text)
    return schema


def _blocks(block: type[Block]) -> Iterator[type[Block]]:
    for below in block.__subclasses__():
        yield below
        yield from _blocks(below)


def _texts(block: type[Block]) -> dict[str, str]:
    """The text under each field of a block, its own and those that it takes over."""
    found: dict[str, str] = {}
    for each in reversed([base for base in block.__mro__ if issubclass(base, Block) and base is not Block]):
        (whole,) = ast.parse(textwrap.dedent(inspect.getsource(each))).body
        for field, text in pairwise(whole.body if isinstance(whole, ast.ClassDef) else ()):
            said = text.value if isinstance(text, ast.Expr) and isinstance(text.value, ast.Constant) else None
            if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name) and said is not None:
                found[field.target.id] = inspect.cleandoc(str(said.value))
    return found
