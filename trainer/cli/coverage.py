"""``trainer coverage``: what of the job and of the unit the levels, drills and questions cover."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING

import typer

from trainer.cli.given import AsJson, file_bytes, given_layout, given_level, say, show
from trainer.words import _, listed

if TYPE_CHECKING:
    from trainer.coverage import CoverageRow

HEADS = {
    "step": _("Steps of the job"),
    "unit": _("Items of the unit CPCCCA3006"),
    "evidence": _("What the unit wants to be seen"),
    "rule": _("Rules, and where they are taught"),
}
SHOWN = 4
"""Levels named in a row; the others are counted."""


def coverage(as_json: AsJson = False) -> None:
    """Show what covers each step of the job.

    Each item of the unit of competency too, and each rule: by levels, drills and questions.
    Leaves with 1 where something is covered by nothing.
    """
    from trainer.coverage import coverage
    from trainer.quiz import parse_bank
    from trainer.shipped import bank_paths, level_paths

    levels = [given_level(str(path)) for path in level_paths()]
    houses = [(level, given_layout(level)) for level in levels]
    questions = [question for path in bank_paths() for question in parse_bank(file_bytes(path), str(path))]
    rows = coverage(houses, questions)
    show(json.dumps([_as_data(row) for row in rows], indent=2, ensure_ascii=False) if as_json else _table(rows))
    bare = [row for row in rows if not row.covered]
    for row in bare:
        say(_("Covered by nothing: {name}").format(name=row.name))
    raise typer.Exit(1 if bare else 0)


def _as_data(row: CoverageRow) -> dict[str, object]:
    lists = {"levels": list(row.levels), "drills": list(row.drills), "topics": list(row.topics)}
    return {"of": row.of, "name": row.name, "what": row.what, **lists, "covered": row.covered}


def _table(rows: Sequence[CoverageRow]) -> str:
    lines: list[str] = []
    for of, head in HEADS.items():
        lines += ["", head, ""] if lines else [head, ""]
        for row in (row for row in rows if row.of == of):
            lines.append(row.name if of == "rule" else row.what)
            lines += [f"    {name}: {said}" for name, said in _covers(row) if said]
    return "\n".join(lines)


def _covers(row: CoverageRow) -> tuple[tuple[str, str], ...]:
    from trainer.quiz.unit import TOPIC_NAMES

    questions = ", ".join(TOPIC_NAMES[topic] for topic in row.topics)
    return (
        (_("levels"), listed(row.levels, SHOWN)),
        (_("drills"), ", ".join(row.drills)),
        (_("questions"), questions),
    )
