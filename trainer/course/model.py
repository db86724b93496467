"""The course as its file says it: steps in order, one an idea, with the houses where it is watched, finished, built."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Annotated, Any, Literal

from pydantic import Field

from trainer.drill import drills
from trainer.film.ideas import BY_KEY
from trainer.generate import SHAPES
from trainer.level.block import UNIQUE, UNIQUE_ITEMS, Block
from trainer.level.difficulty import HARDEST
from trainer.read import Document, Where, did_you_mean, read_yaml, validate
from trainer.read.schema_walk import WANTED
from trainer.rules import all_rules
from trainer.terms import STAGE_NAMES, TrussKind
from trainer.words import _

_NAME = r"^[a-z0-9]+(-[a-z0-9]+)*$"
Name = Annotated[str, Field(pattern=_NAME, max_length=40, json_schema_extra={WANTED: _("small letters and hyphens")})]
House = Annotated[Name, Field(json_schema_extra={WANTED: _("the id of a house")})]
Title = Annotated[
    str, Field(pattern=r"^\S(.*\S)?$", max_length=60, json_schema_extra={WANTED: _("a short text on one line")})
]


class NewHouse(Block):
    """The house made new that ends a chapter: nobody has seen it before, and it asks for what was learnt."""

    shape: Name
    hard: Annotated[int, Field(ge=1, le=HARDEST)]
    minutes: Annotated[int, Field(ge=1, le=60)]
    """What it takes at most, however it is drawn."""
    asks: Annotated[tuple[Name, ...], Field(min_length=1), UNIQUE, UNIQUE_ITEMS]
    """The steps whose ideas are always in it."""


class CourseStep(Block):
    """One idea: it is watched on a house, finished on others with less and less help, and comes back in a whole one."""

    id: Name
    title: Title
    chapter: Title | None = None
    """What the chapter is called that begins with it; each after a step with a house made new begins one."""
    film: Title
    """The part of the film that is watched: an idea, or ``stage`` and the name of one."""
    watch: House
    finish: Annotated[tuple[House, ...], Field(min_length=2, max_length=3)]
    """The house of each time that it is finished."""
    finish_minutes: Annotated[float, Field(ge=1, le=10)] | None = None
    """What finishing it takes at most; as long as any where it is left out."""
    drill: Name | None = None
    """The kind of drill it is finished by; else all but the idea is built."""
    whole: House
    rules: Annotated[tuple[Name, ...], Field(min_length=1), UNIQUE, UNIQUE_ITEMS]
    """What can be done wrong in it."""
    judged_by: tuple[Name, ...] = ()
    """Rules that decide as well whether it was done right, though no exercise practises them."""
    kinds: tuple[TrussKind, ...] = ()
    """The kinds of truss that it is about: what is found of one of these decides as well, and one has to be stood."""
    words: tuple[Title, ...] = ()
    """Words of the trade that come with it: a question that uses one is about it."""
    deciding: bool = False
    """Whether it has to be done alone before a house of a later chapter counts as done."""
    new_house: NewHouse | None = None
    """What is asked after it, where a chapter ends with it."""


class Course(Block):
    """The steps, in the order in which they come."""

    schema_: Annotated[Literal[1], Field(alias="schema")]
    steps: Annotated[tuple[CourseStep, ...], Field(min_length=1)]

    def step(self, id_: str) -> CourseStep:
        """Return the step with an id; KeyError where there is none."""
        return {step.id: step for step in self.steps}[id_]

    def chapters(self) -> tuple[tuple[CourseStep, ...], ...]:
        """Return the steps in chapters: each goes on to a step with a house made new, the last to the end."""
        found: list[tuple[CourseStep, ...]] = []
        open_: tuple[CourseStep, ...] = ()
        for step in self.steps:
            open_ = (*open_, step)
            if step.new_house is not None:
                found, open_ = [*found, open_], ()
        return (*found, open_) if open_ else tuple(found)


def parse_course(text: str | bytes, file: str, houses: Collection[str]) -> Course:
    """Return the course that a file holds, its titles and words in the language that is spoken.

    ``houses`` are the ids of those that there are.

    :raises Faulty: with every fault of the file.
    """
    document = read_yaml(text, file)
    course = validate(Course, document, _unknown(document, houses))
    return course.model_copy(update={"steps": tuple(map(_spoken, course.steps))})


def _spoken(step: CourseStep) -> CourseStep:
    return step.model_copy(update={"title": _(step.title), "words": tuple(map(_, step.words))})


def _unknown(document: Document, houses: Collection[str]) -> Iterator[tuple[Where, str]]:
    """What is named and is not there: houses, rules, drills, parts of a film; and a step named twice."""
    data: Any = document.data
    steps = data.get("steps") if isinstance(data, dict) else None
    rules = [rule.name for rule in all_rules()]
    known: Mapping[str, Collection[str]] = {
        "watch": houses, "whole": houses, "finish": houses, "rules": rules, "judged_by": rules,
        "drill": [kind.name for kind in drills()], "film": [*BY_KEY, *(f"stage {stage}" for stage in STAGE_NAMES)],
    }  # fmt: skip
    ids: list[object] = []
    for number, step in enumerate(steps if isinstance(steps, list) else ()):
        if not isinstance(step, dict):
            continue
        if step.get("id") in ids:
            yield ("steps", number, "id"), _("is the id of a step before it; give it one of its own")
        ids.append(step.get("id"))
        if isinstance(film := step.get("film"), str) and film not in BY_KEY and "drill" not in step:
            yield ("steps", number, "film"), _("is no idea that can be left out of a house; name a drill as well")
        for key, names in known.items():
            yield from _not_known(("steps", number), step.get(key), key, names)
        if isinstance(new := step.get("new_house"), dict):
            where = ("steps", number, "new_house")
            yield from _not_known(where, new.get("shape"), "shape", SHAPES)
            yield from _not_known(where, new.get("asks"), "asks", [each for each in ids if isinstance(each, str)])
            shape, hard = SHAPES.get(str(new.get("shape"))), new.get("hard")
            if shape and isinstance(hard, int) and not shape.easiest <= hard <= shape.hardest:
                can_be = _("is {hard}; a house of this shape can be {easiest} to {hardest}")
                yield (*where, "hard"), can_be.format(hard=hard, easiest=shape.easiest, hardest=shape.hardest)


def _not_known(above: Where, value: object, key: str, names: Collection[str]) -> Iterator[tuple[Where, str]]:
    for where, name in _named(value, key):
        if name not in names:
            guess = did_you_mean(name, names) or _("write one of: {names}").format(names=", ".join(names))
            yield (*above, *where), _("is '{name}'; {guess}").format(name=name[:40], guess=guess)


def _named(value: object, key: str) -> Iterator[tuple[Where, str]]:
    if isinstance(value, str):
        yield (key,), value
    elif isinstance(value, list):
        yield from (((key, n), name) for n, name in enumerate(value) if isinstance(name, str))
