"""An attempt as xAPI 1.0.3 statements, in the common subset that 2.0 still takes.

The actor is an account with the code name, never a person. Ids of statements come from the attempt's own entries,
so that sending an attempt twice adds nothing.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from trainer.records.attempt import Attempt
from trainer.records.chain import JsonObject, canonical
from trainer.records.gradebook import grades_of
from trainer.records.remarks import remarks
from trainer.words import _

BASE = "https://trainer.invalid/"
"""Where our own names lie, unless a college gives a home of its own. ``.invalid`` belongs to nobody (RFC 2606)."""
_VERBS = "http://adlnet.gov/expapi/verbs/"
_ACTIVITIES = "http://adlnet.gov/expapi/activities/"
_LANGUAGE = "en-AU"
NOTE = _("Of the practice mark only. It says nothing of competency.")


def statements(
    attempt: Attempt, base: str = BASE, trust: str = "", times: Sequence[int] = ()
) -> tuple[dict[str, Any], ...]:
    """Return an attempt that holds as statements, in the order things happened. ``base`` is an IRI ending in ``/``.

    ``trust`` is its label, ``times`` which try each house of it is; both stand in its line of the gradebook.
    """
    more = {"trust": trust, "tries": list(times)} if trust else {}
    seen = list(remarks(attempt)) or None
    return tuple(_statements(attempt, base, {**grades_of(attempt).as_json(), **more, "remarks": seen}))


def _statements(attempt: Attempt, base: str, book: Mapping[str, object]) -> Iterator[dict[str, Any]]:
    begun: dict[str, Any] = _sitting(attempt, base)
    since = attempt.began
    yield _statement(attempt, base, 0, "attempted", begun)
    for n, entry in enumerate(attempt.entries):
        body = entry.body
        match body["kind"]:
            case "house":
                begun, since = _house(body, base), int(body["at"])
                yield _statement(attempt, base, n, "attempted", begun)
            case "paper":
                begun = _activity(base, f"paper/{body['paper']}", _("Question paper"), "assessment")
            case "mark":
                result = _marked(body, since, base)
                if body["outcome"] != "unfinished":
                    met = body["outcome"] == "met"
                    yield _statement(attempt, base, n, "passed" if met else "failed", begun, result | {"success": met})
            case "drill":
                what = _activity(base, f"drill/{body['drill']}", str(body["drill"]), "simulation")
                result = {"completion": body["reached"] == body["goals"], "success": body["right"]}
                yield _statement(attempt, base, n, "completed", what, result)
            case "answer":
                result = {"success": body["right"], "response": _response(body), "duration": _lasting(body["took"])}
                yield _statement(attempt, base, n, "answered", _question(body, base), result)
            case "close":
                result = {
                    "completion": True, "duration": _lasting(int(body["at"]) - attempt.began),
                    "extensions": {f"{base}gradebook": {k: v for k, v in book.items() if v is not None}},
                }  # fmt: skip
                yield _statement(attempt, base, n, "completed", _sitting(attempt, base), result)


def _statement(
    attempt: Attempt, base: str, n: int, verb: str, what: Mapping[str, Any], result: Mapping[str, Any] | None = None
) -> dict[str, Any]:
    entry = attempt.entries[n]
    extensions: dict[str, Any] = {f"{base}head": attempt.head.hex(), f"{base}entry": n, f"{base}mode": attempt.mode}
    if attempt.seals:
        extensions[f"{base}signatures"] = [seal.as_json() for seal in attempt.seals]
    said = {
        "id": str(uuid.uuid5(uuid.UUID(attempt.id), f"{n} {entry.hash.hex()} {verb}")),
        "actor": {"objectType": "Agent", "account": {"homePage": base, "name": attempt.code}},
        "verb": {"id": _VERBS + verb, "display": {_LANGUAGE: verb}},
        "object": what,
        "context": {"registration": attempt.id, "platform": "Roof truss trainer", "extensions": extensions},
        "timestamp": _moment(int(entry.body["at"])),
    }
    return said if result is None else {**said, "result": result}


def _sitting(attempt: Attempt, base: str) -> dict[str, Any]:
    return _activity(base, f"sitting/{attempt.id}", _("Sitting"), "assessment")


def _house(body: JsonObject, base: str) -> dict[str, Any]:
    return _activity(base, f"level/{body['level']}", str(body["level"]), "simulation")


def _activity(base: str, path: str, name: str, kind: str) -> dict[str, Any]:
    definition = {"type": _ACTIVITIES + kind, "name": {_LANGUAGE: name}}
    return {"objectType": "Activity", "id": base + path, "definition": definition}


def _marked(body: JsonObject, since: int, base: str) -> dict[str, Any]:
    score = int(body["score"])
    return {
        "score": {"scaled": score / 100, "raw": score, "min": 0, "max": 100},
        "completion": body["outcome"] != "unfinished",
        "duration": _lasting(int(body["at"]) - since),
        "extensions": {f"{base}note": NOTE},
    }


def _question(body: JsonObject, base: str) -> dict[str, Any]:
    offered: Mapping[str, Mapping[str, str]] = body.get("offered") or {}
    definition: dict[str, Any] = {
        "type": _ACTIVITIES + "cmi.interaction",
        "description": {_LANGUAGE: body["text"]},
        "interactionType": body["asked"],
        "correctResponsesPattern": [_pattern(body["asked"], body["want"])],
    }
    for part, texts in offered.items():
        definition[part] = [{"id": name, "description": {_LANGUAGE: text}} for name, text in texts.items()]
    return {"objectType": "Activity", "id": f"{base}question/{body['question']}", "definition": definition}


def _response(body: JsonObject) -> str:
    if body["asked"] == "numeric":
        return _number(body["given"])
    return _pattern(body["asked"], body["given"])


def _pattern(asked: str, value: Any) -> str:
    if asked == "numeric":
        low, high = value
        return f"{_number(low)}[:]{_number(high)}"
    if asked == "matching":
        return "[,]".join(f"{one}[.]{other}" for one, other in value)
    return "[,]".join(value)


def _number(value: Any) -> str:
    return "" if value is None else canonical(value).decode("ascii")


def _lasting(ms: int) -> str:
    """An ISO 8601 duration, to a hundredth of a second."""
    return f"PT{max(0, ms) / 1000:.2f}S"


def _moment(at: int) -> str:
    """A time in ms UTC as ISO 8601 has it."""
    return datetime.fromtimestamp(at // 1000, UTC).strftime("%Y-%m-%dT%H:%M:%S") + f".{at % 1000:03d}Z"
