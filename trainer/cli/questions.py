"""What the commands about questions are given: the bank, houses to ask about, topics."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.given import (
    faults_explained,
    faulty,
    file_bytes,
    given_layout,
    given_level,
    wrong_call,
)
from trainer.cli.open_level import in_sitting, open_level, sat_here
from trainer.cli.options import option, seed_option
from trainer.words import _

if TYPE_CHECKING:
    from trainer.quiz.bank import Question
    from trainer.quiz.unit import Topic
    from trainer.quiz.worked import Subject
    from trainer.read import Fault
    from trainer.records.waiting import BeingSat

Topics = Annotated[
    list[str] | None, option("--topics", "TOPIC", "Topics, with commas between; all of them if left out.")
]
MOST_ON_PAPER = 100
"""Trusses of a house whose plan can still be read on a page."""
HouseOption = Annotated[
    str | None, option("--level", "LEVEL", "The house to ask about; the seed chooses one if left out.")
]
Count = Annotated[int, typer.Option("--count", min=1, max=400, help="How many questions.")]
PaperSeed = Annotated[int, seed_option("The same seed gives the same questions.")]
OwnQuestions = Annotated[
    list[Path] | None, option("--questions", "FILE", "Questions of your own beside the bank's: .yaml or .csv.")
]
FEWEST_CORNERS = 6
"""A house that a seed chooses has at least so many corners, so that there is something to ask about."""


def the_bank(own: Sequence[Path] | None = None) -> tuple[Question, ...]:
    """Read the shipped bank, and a person's ``own`` questions beside it; show their faults and stop if any."""
    from trainer.quiz.bank import parse_bank
    from trainer.shipped import bank_paths

    with faults_explained():
        shipped = tuple(q for path in bank_paths() for q in parse_bank(file_bytes(path), str(path)))
    return (*shipped, *own_questions(own, shipped)) if own else shipped


def own_questions(files: Sequence[Path], beside: Sequence[Question] = ()) -> tuple[Question, ...]:
    """Read a person's own questions; every fault of form and wording, and every repeat, is shown, and then it stops."""
    from trainer.quiz.bank import parse_bank
    from trainer.quiz.bank_faults import sound_together
    from trainer.quiz.sheet import read_sheet
    from trainer.read import Faulty

    found: list[Question] = []
    faults: list[Fault] = []
    for path in files:
        if path.suffix.lower() not in (".csv", ".yaml", ".yml"):
            wrong_call(_("{path}: questions are read from .yaml and .csv.").format(path=path))
        read = read_sheet if path.suffix.lower() == ".csv" else parse_bank
        try:
            found += read(file_bytes(path), str(path))
        except Faulty as error:
            faults += error.faults
    faults += sound_together((*beside, *found)) if found else []
    if faults:
        faulty("\n".join(map(str, faults)))
    return tuple(found)


def the_topics(given: Sequence[str] | None) -> tuple[Topic, ...]:
    """Return the topics that were named; say what was meant where one is not known."""
    from trainer.quiz.unit import TOPICS
    from trainer.read import did_you_mean

    named = [name.strip() for text in given or () for name in text.split(",") if name.strip()]
    by_name = {topic.casefold(): topic for topic in TOPICS}
    for name in named:
        if name.casefold() not in by_name:
            guess = did_you_mean(name, TOPICS) or _("topics: {topics}").format(topics=", ".join(TOPICS))
            wrong_call(_("There is no topic '{name}'; {guess}").format(name=name[:40], guess=guess))
    chosen = {by_name[name.casefold()] for name in named}
    return tuple(topic for topic in TOPICS if not named or topic in chosen)


def the_house(name: str | None, seed: int, data: Path | None = None) -> Subject:
    """Return the house to ask about: the one named, or a shipped one that the seed chooses."""
    from trainer.quiz.worked import subject_of

    level = open_level(name or _chosen(seed, sat_here(data)), data)
    return subject_of(level, given_layout(level))


def _chosen(seed: int, sat: BeingSat | None) -> str:
    from trainer.chance import shuffled
    from trainer.shipped import level_paths

    paths = shuffled(sorted(level_paths()), seed, "house of a paper")
    for path in paths:
        level = given_level(str(path))
        if level.lesson.unseen or in_sitting(str(path), level, sat):
            continue
        if len(level.plates.outline) >= FEWEST_CORNERS and len(given_layout(level).members) <= MOST_ON_PAPER:
            return str(path)
    return str(paths[0])
