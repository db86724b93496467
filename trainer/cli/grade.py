"""``trainer grade``: what is found in a diary, and the mark."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.given import AsJson, LevelName, faults_told, file_bytes, given_layout, given_level

if TYPE_CHECKING:
    from trainer.rules.finding import Finding
    from trainer.score import Mark
    from trainer.session import Session

DiaryFile = Annotated[Path, typer.Argument(metavar="DIARY", help="A diary file: an attempt, one action a line.")]
TOLD = ("rule", "event", "member", "severity", "got", "want", "what", "why", "fix", "safety", "source")
"""What the contract tells of a finding."""


def grade(level: LevelName, diary: DiaryFile, as_json: AsJson = False) -> None:
    """Judge a diary: every mistake explained, and the mark.

    Actions that nobody could do are listed and skipped. A diary that could be judged is done, whatever its mark.
    """
    from trainer.score import mark  # noqa: PLC0415
    from trainer.session import Session  # noqa: PLC0415
    from trainer.site import parse_diary  # noqa: PLC0415

    given = given_level(level)
    with faults_told():
        attempt = parse_diary(file_bytes(diary), str(diary), given.id)
    session = Session(given, attempt.seed, layout=given_layout(given)).replay(attempt.actions, attempt.hints)
    lesson = given.lesson
    over, hints = session.site.handed_over, len(session.hints)
    got = mark(session.findings, lesson.weights.by_severity(), lesson.practice_mark, over, hints, lesson.hint_cost)
    typer.echo(json.dumps(_for_programs(session, got)) if as_json else _for_people(session, got))


def _for_programs(session: Session, got: Mark) -> dict[str, object]:
    return {
        "level": session.level.id,
        "score": got.score,
        "outcome": got.outcome,
        "findings": [{name: getattr(finding, name) for name in TOLD} for finding in session.findings],
        "refused": [{"event": event, "why": why} for event, why in session.refused],
        "hints": list(session.hints),
    }


def _for_people(session: Session, got: Mark) -> str:
    from trainer.words import CAUTION, INVENTED  # noqa: PLC0415

    parts = [f"{session.level.title}: {got.score} of 100. Practice mark: {got.outcome}.", INVENTED]
    if not session.site.handed_over:
        parts.append("The roof was not handed over. So nothing is said of what is missing.")
    if got.missing:
        lacks = [f"  {finding.what}" for finding in got.missing]
        parts.append("\n".join(["Not done: the roof was handed over with this missing.", *lacks]))
    parts += [_told(finding) for finding in session.findings]
    if session.refused:
        skipped = [f"  action {event}: {why}" for event, why in session.refused]
        parts.append("\n".join(["Skipped, since nobody could do it:", *skipped]))
    if session.hints:
        parts.append(f"Hints were taken before actions {', '.join(map(str, session.hints))}.")
    parts += [_counted(got), CAUTION]
    return "\n\n".join(parts)


def _told(finding: Finding) -> str:
    lines = [
        f"Action {finding.event}, {finding.severity}: {finding.rule}",
        f"  {finding.what}",
        f"  Why: {finding.why}",
        f"  Put right: {finding.fix}",
        f"  Safety: {finding.safety}",
        f"  Source: {finding.source}",
    ]
    return "\n".join(lines)


def _counted(got: Mark) -> str:
    """How the mark came about."""
    if not (got.lines or got.besides):
        return "Nothing was found."
    lines = [f"  {line.rule}, {line.member}: {line.text}" for line in (*got.lines, *got.besides)]
    return "\n".join(["How the mark came about, from 100:", *lines])
