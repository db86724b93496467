"""Level file to level: every fault of the file at once."""

from __future__ import annotations

import json
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError

from trainer.level.model import Gables, InternalWalls, Level, Outline
from trainer.plan import plan_faults
from trainer.read import Where, read_yaml, validate

T = TypeVar("T")
_OUTLINE: TypeAdapter[tuple[tuple[int, int], ...]] = TypeAdapter(Outline)
_GABLES: TypeAdapter[tuple[str, ...]] = TypeAdapter(Gables)
_INTERNAL: TypeAdapter[tuple[tuple[tuple[int, int], ...], ...]] = TypeAdapter(InternalWalls)


def parse_level(text: str | bytes, file: str) -> Level:
    """Read a level file's text; ``file`` is the name that faults carry.

    Raises :class:`trainer.read.Faulty` with every fault: of the YAML, of keys and values, and of the plan,
    this last wherever the outline can be read, whatever else is wrong.
    """
    document = read_yaml(text, file)
    return validate(Level, document, also=_plan_faults(document.data))


def _plan_faults(data: object) -> list[tuple[Where, str]]:
    level: dict[str, Any] = data if isinstance(data, dict) else {}
    plates = level.get("plates")
    outline = _as(_OUTLINE, plates.get("outline")) if isinstance(plates, dict) else None
    if outline is None:
        return []
    gables, internal = _as(_GABLES, level.get("gables", [])), _as(_INTERNAL, level.get("internal_walls", []))
    return [(fault.path, fault.what) for fault in plan_faults(outline, gables or (), internal or ())]


def _as(kind: TypeAdapter[T], value: object) -> T | None:
    try:
        return kind.validate_json(json.dumps(value), strict=True)
    except ValidationError:
        return None  # the model reports it
