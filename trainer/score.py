"""The mark of an attempt, and how it came about.

A mark is 100 less what each cause takes off: the points of the heaviest finding that came of it. What
is found again of the same cause is listed and takes nothing off. The order of findings makes no difference, and one
more finding never raises a mark. A roof that is handed over with something missing from the path from roof to wall,
from its permanent bracing or from its verge is not done, whatever its mark.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from trainer.rules import Finding
from trainer.rules.whole import WHOLE
from trainer.terms import SEVERITIES, SEVERITY_NAMES, Outcome
from trainer.words import _, ngettext

FULL = 100


@dataclass(frozen=True, slots=True)
class MarkLine:
    """One line of a mark: the ``points`` that a finding took off, and in words why."""

    rule: str
    member: str
    points: int
    text: str

    def __str__(self) -> str:
        return f"{-self.points:>4}  {self.rule} ({self.member}): {self.text}"


@dataclass(frozen=True, slots=True)
class Score:
    """A score from 0 to 100, whether the practice mark was met, and a line for each finding.

    ``besides`` are lines that no finding made: what hints cost. ``missing`` are the findings that say what the roof was
    handed over without: while there are any, the practice mark is not met, whatever the score.
    """

    score: int
    outcome: Outcome
    lines: tuple[MarkLine, ...]
    besides: tuple[MarkLine, ...] = ()
    missing: tuple[Finding, ...] = ()


def mark(
    findings: Iterable[Finding],
    weights: Mapping[str, int],
    practice_mark: int,
    handed_over: bool,
    hints: int = 0,
    hint_cost: int = 0,
    shown: bool = False,
) -> Score:
    """Work out the mark. ``weights`` are the points by severity; 25, 8, 3 and 1 unless a level has its own.

    Each of ``hints`` that were used costs ``hint_cost`` points more. What was ``shown`` by hints is not met, but shown.
    """
    found = sorted(findings, key=_in_time)
    counted = _counted(found, weights)
    lines = tuple(_line(i, finding, weights, found, counted) for i, finding in enumerate(found))
    besides = _hints(hints, hint_cost)
    score = max(0, FULL - sum(line.points for line in (*lines, *besides)))
    missing = tuple(sorted((finding for finding in found if finding.missing), key=lambda lack: WHOLE[lack.rule]))
    if not handed_over:
        outcome: Outcome = "unfinished"
    elif score >= practice_mark and not missing and all(finding.severity != "stop-work" for finding in found):
        outcome = "shown" if shown else "met"
    else:
        outcome = "not yet met"
    return Score(score, outcome, lines, besides, missing)


def _hints(number: int, cost: int) -> tuple[MarkLine, ...]:
    if not number * cost:
        return ()
    text = ngettext("{n} used, {cost} off for each", "{n} used, {cost} off for each", number).format(
        n=number, cost=cost
    )
    return (MarkLine(_("hints"), _("all"), number * cost, text),)


def _in_time(finding: Finding) -> tuple[int | str, ...]:
    return finding.event, finding.rule, finding.member, finding.got, finding.want, finding.severity, finding.cause


def _counted(found: list[Finding], weights: Mapping[str, int]) -> dict[str, int]:
    """For each cause, which of ``found`` is counted: the heaviest, of like ones the worst and the earliest."""
    counted: dict[str, int] = {}
    for i in sorted(
        range(len(found)), key=lambda i: (-weights[found[i].severity], SEVERITIES.index(found[i].severity))
    ):
        if found[i].cause:
            counted.setdefault(found[i].cause, i)
    return counted


def _line(
    i: int, finding: Finding, weights: Mapping[str, int], found: list[Finding], counted: dict[str, int]
) -> MarkLine:
    at = counted.get(finding.cause, i)
    if at == i:
        return MarkLine(finding.rule, finding.member, weights[finding.severity], SEVERITY_NAMES[finding.severity])
    other = found[at]
    text = _("{severity}, the same cause as {rule} of {member}, counted there").format(
        severity=SEVERITY_NAMES[finding.severity], rule=other.rule.replace("-", " "), member=other.member
    )
    return MarkLine(finding.rule, finding.member, 0, text)
