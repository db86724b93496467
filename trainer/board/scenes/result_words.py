"""What a result says of the mark: what was left out, what went well, what it came to and what it was before."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from trainer.board.scenes.righting import taken_back
from trainer.board.widgets import Label, Paragraph, Prose, Widget
from trainer.records.progress import Progress
from trainer.rules import all_rules
from trainer.rules.finding import Finding
from trainer.rules.whole import NOT_DONE, at_first
from trainer.score import Score
from trainer.session import Session
from trainer.terms import STAGE_NAMES, Stage
from trainer.words import _, listed, ngettext


def missing(mark: Score) -> list[Widget]:
    """Return what the roof was handed over without, before anything else."""
    if not mark.missing:
        return []
    lacks = at_first([finding.what for finding in mark.missing])
    texts = [Paragraph(NOT_DONE, "strong", space=4), *(Paragraph(text, "small", space=2) for text in lacks)]
    return [Prose(texts, key="result/missing")]


def left_in_words(actions: int) -> Widget:
    """Return what is said of a house that was not handed over."""
    left = ngettext(
        "It was left after {n} action, before the hand-over. So it has no mark.",
        "It was left after {n} actions, before the hand-over. So it has no mark.",
        actions,
    )
    return Label(left.format(n=actions), "body")


def went_well(findings: Sequence[Finding], stages: Iterable[Stage]) -> list[Widget]:
    """Return the stages of the job in which nothing was found, where there were findings in others.

    A hand-over with something missing is not one of them, whichever stage it was missed in.
    """
    of_rule = {rule.name: rule.stage for rule in all_rules()}
    wrong = {of_rule[finding.rule] for finding in findings}
    if any(finding.missing for finding in findings):
        wrong.add("hand-over")
    right = [STAGE_NAMES[stage] for stage in stages if stage not in wrong]
    if not right or not findings:
        return []
    return [Label(_("All right: {stages}.").format(stages=listed(right)), "body", key="result/well")]


def marked(mark: Score, to_meet: int, done: Progress | None) -> list[Widget]:
    """Return the mark, what it was before, and what it is to be."""
    past = [each for each in done.past if each.outcome != "unfinished"] if done is not None else []
    text = _("Before: best {best}, last {last}.")
    before = [text.format(best=max(each.score for each in past), last=past[0].score)] if past else []
    wanted = _("Practice mark of this house: {mark}. No stop-work finding may be left, and nothing may be missing.")
    return [
        Label(_("{score} of 100").format(score=f"{mark.score:g}"), "figure", "accent"),
        *(Label(each, "small", key="result/before") for each in before),
        Label(wanted.format(mark=to_meet), "small", "panel_faint"),
    ]


def taken_back_in_words(session: Session) -> list[Widget]:
    """Return how many stop-work findings were put right on the way: they cost nothing, and were there all the same."""
    n = taken_back(session)
    said = ngettext(
        "{n} stop-work finding was put right on the way. On site there is no undo.",
        "{n} stop-work findings were put right on the way. On site there is no undo.",
        n,
    )
    return [Label(said.format(n=n), "small", key="result/taken back")] if n else []
