"""``trainer grade``: what is found in a diary, and the mark."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.data import DataFolder
from trainer.cli.given import AsJson, LevelName, faults_explained, file_bytes, given_layout, given_level, show
from trainer.cli.open_level import not_being_sat
from trainer.cli.options import argument
from trainer.terms import OUTCOME_NAMES, SEVERITY_NAMES
from trainer.words import CAUTION, INVENTED, _

if TYPE_CHECKING:
    from trainer.rules.finding import Finding
    from trainer.score import Score
    from trainer.session import Session

DiaryFile = Annotated[Path, argument("DIARY", "A diary file: an attempt, one action a line.")]
FIELDS = ("rule", "event", "member", "severity", "got", "want", "what", "why", "fix", "safety", "source")
"""What the contract says of a finding."""


def grade(level: LevelName, diary: DiaryFile, as_json: AsJson = False, data: DataFolder = None) -> None:
    """Judge a diary: every mistake explained, and the mark.

    Actions that nobody could do are listed and skipped. A diary that could be judged is done, whatever its mark.
    """
    from trainer.score import mark
    from trainer.session import Session
    from trainer.site import parse_diary

    given = given_level(level)
    not_being_sat(level, given, data)
    with faults_explained():
        attempt = parse_diary(file_bytes(diary), str(diary), given.id)
    session = Session(given, attempt.seed, layout=given_layout(given)).replay(
        attempt.actions, attempt.hints, attempt.hint_depths, attempt.hand
    )
    lesson = given.lesson
    over, hints = session.site.handed_over, len(session.hints)
    got = mark(
        session.findings,
        lesson.weights.by_severity(),
        lesson.practice_mark,
        over,
        hints,
        lesson.hint_cost,
        session.shown,
    )
    show(json.dumps(_for_programs(session, got)) if as_json else _for_people(session, got))


def _for_programs(session: Session, got: Score) -> dict[str, object]:
    from trainer.session.skills import skills_shown

    return {
        "level": session.level.id,
        "score": got.score,
        "outcome": got.outcome,
        "findings": [{name: getattr(finding, name) for name in FIELDS} for finding in session.findings],
        "refused": [{"event": event, "why": why} for event, why in session.refused],
        "hints": list(session.hints),
        "hint_depths": list(session.hint_depths),
        "skills_shown": list(skills_shown(session.outcomes, session.site)),
    }


def _for_people(session: Session, got: Score) -> str:
    """Say it; actions are counted from 1, as everywhere that people read them."""
    from trainer.rules.whole import NOT_DONE
    from trainer.session.why_now import hints_counted

    parts = [
        _("{title}: {score} of 100. {outcome}.").format(
            title=session.level.title, score=got.score, outcome=OUTCOME_NAMES[got.outcome]
        ),
        INVENTED,
    ]
    if not session.site.handed_over:
        parts.append(_("The roof was not handed over. So nothing is said of what is missing."))
    if got.missing:
        lacks = [f"  {finding.what}" for finding in got.missing]
        parts.append("\n".join([NOT_DONE, *lacks]))
    parts += [_finding_text(finding) for finding in session.findings]
    if session.taken_back:
        undone = [
            f"  {SEVERITY_NAMES[finding.severity]}: {finding.rule}, {finding.member}" for finding in session.taken_back
        ]
        parts.append("\n".join([_("Found, and then undone. It is not marked. On site there is no undo."), *undone]))
    if session.refused:
        skipped = [_("  action {event}: {why}").format(event=event + 1, why=why) for event, why in session.refused]
        parts.append("\n".join([_("Skipped, since nobody could do it:"), *skipped]))
    if session.hints:
        taken = ", ".join(str(event + 1) for event in session.hints)
        said = _("Hints were taken before actions {hints}.").format(hints=taken)
        parts.append(f"{said} {hints_counted(session.hint_depths)}")
    parts += [_counted(session, got), CAUTION]
    return "\n\n".join(parts)


def _finding_text(finding: Finding) -> str:
    lines = [
        _("Action {event}, {severity}: {rule}").format(
            event=finding.event + 1, severity=SEVERITY_NAMES[finding.severity], rule=finding.rule
        ),
        f"  {finding.what}",
        _("  Why: {why}").format(why=finding.why),
        _("  Put right: {fix}").format(fix=finding.fix),
        _("  Safety: {safety}").format(safety=finding.safety),
        _("  Source: {source}").format(source=finding.source),
    ]
    return "\n".join(lines)


def _counted(session: Session, got: Score) -> str:
    """How the mark came about."""
    if not (got.lines or got.besides):
        return _("Nothing is left open.") if session.taken_back else _("Nothing was found.")
    lines = [f"  {line.rule}, {line.member}: {line.text}" for line in (*got.lines, *got.besides)]
    return "\n".join([_("How the mark came about, from 100:"), *lines])
