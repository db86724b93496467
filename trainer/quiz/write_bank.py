"""Written questions to the text of a bank file."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.quiz.bank import Question
from trainer.read import yaml_entry

HEAD = "# Written questions. Houses and figures are invented, for practice only."
_FIRST = ("id", "kind", "topic", "difficulty", "serves", "rules", "text")
_LAST = ("why_not", "hint", "why", "safety", "source")


def write_bank(questions: Iterable[Question]) -> str:
    """Return a bank file's text that :func:`trainer.quiz.bank.parse_bank` reads as these questions."""
    return "\n".join([HEAD, "schema: 1", "questions:", *(line for q in questions for line in _lines(q))]) + "\n"


def _lines(question: Question) -> list[str]:
    data = question.model_dump(mode="json", by_alias=True, exclude_none=True)
    for key in ("rules", "why_not"):
        if not data.get(key, True):
            del data[key]
    own = [key for key in data if key not in (*_FIRST, *_LAST)]
    lines = [line for key in (*_FIRST, *own, *_LAST) if key in data for line in _entry(key, data[key])]
    return [f"  - {lines[0].lstrip()}", *lines[1:], ""]


def _entry(key: str, value: object) -> list[str]:
    """A list of texts goes a line each, as a person would write it."""
    if key in ("choices", "steps") and isinstance(value, list):
        return [f"    {key}:", *(line.replace("- text: ", "- ", 1) for text in value for line in _item(text))]
    if key in ("pairs", "why_not") and isinstance(value, dict):
        return [f"    {key}:", *(line for left, right in value.items() for line in yaml_entry(left, right, "      "))]
    return yaml_entry(key, value, "    ")


def _item(text: str) -> list[str]:
    (line,) = yaml_entry("text", text, "      - ")
    return [line]
