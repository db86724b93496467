"""Level file to level: every fault of the file at once."""

from __future__ import annotations

import json
from types import MappingProxyType
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError

from trainer.level.model import (
    Beams,
    DutchGableSettings,
    Gables,
    InternalWalls,
    Level,
    Outline,
    Posts,
    RoofSettings,
    Setback,
)
from trainer.level.style import Style, Styles, styled
from trainer.plan import PlatePlan, beam_faults, beams_against, dutch_faults, plan_faults
from trainer.read import Document, Fault, Faulty, Where, did_you_mean, read_yaml, validate
from trainer.words import _

T = TypeVar("T")
NO_STYLES: Styles = MappingProxyType({})
_OUTLINE: TypeAdapter[tuple[tuple[int, int], ...]] = TypeAdapter(Outline)
_GABLES: TypeAdapter[tuple[str, ...]] = TypeAdapter(Gables)
_DUTCH: TypeAdapter[DutchGableSettings] = TypeAdapter(DutchGableSettings)
_SETBACK: TypeAdapter[int] = TypeAdapter(Setback)
_FASCIA: TypeAdapter[int] = TypeAdapter(int)
FASCIA: int = RoofSettings.model_fields["straight_fascia"].default
"""What a level that says nothing of it has for its straight fascia, mm."""
_INTERNAL: TypeAdapter[tuple[tuple[tuple[int, int], ...], ...]] = TypeAdapter(InternalWalls)


_BEAMS: TypeAdapter[dict[str, tuple[int, int] | None]] = TypeAdapter(Beams)
_POSTS: TypeAdapter[dict[str, tuple[int, ...]]] = TypeAdapter(Posts)


def parse_level(text: str | bytes, file: str, styles: Styles = NO_STYLES) -> Level:
    """Read a level file's text; ``file`` is the name that faults carry, ``styles`` the house styles there are.

    Raises :class:`trainer.read.Faulty` with every fault: of the YAML, of keys and values, of the style that it
    names, and of the plan, this last wherever the outline can be read, whatever else is wrong.
    """
    return level_of(read_yaml(text, file), styles)


def level_of(document: Document, styles: Styles = NO_STYLES) -> Level:
    """Return the level that a file's data is; the same faults as :func:`parse_level`."""
    also = _plan_faults(document.data)
    of_style: tuple[Fault, ...] = ()
    name = document.data.get("style") if isinstance(document.data, dict) else None
    if isinstance(name, str) and name in styles:
        document, of_style = _in_style(document, *styles[name])
    elif isinstance(name, str):
        guess = did_you_mean(name, styles) or _("there is {styles}").format(styles=", ".join(styles) or _("none"))
        also.append((("style",), _("no house style is called '{name}'; {guess}").format(name=name[:40], guess=guess)))
    also += _dutch_faults(document.data)
    try:
        level = validate(Level, document, also)
    except Faulty as faulty:
        follows = of_style or (isinstance(name, str) and name not in styles)
        raise Faulty([*of_style, *(f for f in faulty.faults if not (follows and _left_to_style(f)))]) from None
    if of_style:
        raise Faulty(of_style)
    return level


def _in_style(document: Document, text: str | bytes, file: str) -> tuple[Document, tuple[Fault, ...]]:
    """Return the level's document over its style's, and the style's own faults."""
    try:
        style = read_yaml(text, file)
    except Faulty as faulty:
        return document, faulty.faults
    try:
        validate(Style, style)
    except Faulty as faulty:
        return styled(document, style), faulty.faults
    return styled(document, style), ()


def _left_to_style(fault: Fault) -> bool:
    """Whether a fault may only follow from a style that can't be had: what is missing is what it would have given."""
    return fault.path.partition(".")[0] == "trusses" and fault.what.startswith("is missing")


def _plan_faults(data: object) -> list[tuple[Where, str]]:
    level: dict[str, Any] = data if isinstance(data, dict) else {}
    plates = level.get("plates")
    outline = _as(_OUTLINE, plates.get("outline")) if isinstance(plates, dict) else None
    if outline is None:
        return []
    gables, internal = _as(_GABLES, level.get("gables", [])), _as(_INTERNAL, level.get("internal_walls", []))
    against = _as(_GABLES, level.get("against", [])) or ()
    faults = [(fault.path, fault.what) for fault in plan_faults(outline, gables or (), internal or (), against)]
    if not any(path[0] == "plates" for path, _what in faults):
        beams, posts = _as(_BEAMS, level.get("beams", {})), _as(_POSTS, level.get("posts", {}))
        faults += beam_faults(outline, gables or (), beams or {}, posts or {})
        faults += _beams_twice(level.get("beams"))
        faults += [(("against", i), what) for i, what in beams_against(against, beams or {})]
    return faults


def _beams_twice(given: object) -> list[tuple[Where, str]]:
    """Walls that stand twice in a list of beams, which is read as keys."""
    names = given if isinstance(given, list) else []
    return [(("beams", i), _("is named twice; leave it out")) for i, name in enumerate(names) if name in names[:i]]


def _dutch_faults(data: object) -> list[tuple[Where, str]]:
    """What is wrong with the dutch gables of a plan in which all else is sound."""
    level: dict[str, Any] = data if isinstance(data, dict) else {}
    given = level.get("dutch_gables")
    dutch = {wall: _as(_DUTCH, own) for wall, own in given.items()} if isinstance(given, dict) else {}
    plates, roof, trusses = (level.get(key) for key in ("plates", "roof", "trusses"))
    plan_is_faulty = any(path[0] in ("plates", "gables", "against") for path, _what in _plan_faults(data))
    if not dutch or not (isinstance(plates, dict) and isinstance(trusses, dict)) or plan_is_faulty:
        return []
    outline, gables = _as(_OUTLINE, plates.get("outline")), _as(_GABLES, level.get("gables", []))
    setback = _as(_SETBACK, trusses.get("setback"))
    limit = _as(_FASCIA, roof.get("straight_fascia", FASCIA)) if isinstance(roof, dict) else None
    if outline is None or gables is None or setback is None:
        return []
    against = _as(_GABLES, level.get("against", [])) or ()
    plan = PlatePlan(outline, 90, frozenset(gables), against=frozenset(against))
    sizes = {wall: (float(own.at), float(own.verge)) if own else None for wall, own in dutch.items()}
    faults = dutch_faults(plan, FASCIA if limit is None else limit, setback, sizes)
    return [(fault.path, fault.what) for fault in faults]


def _as(kind: TypeAdapter[T], value: object) -> T | None:
    try:
        return kind.validate_json(json.dumps(value), strict=True)
    except ValidationError:
        return None  # the model reports it
