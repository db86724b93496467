"""What of the unit of competency an attempt touches: item by item, and in two lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from trainer.coverage.steps import STEPS
from trainer.coverage.unit import EVIDENCE, PRACTISED
from trainer.layout import Layout
from trainer.level import Level
from trainer.quiz.unit import UNIT_ITEMS
from trainer.records.attempt import Attempt, RecordedHouse
from trainer.terms import Stage
from trainer.words import _, ngettext

VERBS: Mapping[Stage, tuple[str, ...]] = {
    "pre-start": ("check", "measure", "report", "plan", "load"),
    "set-out": ("mark",),
    "stand": ("stand", "string", "plumb"),
    "brace": ("brace", "restrain"),
    "fix": ("fix", "fit"),
    "hand-over": ("inspect",),
}
"""What is done of each stage; to hand over is no work of its own."""


def covered_by(attempt: Attempt, houses: Sequence[tuple[RecordedHouse, Level, Layout]]) -> tuple[tuple[str, str], ...]:
    """Each item of the unit, and what it wants to have been seen: the houses and the answers here that serve it."""
    answers = Counter(item for entry in attempt.answers for item in entry.body.get("serves") or ())
    steps = {step.name: step for step in STEPS}
    covered = []
    for item, words in UNIT_ITEMS.items():
        asks = [(steps[name].here, steps[name].stage) for name in PRACTISED[item]]
        on = [_on(house) for house, level, layout in houses
              if any(stage in level.lesson.stages and done(house, stage) and here(level, layout)
                     for here, stage in asks)]  # fmt: skip
        if n := answers[item]:
            on.append(ngettext("{n} answer", "{n} answers", n).format(n=n))
        covered.append((words, ", ".join(on)))
    seen = [
        (
            each.what,
            ", ".join(
                _on(house) for house, level, layout in houses if done(house, "stand") and each.here(level, layout)
            ),
        )
        for each in EVIDENCE
    ]
    return (*covered, *seen)


def done(house: RecordedHouse, stage: Stage) -> bool:
    """Whether anything of a stage was done at a house, and not taken back."""
    return any(act["action"]["do"] in VERBS[stage] for act in house.standing)


def covered_in_words(covered: Sequence[tuple[str, str]], houses: int) -> tuple[str, str]:
    """The items touched, each with where unless there is but one house, and those that are not."""
    with_where = _("{item} ({where})")
    touched = [
        item if houses == 1 and "," not in where and "(" not in where else with_where.format(item=item, where=where)
        for item, where in covered
        if where
    ]
    left = [item for item, where in covered if not where]
    none = _("none")
    return "; ".join(touched) or none, "; ".join(left) or none


def _on(house: RecordedHouse) -> str:
    handed_over = house.mark is not None and house.mark["outcome"] != "unfinished"
    return house.level if handed_over else _("{house} (not handed over)").format(house=house.level)
