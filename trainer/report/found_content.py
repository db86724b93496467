"""What was found at a house, as a report has it: single findings for each action, and those of one kind together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from trainer.level import Level
from trainer.records.attempt import RecordedHouse
from trainer.records.chain import JsonObject
from trainer.records.judging import missing_from
from trainer.rules import Finding, Rule, all_rules
from trainer.rules.whole import at_first
from trainer.score import mark
from trainer.terms import SEVERITIES, SEVERITY_NAMES
from trainer.words import _, ngettext


@dataclass(frozen=True)
class FindingContent:
    """One finding, and the points it took ``off`` the mark, in words too. ``step`` counts actions from 1."""

    rule: str
    step: int
    member: str
    severity: str
    what: str
    texts: tuple[tuple[str, str], ...]
    off: int
    points: str


@dataclass(frozen=True)
class KindFound:
    """All findings of one rule, as heavy as each other: the ``first`` of them, and what all took ``off`` the mark.

    ``times`` says how often it was found, and ``where`` each time: the member, and the number of the action. Both are
    empty where it was found but once.
    """

    first: FindingContent
    times: str
    where: str
    off: int
    points: str

    @property
    def step(self) -> int:
        """The number of the action at which it was first found."""
        return self.first.step

    @property
    def what(self) -> str:
        """What was found first, and how often."""
        return f"{self.first.what} {self.times}".rstrip()


def of_each_kind(findings: Iterable[FindingContent]) -> tuple[KindFound, ...]:
    """Return findings by kind: the worst first, like ones by the action at which they were first found."""
    kinds: dict[tuple[str, str], list[FindingContent]] = {}
    for finding in findings:
        kinds.setdefault((finding.rule, finding.severity), []).append(finding)
    worst = [SEVERITY_NAMES.get(severity, severity) for severity in SEVERITIES]

    def heavy(kind: KindFound) -> tuple[int, int, int]:
        severity = kind.first.severity
        return worst.index(severity) if severity in worst else len(worst), kind.step, -kind.off

    return tuple(sorted(map(_kind, kinds.values()), key=heavy))


def _kind(same: list[FindingContent]) -> KindFound:
    first, n = min(same, key=lambda each: each.step), len(same)
    off = sum(each.off for each in same)
    points = f"−{off}" if off else first.points
    if off and (others := sum(not each.off for each in same)):
        also = ngettext(
            "{points}; {n} of the {all} has the cause of another finding and is counted there",
            "{points}; {n} of the {all} have the cause of another finding and are counted there",
            others,
        )
        points = also.format(points=points, n=others, all=n)
    if n == 1:
        return KindFound(first, "", "", off, points)
    times = ngettext("{n} time, first at action {step}.", "{n} times, first at action {step}.", n)
    place = _("{member} at action {step}")
    places = ((place.format(member=each.member, step=each.step) if each.member else str(each.step)) for each in same)
    return KindFound(first, times.format(n=n, step=first.step), "; ".join(places), off, points)


def findings_of(house: RecordedHouse, level: Level | None) -> tuple[FindingContent, ...]:
    """What was found and stands, in the order of the mark's lines, worded from the recorded facts."""
    rules = {rule.name: rule for rule in all_rules()}
    found = [_finding(fact, int(each["index"]), rules) for each in house.standing for fact in each["found"]]
    found.sort(key=lambda f: (f.event, f.rule, f.member, f.got, f.want, f.severity, f.cause))
    if level is None:
        return tuple(_finding_content(finding, 0, "") for finding in found)
    lines = mark(found, level.lesson.weights.by_severity(), 0, True).lines
    return tuple(
        _finding_content(finding, line.points, f"−{line.points}" if line.points else line.text)
        for finding, line in zip(found, lines, strict=True)
    )


def none_found(house: RecordedHouse) -> str:
    """Return what is said where no finding is left: what was taken back was there all the same."""
    every = [found for act in house.acts for found in act["found"]]
    left = [found for act in house.standing for found in act["found"]]
    if len(every) == len(left):
        return _("Nothing was found.")
    n, kept = (sum(found["severity"] == "stop-work" for found in each) for each in (every, left))
    if n == kept:
        n = len(every) - len(left)
        lesser = ngettext(
            "Nothing is left open. {n} finding was put right on the way.",
            "Nothing is left open. {n} findings were put right on the way.",
            n,
        )
        return lesser.format(n=n)
    said = ngettext(
        "Nothing is left open. {n} stop-work finding was put right on the way.",
        "Nothing is left open. {n} stop-work findings were put right on the way.",
        n - kept,
    )
    return said.format(n=n - kept)


def missing_in_words(house: RecordedHouse) -> tuple[str, ...]:
    """Return what a recorded roof was handed over without, the first few things in words; nothing where it was met."""
    rules = {rule.name: rule for rule in all_rules()}
    return at_first([_finding(fact, 0, rules).what for fact in missing_from(house)])


def _finding(fact: JsonObject, index: int, rules: dict[str, Rule]) -> Finding:
    rule = rules.get(str(fact["rule"]))
    facts = {name: str(fact[name]) for name in ("rule", "member", "got", "want", "cause")}
    severity = fact["severity"]
    if rule is None:
        what = f"{facts['rule']}: {facts['got']}; {facts['want']}"
        return Finding(
            **facts, event=index, severity=severity, what=what, why="", fix="", safety="", source="", missing=False
        )
    what = rule.what.format(member=facts["member"], got=facts["got"], want=facts["want"])
    return Finding(
        **facts, event=index, severity=severity, what=what, why=rule.why, fix=rule.fix, safety=rule.safety,
        source=rule.source, missing=False,
    )  # fmt: skip


def _finding_content(finding: Finding, off: int, points: str) -> FindingContent:
    texts = (
        (_("Why it matters"), finding.why), (_("Put it right"), finding.fix), (_("Safety"), finding.safety),
        (_("Source"), finding.source), (_("Rule"), finding.rule),
    )  # fmt: skip
    severity = SEVERITY_NAMES.get(finding.severity, finding.severity)
    given = tuple((name, text) for name, text in texts if text)
    return FindingContent(finding.rule, finding.event + 1, finding.member, severity, finding.what, given, off, points)
