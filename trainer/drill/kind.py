"""What kinds of drill share: how one is declared, and how its drill is put together."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from trainer.drill.model import Drill, Kind
from trainer.drill.playing import DrillSite
from trainer.layout import Layout
from trainer.level import Level
from trainer.order import Step
from trainer.terms import Stage

STAND: tuple[Stage, ...] = ("stand",)
Making = Callable[[Kind, Level, Layout, int], Drill]


def kind(
    *, title: str, skill: str, stages: tuple[Stage, ...], minutes: int, rules: tuple[str, ...]
) -> Callable[[Making], Kind]:
    """Turn a function into the kind of its name.

    It still has to be listed in :mod:`trainer.drill.registry`, and named in :mod:`trainer.coverage.steps`.
    """

    def declared(make: Making) -> Kind:
        def of(level: Level, layout: Layout, seed: int) -> Drill:
            return make(made, level, layout, seed)

        made = Kind(make.__name__.replace("_", "-"), title, skill, stages, minutes, rules, of)
        return made

    return declared


def drill(me: Kind, level: Level, scene: DrillSite, goal: Iterable[Step], task: str) -> Drill:
    """Put a drill together whose ``goal`` is to be done, with all that it needs given."""
    left = tuple(scene.left(goal))
    return Drill(
        kind=me.name,
        title=me.title,
        task=task,
        level=level,
        layout=scene.job.layout,
        seed=scene.seed,
        given=scene.given(left),
        steps=left,
        minutes=me.minutes,
        rules=me.rules,
    )
