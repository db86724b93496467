"""The table: a row for each step of the job, each item of the unit, and each rule."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from trainer.coverage.houses import Asks
from trainer.coverage.steps import STEPS
from trainer.coverage.unit import EVIDENCE, PRACTISED
from trainer.drill import drill_for
from trainer.layout import Layout
from trainer.level import Level
from trainer.quiz import Question
from trainer.quiz.unit import UNIT_ITEMS
from trainer.rules import all_rules
from trainer.terms import Stage

Of = Literal["step", "unit", "evidence", "rule"]
House = tuple[Level, Layout]


@dataclass(frozen=True, slots=True)
class CoverageRow:
    """What covers one thing: ids of ``levels``, kinds of ``drills``, and ``topics`` of questions."""

    of: Of
    name: str
    what: str
    levels: tuple[str, ...]
    drills: tuple[str, ...]
    topics: tuple[str, ...]

    @property
    def covered(self) -> bool:
        """Whether something practises it: a level; for a rule a drill will do, for an item of the unit questions."""
        return bool(self.levels or (self.of == "unit" and self.topics) or (self.of == "rule" and self.drills))


def coverage(houses: Sequence[House], questions: Iterable[Question]) -> tuple[CoverageRow, ...]:
    """Return every row, in the order of the job; ``houses`` are all levels with their layouts."""
    asked = tuple(questions)
    steps = tuple(_steps(houses, asked))
    return (*steps, *_unit(steps, asked), *_evidence(houses), *_rules(houses))


def _steps(houses: Sequence[House], questions: tuple[Question, ...]) -> Iterator[CoverageRow]:
    topics = {question.topic for question in questions}
    for step in STEPS:
        known = tuple(topic for topic in step.topics if topic in topics)
        yield CoverageRow("step", step.name, step.what, _levels(houses, step.here, step.stage), step.drills, known)


def _levels(houses: Sequence[House], here: Asks, stage: Stage) -> tuple[str, ...]:
    return tuple(level.id for level, layout in houses if stage in level.lesson.stages and here(level, layout))


def _unit(steps: Sequence[CoverageRow], questions: tuple[Question, ...]) -> Iterator[CoverageRow]:
    by_name = {row.name: row for row in steps}
    for item, what in UNIT_ITEMS.items():
        rows = [by_name[name] for name in PRACTISED[item]]
        yield CoverageRow(
            "unit",
            item,
            what,
            tuple(dict.fromkeys(level for row in rows for level in row.levels)),
            tuple(dict.fromkeys(drill for row in rows for drill in row.drills)),
            tuple(dict.fromkeys(question.topic for question in questions if item in question.serves)),
        )


def _evidence(houses: Sequence[House]) -> Iterator[CoverageRow]:
    for each in EVIDENCE:
        yield CoverageRow("evidence", each.name, each.what, _levels(houses, each.here, "stand"), (), ())


def _rules(houses: Sequence[House]) -> Iterator[CoverageRow]:
    for rule in all_rules():
        taught = tuple(level.id for level, _layout in houses if rule.name in level.lesson.teaches)
        yield CoverageRow("rule", rule.name, rule.why, taught, (drill_for(rule.name),), ())
