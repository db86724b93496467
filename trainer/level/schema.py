"""The descriptions of level files and house styles for editors."""

from __future__ import annotations

from typing import Any

from trainer.level.model import Level
from trainer.level.style import Style

_EDITION = {"$schema": "https://json-schema.org/draft/2020-12/schema"}


def level_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of level files; the plan's own rules are beyond what it can say.

    A level that names a style may leave to it what must stand in any other.
    """
    schema = Level.model_json_schema()
    settings = schema["$defs"]["TrussSettings"]
    by_itself = {"required": ["trusses"], "properties": {"trusses": {"required": settings.pop("required")}}}
    schema["required"].remove("trusses")
    return {**_EDITION, **schema, "anyOf": [{"required": ["style"]}, by_itself]}


def style_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of house styles."""
    return {**_EDITION, **Style.model_json_schema()}
