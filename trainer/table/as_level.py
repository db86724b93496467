"""From a drawing to what its level file holds, and back."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError

from trainer.level.model import Beams, Gables, InternalWalls, Level, Posts
from trainer.plan import wall_name
from trainer.read import Document, Faulty
from trainer.table.drawing import Corner, Drawing, WallKind
from trainer.words import _

T = TypeVar("T")
PLAN = ("gables", "against", "dutch_gables", "beams", "posts", "internal_walls")
"""The keys of a level that are drawn, beside the outline."""
ORDER = tuple(field.alias or name for name, field in Level.model_fields.items())
_CORNERS: TypeAdapter[tuple[tuple[int, int], ...]] = TypeAdapter(tuple[tuple[int, int], ...])
_GABLES: TypeAdapter[tuple[str, ...]] = TypeAdapter(Gables)
_DUTCH: TypeAdapter[dict[str, dict[str, int]]] = TypeAdapter(dict[str, dict[str, int]])
_BEAMS: TypeAdapter[dict[str, tuple[int, int] | None]] = TypeAdapter(Beams)
_POSTS: TypeAdapter[dict[str, tuple[int, ...]]] = TypeAdapter(Posts)
_INSIDE: TypeAdapter[tuple[tuple[tuple[int, int], ...], ...]] = TypeAdapter(InternalWalls)


def level_data(drawing: Drawing) -> dict[str, Any]:
    """Return what the level file of a drawing holds, its keys in the order of the file."""
    data: dict[str, Any] = {key: _plain(value) for key, value in drawing.values.items() if key not in PLAN}
    data["plates"] = {"outline": [list(at) for at in drawing.corners], **data.get("plates", {})}
    named = [(name, wall) for name, wall in zip(drawing.names, drawing.walls, strict=False)]
    beams = {name: wall.stretch and list(wall.stretch) for name, wall in named if wall.beam}
    plan: dict[str, Any] = {
        "gables": [name for name, wall in named if wall.gable],
        "against": [name for name, wall in named if wall.against],
        "dutch_gables": {name: _dutch(wall.dutch) for name, wall in named if wall.dutch},
        "beams": beams if any(beams.values()) else list(beams),
        "posts": {name: list(wall.posts) for name, wall in named if wall.posts is not None},
        "internal_walls": [[list(at) for at in wall] for wall in drawing.inside],
    }
    if any(beams.values()):
        plan["beams"] = {name: on or [0, drawing.length(drawing.index(name))] for name, on in beams.items()}
    data |= {key: value for key, value in plan.items() if value}
    return {key: data[key] for key in (*ORDER, *data) if key in data}


def _dutch(dutch: tuple[int, int | None]) -> dict[str, int]:
    at, verge = dutch
    return {"at": at} if verge is None else {"at": at, "verge": verge}


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    return [_plain(item) for item in value] if isinstance(value, list | tuple) else value


def drawing_of(document: Document) -> Drawing:
    """Return the drawing of a level file's data.

    What is wrong with a house that can be drawn is for the faults of the drawing.

    :raises Faulty: where the plan is written in a form that can't be drawn.
    """
    if not isinstance(document.data, dict):
        raise Faulty([document.fault((), _("is no level; it holds keys with values"))])
    data: dict[str, Any] = document.data
    plates = data.get("plates")
    outline = _as(_CORNERS, plates.get("outline", [])) if isinstance(plates, dict) else ()
    gables, against = (_as(_GABLES, data.get(key, [])) for key in ("gables", "against"))
    dutch, beams = _as(_DUTCH, data.get("dutch_gables", {})), _as(_BEAMS, data.get("beams", {}))
    posts, inside = _as(_POSTS, data.get("posts", {})), _as(_INSIDE, data.get("internal_walls", []))
    found = {
        "plates": outline, "gables": gables, "against": against, "dutch_gables": dutch, "beams": beams,
        "posts": posts, "internal_walls": inside,
    }  # fmt: skip
    count = len(outline or ())
    unread = _("can't be drawn as it is written; see 'trainer check'")
    wrong = [
        *(((key,), unread) for key, read in found.items() if read is None),
        *((("dutch_gables", wall), unread) for wall, own in (dutch or {}).items() if not _is_dutch(own)),
        *_nowhere({"gables": gables, "against": against, "dutch_gables": dutch, "beams": beams, "posts": posts}, count),
    ]
    if wrong:
        raise Faulty(document.fault(where, what) for where, what in wrong)
    assert outline is not None and gables is not None and against is not None
    assert dutch is not None and beams is not None and posts is not None and inside is not None
    names = [wall_name(i) for i in range(count)]
    walls = tuple(
        WallKind(
            name in gables, name in against, _sizes(dutch[name]) if name in dutch else None, name in beams,
            beams.get(name), posts.get(name),
        )
        for name in names
    )  # fmt: skip
    values = {key: value for key, value in data.items() if key not in PLAN and key != "plates"}
    if isinstance(plates, dict):
        values["plates"] = {key: value for key, value in plates.items() if key != "outline"}
    return Drawing(outline, walls, count > 3, inside, values)


def _nowhere(named: Mapping[str, Any], count: int) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Walls that are named and not there, or named twice: they can't be drawn."""
    names = {wall_name(i) for i in range(count)}
    for key, found in named.items():
        for i, name in enumerate(found or ()):
            place = (key, name) if isinstance(found, Mapping) else (key, i)
            if name not in names:
                yield place, _("names a wall '{name}' that this house doesn't have").format(name=name)
            elif isinstance(found, tuple) and name in found[:i]:
                yield place, _("is named twice; leave it out")


def _is_dutch(own: Mapping[str, int]) -> bool:
    return {"at"} <= set(own) <= {"at", "verge"}


def _sizes(dutch: Mapping[str, int]) -> tuple[int, int | None]:
    return dutch["at"], dutch.get("verge")


def _as(kind: TypeAdapter[T], value: object) -> T | None:
    try:
        return kind.validate_json(json.dumps(value), strict=True)
    except ValidationError:
        return None


def data_over(old: Mapping[str, Any], before: Drawing, now: Drawing) -> dict[str, Any]:
    """Return the data of a drawing where a file holds ``old``, which was drawn as ``before``.

    What means the same as before stands as the file has it.
    """
    was, new = level_data(before), level_data(now)
    data = {key: new[key] for key in new}
    for key in old:
        if was.get(key) == new.get(key):
            data[key] = old[key]
    return {key: data[key] for key in (*ORDER, *data) if key in data}


def corner_of(value: object) -> Corner | None:
    """Return a place [x, y] of a level's data, if it is one."""
    match value:
        case [int(x), int(y)]:
            return (x, y)
    return None
