"""What a learner does on a level, and how it is marked."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from trainer.level.block import UNIQUE, UNIQUE_ITEMS, Block
from trainer.read.schema_walk import WANTED
from trainer.terms import STAGES, Stage

Points = Annotated[int, Field(ge=0, le=100)]
RuleName = Annotated[
    str,
    Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", json_schema_extra={WANTED: "a rule's name, such as off-station"}),
]


Idea = Annotated[str, Field(min_length=1, max_length=80), Field(json_schema_extra={WANTED: "a few plain words"})]


class Weights(Block):
    """What each finding takes off the mark, by severity."""

    stop_work: Annotated[Points, Field(alias="stop-work")] = 25
    rework: Points = 8
    tolerance: Points = 3
    habit: Points = 1

    def by_severity(self) -> dict[str, int]:
        """Return the weights under the names of the severities."""
        return self.model_dump(by_alias=True)


class Lesson(Block):
    """What a learner does here. Stages that aren't listed count as done before it starts."""

    stages: Annotated[tuple[Stage, ...], Field(min_length=1), UNIQUE, UNIQUE_ITEMS] = STAGES
    """Stages the learner does."""
    place: Annotated[int, Field(ge=1, le=999)] | None = None
    """Place on the path, from 1, where a level says it itself; the shipped ones leave that to the file of the path."""
    ideas: Annotated[tuple[Idea, ...], Field(max_length=3), UNIQUE, UNIQUE_ITEMS] = ()
    """What is new here, in a few plain words each; one or two are best."""
    teaches: Annotated[tuple[RuleName, ...], Field(max_length=50), UNIQUE, UNIQUE_ITEMS] = ()
    """Names of the rules that this level is there to teach."""
    minutes: Annotated[int, Field(ge=1, le=600)] | None = None
    """Minutes that the house is expected to take in practice."""
    unseen: bool = False
    """Whether the house is kept for assessment, so that no learner has practised on it."""
    practice_mark: Points = 80
    """Mark out of 100 from which the practice mark is met."""
    hints: bool = True
    """Whether hints can be asked for in practice."""
    hint_cost: Points = 0
    """Points that each hint takes off the mark, once something is done after it."""
    layout_sheet: bool = True
    """Whether the layout drawing can be looked at while the house is built; without it the plate plan has to do."""
    weights: Weights = Weights()
