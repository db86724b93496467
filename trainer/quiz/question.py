"""A question as it is put to a learner: what is asked, how it is answered, and how its answer was worked out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from trainer.layout import Layout
from trainer.plan import Point
from trainer.quiz.measure import Unit
from trainer.quiz.unit import Topic, UnitItem
from trainer.site import Site

QuestionKind = Literal[
    "choose one", "choose several", "number", "put in order", "match", "point at it", "spot the fault"
]  # fmt: skip

Answer = str | tuple[int, ...]
"""What a learner gives: a number as typed, or indices from 0.

Of choices, places or lines: those chosen. Of steps: all of them, the first to be done first. Of a match:
for each left side the right side that goes with it.
"""


@dataclass(frozen=True, slots=True)
class OneOf:
    """Choose one: ``right`` is the index of the right choice."""

    choices: tuple[str, ...]
    right: int


@dataclass(frozen=True, slots=True)
class SomeOf:
    """Choose several: ``right`` are the indices of all right choices, rising; one or more."""

    choices: tuple[str, ...]
    right: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Amount:
    """Give a number: ``value`` in ``unit``, given to ``decimals`` places; right within ``tolerance``."""

    value: float
    unit: Unit
    tolerance: float
    decimals: int = 0


@dataclass(frozen=True, slots=True)
class InOrder:
    """Put in order: ``right`` are the indices of ``steps`` in the one right order."""

    steps: tuple[str, ...]
    right: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Pairs:
    """Match: ``right[i]`` is the index in ``others`` of what goes with ``left[i]``."""

    left: tuple[str, ...]
    others: tuple[str, ...]
    right: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class LabelledPlace:
    """A labelled place on the plan: ``at`` in plan mm, ``words`` that find it without a picture."""

    label: str
    at: Point
    words: str


@dataclass(frozen=True, slots=True)
class PointAt:
    """Point at it on the plan: ``right`` is the index of the one right place."""

    places: tuple[LabelledPlace, ...]
    right: int


@dataclass(frozen=True, slots=True)
class SpotFault:
    """Spot the fault: of ``lines`` that describe a roof or a diary, ``right`` is wrong. ``places`` are on the plan."""

    lines: tuple[str, ...]
    right: int
    places: tuple[LabelledPlace, ...] = ()


Task = OneOf | SomeOf | Amount | InOrder | Pairs | PointAt | SpotFault

KINDS: dict[type[Task], QuestionKind] = {
    OneOf: "choose one", SomeOf: "choose several", Amount: "number", InOrder: "put in order", Pairs: "match",
    PointAt: "point at it", SpotFault: "spot the fault",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Slip:
    """A wrong answer that a real mistake leads to: its words, what went wrong, and its value where it is a number."""

    text: str
    why: str
    value: float | None = None


@dataclass(frozen=True, slots=True)
class Drawing:
    """What to draw beside a question: a roof as it stands, with or without the trusses' tags.

    Where there are ``sites``, these instead, side by side: one, or one of each crew.
    """

    layout: Layout = field(repr=False)
    tags: bool = True
    sites: tuple[Site, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class Asked:
    """One question. ``id`` makes it again: a written question's own, or ``family.level.seed`` of a worked one.

    ``serves`` are items of the unit of competency; ``working`` the steps to the answer with this house's
    numbers (none of a written one); ``why`` the reason behind the trade; ``hint`` what helps without
    telling. ``level`` and ``about`` (tags) are where to look on the roof, empty where no house is asked about;
    ``rules`` are those that judge the same thing on the board.
    """

    id: str
    topic: Topic
    difficulty: int
    serves: tuple[UnitItem, ...]
    text: str
    task: Task
    why: str
    source: str
    safety: str = ""
    working: tuple[str, ...] = ()
    slips: tuple[Slip, ...] = ()
    hint: str = ""
    level: str = ""
    about: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    drawing: Drawing | None = field(default=None, compare=False, repr=False)

    @property
    def kind(self) -> QuestionKind:
        """How it is answered, in words."""
        return KINDS[type(self.task)]

    @property
    def is_sum(self) -> bool:
        """Whether its answer is a number, typed or chosen: who fails at that may still judge rightly on a roof."""
        match self.task:
            case Amount():
                return True
            case OneOf(choices=choices):
                return numbers_alone(choices)
            case _:
                return False

    @property
    def written(self) -> bool:
        """Whether it is from the bank, not worked out from a house."""
        return not self.level


def numbers_alone(choices: Iterable[str]) -> bool:
    """Whether what is chosen from are numbers, each with its unit or not."""
    return all(choice[:1].isdigit() for choice in choices)
