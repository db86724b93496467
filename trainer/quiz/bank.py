"""Written questions: what a bank file holds, and bank file to questions, every fault of the file at once."""

from __future__ import annotations

from typing import Annotated, Literal, NamedTuple, Self

from pydantic import Field, PrivateAttr, model_validator

from trainer.level.block import UNIQUE, UNIQUE_ITEMS, Block
from trainer.quiz.unit import Topic, UnitItem
from trainer.read import read_yaml, validate
from trainer.read.schema_walk import WANTED
from trainer.words import _

LETTERS = "ABCDEF"
"""Names of the choices, in the order of the file."""

_NAME = r"^[a-z0-9]+(-[a-z0-9]+)*$"
_WANTED_NAME = "small letters, digits and hyphens, such as terms-station"
_SPOKEN = r"\S(.*\S)?"
"""Text that says something, with no space at its ends."""

QuestionId = Annotated[str, Field(pattern=_NAME, max_length=60, json_schema_extra={WANTED: _WANTED_NAME})]
RuleName = Annotated[str, Field(pattern=_NAME, max_length=60, json_schema_extra={WANTED: "the name of a rule"})]
Letter = Annotated[Literal["A", "B", "C", "D", "E", "F"], Field(json_schema_extra={WANTED: "one letter from A to F"})]
Words = Annotated[str, Field(pattern=rf"^{_SPOKEN}$", max_length=500, json_schema_extra={WANTED: "text on one line"})]
Phrase = Annotated[str, Field(pattern=rf"^{_SPOKEN}$", max_length=120, json_schema_extra={WANTED: "a short text"})]


class SourceLine(NamedTuple):
    """Where a question stands: its file, and its first line, from 1."""

    file: str
    line: int


class Written(Block):
    """What every written question has, whatever its kind."""

    id: QuestionId
    """Name of the question; no other in the bank has it."""
    topic: Topic
    difficulty: Annotated[int, Field(ge=1, le=3)]
    """1 a beginner knows it, 2 takes some thought, 3 takes several steps or experience."""
    serves: Annotated[tuple[UnitItem, ...], Field(min_length=1), UNIQUE, UNIQUE_ITEMS]
    """Items of the unit of competency that it serves."""
    rules: Annotated[tuple[RuleName, ...], UNIQUE, UNIQUE_ITEMS] = ()
    """Rules that it is about: it is asked again of whoever broke one of them on a roof."""
    text: Words
    """The question itself."""
    hint: Words | None = None
    """What helps and does not tell; without one the hint of its topic is given."""
    why: Words
    """Why the answer is right, in plain short sentences."""
    safety: Words | None = None
    """What to mind, where someone could be hurt."""
    source: Words
    """A named published source, or how far the answer can be trusted without one."""

    _place: SourceLine = PrivateAttr(default=SourceLine("", 1))

    @property
    def place(self) -> SourceLine:
        """Where it was read."""
        return self._place


class _Choosing(Written):
    choices: Annotated[tuple[Phrase, ...], Field(min_length=3, max_length=len(LETTERS))]
    """What may be chosen; the first is A."""
    why_not: Annotated[dict[Letter, Words], Field(default_factory=dict)]
    """Why a wrong choice is wrong, by its letter: said at once to whoever chose it."""

    @model_validator(mode="after")
    def _choices_differ(self) -> Self:
        _all_differ(self.choices, "choices")
        return self

    def _reasons_are_of_wrong_choices(self, right: tuple[int, ...]) -> None:
        for letter in self.why_not:
            if self._index(letter) in right:
                raise ValueError(_("says why {letter} is wrong, but it is right; leave one out").format(letter=letter))

    def _index(self, letter: str) -> int:
        index = LETTERS.index(letter)
        if index >= len(self.choices):
            raise ValueError(
                _("has answer {letter}, but its last choice is {last}").format(
                    letter=letter, last=LETTERS[len(self.choices) - 1]
                )
            )
        return index


