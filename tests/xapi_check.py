"""Our own look at xAPI statements: what record stores reject, and what a common validator passes over.

By the xAPI 1.0.3 specification, part two (Data), for the statements that we write; it is no general validator.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

_UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
_IRI = re.compile(r"[a-z][a-z0-9+.-]*:[^\s<>\"{}|\\^`]+", re.IGNORECASE)
_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z")
_LASTING = re.compile(r"P(?=.)(\d+D)?(T(?=.)(\d+H)?(\d+M)?(\d+(\.\d{1,2})?S)?)?")
_KEYS = {"id", "actor", "verb", "object", "result", "context", "timestamp"}
_NUMBER = r"-?\d+(\.\d+)?([eE][-+]?\d+)?"
_NAME = r"[^\s\[\],.:]+"
_PATTERNS = {
    "choice": rf"({_NAME}(\[,\]{_NAME})*)?",
    "sequencing": rf"({_NAME}(\[,\]{_NAME})*)?",
    "matching": rf"({_NAME}\[\.\]{_NAME}(\[,\]{_NAME}\[\.\]{_NAME})*)?",
    "numeric": rf"({_NUMBER})?\[:\]({_NUMBER})?",
}
_PARTS = {"choice": {"choices"}, "sequencing": {"choices"}, "matching": {"source", "target"}, "numeric": set()}


def faults_of(statement: Mapping[str, Any]) -> tuple[str, ...]:
    """Return everything that is wrong with a statement, each as ``path: what``."""
    return tuple(_faults(statement))


def _faults(said: Mapping[str, Any]) -> Iterator[str]:
    yield from _nulls("", said)
    for key in sorted(said.keys() - _KEYS):
        yield f"{key}: not one of ours"
    if not _UUID.fullmatch(str(said.get("id"))):
        yield "id: no UUID"
    if not _MOMENT.fullmatch(str(said.get("timestamp"))):
        yield "timestamp: no UTC time"
    actor = said.get("actor", {})
    ways = {"mbox", "mbox_sha1sum", "openid", "account"} & actor.keys()
    if ways != {"account"} or set(actor.get("account", {})) != {"homePage", "name"}:
        yield "actor: not exactly one account"
    yield from _iri("verb.id", said.get("verb", {}).get("id"))
    if not said.get("verb", {}).get("display"):
        yield "verb.display: missing"
    yield from _iri("object.id", said.get("object", {}).get("id"))
    yield from _definition(said.get("object", {}).get("definition", {}))
    yield from _result(said.get("result", {}))
    if not _UUID.fullmatch(str(said.get("context", {}).get("registration"))):
        yield "context.registration: no UUID"
    for path in ("context", "result"):
        for key in said.get(path, {}).get("extensions", {}):
            yield from _iri(f"{path}.extensions", key)


def _nulls(path: str, value: Any) -> Iterator[str]:
    """Nulls are allowed inside extensions only; ours have none anywhere."""
    if value is None:
        yield f"{path}: null"
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _nulls(f"{path}.{key}".lstrip("."), inner)
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from _nulls(f"{path}[{place}]", inner)


def _iri(path: str, value: Any) -> Iterator[str]:
    if not isinstance(value, str) or not _IRI.fullmatch(value):
        yield f"{path}: no IRI"


def _result(result: Mapping[str, Any]) -> Iterator[str]:
    score = result.get("score")
    if score is not None:
        numbers = [score.get(name) for name in ("scaled", "min", "raw", "max")]
        if any(isinstance(number, bool) or not isinstance(number, int | float) for number in numbers):
            yield "result.score: not all numbers"
        elif not (-1 <= score["scaled"] <= 1 and score["min"] <= score["raw"] <= score["max"]):
            yield "result.score: out of its range"
    for name in ("success", "completion"):
        if not isinstance(result.get(name, True), bool):
            yield f"result.{name}: neither true nor false"
    if not isinstance(result.get("response", ""), str):
        yield "result.response: no text"
    if "duration" in result and not _LASTING.fullmatch(str(result["duration"])):
        yield "result.duration: no ISO 8601 duration to a hundredth of a second"


def _definition(definition: Mapping[str, Any]) -> Iterator[str]:
    yield from _iri("object.definition.type", definition.get("type"))
    asked = definition.get("interactionType")
    if asked is None:
        return
    if asked not in _PATTERNS:
        yield "object.definition.interactionType: not one of ours"
        return
    offered: set[str] = set()
    for part in sorted({"choices", "scale", "source", "target", "steps"} & definition.keys()):
        if part not in _PARTS[asked]:
            yield f"object.definition.{part}: not for {asked}"
        names = [each.get("id") for each in definition[part]]
        offered |= set(names)
        if len(set(names)) < len(names):
            yield f"object.definition.{part}: an id twice"
    for pattern in definition.get("correctResponsesPattern", ()):
        yield from _pattern(asked, pattern, offered)


def _pattern(asked: str, pattern: Any, offered: set[str]) -> Iterator[str]:
    path = "object.definition.correctResponsesPattern"
    if not isinstance(pattern, str) or not re.fullmatch(_PATTERNS[asked], pattern):
        yield f"{path}: not of the form for {asked}"
    elif offered and not set(re.split(r"\[[,.]\]", pattern)) <= offered:
        yield f"{path}: names what is not offered"
