"""The level file's description for editors."""

from __future__ import annotations

from typing import Any

from trainer.level.model import Level


def level_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of level files; the plan's own rules are beyond what it can say."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **Level.model_json_schema()}