class ChooseOne(_Choosing):
    """One choice is right."""

    kind: Literal["choose one"]
    answer: Letter
    """The right choice."""

    @model_validator(mode="after")
    def _answer_is_a_choice(self) -> Self:
        self._index(self.answer)
        self._reasons_are_of_wrong_choices(self.right)
        return self

    @property
    def right(self) -> tuple[int, ...]:
        """Indices of the right choices: one."""
        return (self._index(self.answer),)


class ChooseSeveral(_Choosing):
    """Two choices or more are right, and one or more are wrong."""

    kind: Literal["choose several"]
    answer: Annotated[tuple[Letter, ...], Field(min_length=2), UNIQUE, UNIQUE_ITEMS]
    """The right choices, all of them."""

    @model_validator(mode="after")
    def _answers_are_some_of_the_choices(self) -> Self:
        if len(self.right) == len(self.choices):
            raise ValueError(_("has no wrong choice; add one that a learner might take for right"))
        self._reasons_are_of_wrong_choices(self.right)
        return self

    @property
    def right(self) -> tuple[int, ...]:
        """Indices of the right choices, rising."""
        return tuple(sorted(map(self._index, self.answer)))


class PutInOrder(Written):
    """Steps to be put in the one right order; a paper shows them shuffled."""

    kind: Literal["put in order"]
    steps: Annotated[tuple[Phrase, ...], Field(min_length=3, max_length=8)]
    """The steps in their right order."""

    @model_validator(mode="after")
    def _steps_differ(self) -> Self:
        _all_differ(self.steps, "steps")
        return self


class Match(Written):
    """Pairs to be matched; a paper shows their right sides shuffled."""

    kind: Literal["match"]
    pairs: Annotated[dict[Phrase, Phrase], Field(min_length=3, max_length=8)]
    """Left side to right side."""

    @model_validator(mode="after")
    def _sides_differ(self) -> Self:
        _all_differ(tuple(self.pairs), _("left sides"))
        _all_differ(tuple(self.pairs.values()), _("right sides"))
        return self


class Number(Written):
    """A number to be worked out."""

    kind: Literal["number"]
    answer: Annotated[float, Field(ge=-1e6, le=1e6)]
    """The number, in ``unit``."""
    unit: Literal["mm", "degrees", "kN", "kPa", "pieces", "times"]
    tolerance: Annotated[float, Field(ge=0, le=1000)] = 0
    """How far off an answer may be and still be right, in ``unit``."""


Question = ChooseOne | ChooseSeveral | PutInOrder | Match | Number


class BankFile(Block):
    """One file of a bank of written questions."""

    schema_: Annotated[Literal[1], Field(alias="schema")]
    """Edition of the bank file; always 1."""
    questions: Annotated[
        tuple[Annotated[Question, Field(discriminator="kind")], ...], Field(min_length=1, max_length=1000)
    ]


def parse_bank(text: str | bytes, file: str) -> tuple[Question, ...]:
    """Read a bank file's text; ``file`` is the name that faults carry.

    Raises :class:`trainer.read.Faulty` with every fault of form: of the YAML, of keys and values, and of
    answers that are no choice. What a well-formed question can still get wrong is found by
    :mod:`trainer.quiz.bank_faults`.
    """
    document = read_yaml(text, file)
    questions = validate(BankFile, document).questions
    for i, question in enumerate(questions):
        question._place = SourceLine(file, document.line_of(("questions", i)))
    return questions


def _all_differ(texts: tuple[str, ...], what: str) -> None:
    seen: dict[str, str] = {}
    for text in texts:
        plain = " ".join(text.casefold().split()).rstrip(".")
        if plain in seen:
            raise ValueError(
                _("has two {what} that are alike, '{seen}' and '{text}'; change one").format(
                    what=what, seen=seen[plain], text=text
                )
            )
        seen[plain] = text
