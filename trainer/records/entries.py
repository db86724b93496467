"""What the entries of an attempt say, one model a kind. Times are whole milliseconds UTC and come from outside.

An attempt begins with ``open`` and ends with ``close``. In between come houses, each with its actions and then
its mark, papers with their answers, and drills, each told by one entry. Where the program stopped in the middle,
``gap`` says for how long.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field

from trainer.read.schema_walk import WANTED
from trainer.records.chain import Break, Entry
from trainer.records.shape import (
    CODE,
    CodeName,
    Hash,
    LevelId,
    Moment,
    Name,
    Percent,
    Recorded,
    Sentence,
    Title,
    Whole,
    fault_of,
)
from trainer.records.signed import Signed
from trainer.records.ticket import TicketContent
from trainer.rules import Finding
from trainer.terms import Mode, Outcome, Severity
from trainer.words import _

Offered = Literal["choices", "source", "target"]
QuestionKind = Literal["choice", "numeric", "matching", "sequencing"]
UUID = r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"

AttemptId = Annotated[str, Field(pattern=f"^{UUID}$", json_schema_extra={WANTED: _("an id in small letters")})]
LevelText = Annotated[str, Field(max_length=1_000_000)]
Choice = Annotated[str, Field(max_length=4000)]
Choices = Annotated[list[Annotated[str, Field(max_length=200)]], Field(max_length=100)]
Pair = Annotated[list[Annotated[str, Field(max_length=200)]], Field(min_length=2, max_length=2)]


def is_code(text: str) -> bool:
    """Whether a text can be a code name."""
    return re.fullmatch(CODE, text) is not None


class Editions(Recorded):
    """Of the trainer, and of its rules and layout, as hashes of their source."""

    trainer: Name
    layout: Name
    rules: Name


class FindingFacts(Recorded):
    """What is kept of a finding: its facts. Its texts are the rule's own."""

    rule: Sentence
    member: Sentence
    severity: Severity
    got: Sentence
    want: Sentence
    cause: Sentence


class DiaryLine(Recorded):
    """One action as a diary writes it, whatever its verb says."""

    model_config = ConfigDict(extra="allow")

    do: Name


class EntryBody(Recorded):
    """What one entry says. Kinds that are not described here come from a later trainer, and are carried along."""

    kind: Name
    at: Moment


class OpeningEntry(EntryBody):
    """The first entry. ``seat`` is a public key; a sitting has its pack (a hash), a title, perhaps a ticket.

    ``minutes`` is how long a sitting may take, with what the ticket adds. ``houses_differ`` where each candidate of the
    class got houses of their own.
    """

    kind: Literal["open"] = "open"
    schema_: Annotated[Literal[1], Field(alias="schema")]
    attempt: AttemptId
    code: CodeName
    mode: Mode
    editions: Editions
    seat: Hash | None = None
    pack: Hash | None = None
    title: Title | None = None
    ticket: Signed | None = None
    minutes: Annotated[int, Field(ge=1, le=2880)] | None = None
    houses_differ: Literal[True] | None = None


class HouseBegunEntry(EntryBody):
    """A house is begun; the level file's whole text goes with it, so that it can be judged again.

    ``practice_mark`` stands for the level's own where an assessor set another.
    """

    kind: Literal["house"] = "house"
    level: LevelId
    text: LevelText
    seed: Whole
    practice_mark: Percent | None = None


class ActionEntry(EntryBody):
    """One action; why it was refused if it was, the facts of what was found in it, whether a hint came before it.

    ``hand`` numbers, from 1 in each house, what one hand did in one go.
    """

    kind: Literal["act"] = "act"
    index: Whole
    action: DiaryLine
    refused: Sentence | None = None
    found: Annotated[list[FindingFacts], Field(max_length=100_000)]
    hinted: bool | None = None
    hint_depth: Annotated[int, Field(ge=1, le=4)] | None = None
    hand: Annotated[int, Field(ge=1, lt=2**53)] | None = None


class PaperEntry(EntryBody):
    """A question paper is begun; ``questions`` are the ids of what it asks, so that it can be gone on with."""

    kind: Literal["paper"] = "paper"
    paper: Title
    seed: Whole
    questions: Annotated[list[Title], Field(max_length=400)] | None = None


class AnswerEntry(EntryBody):
    """One question answered; ``took`` in ms. ``offered`` has the texts by name: ``choices``, ``source``, ``target``."""

    kind: Literal["answer"] = "answer"
    question: Title
    asked: QuestionKind
    text: Choice
    offered: dict[Offered, dict[str, Choice]] | None = None
    right: bool
    hinted: bool
    took: Whole
    serves: Annotated[list[Name], Field(max_length=20)] | None = None
    given: Any = None
    want: Any = None

    def as_json(self) -> dict[str, Any]:
        """Return it as an entry holds it; that nothing was given is said too."""
        return {**super().as_json(), "given": self.given}


class ChoiceAnswer(AnswerEntry):
    """What was given and what is right are names, in order where the order is asked for."""

    asked: Literal["choice", "sequencing"]
    given: Choices
    want: Choices


class MatchingAnswer(AnswerEntry):
    """What was given and what is right are pairs of names."""

    asked: Literal["matching"]
    given: Annotated[list[Pair], Field(max_length=100)]
    want: Annotated[list[Pair], Field(max_length=100)]


class NumericAnswer(AnswerEntry):
    """What was given is a number, or nothing that is one; what is right is from the lower to the higher of two."""

    asked: Literal["numeric"]
    given: float | None
    want: Annotated[list[float], Field(min_length=2, max_length=2)]


class DrillEntry(EntryBody):
    """A drill on a level came to its end: how many of its goals were reached, what was found, what it practises."""

    kind: Literal["drill"] = "drill"
    drill: LevelId
    level: LevelId
    seed: Whole
    reached: Whole
    goals: Whole
    right: bool
    hinted: bool
    found: Annotated[list[FindingFacts], Field(max_length=100_000)]
    rules: Annotated[list[Title], Field(max_length=100)]


class GapEntry(EntryBody):
    """The attempt went on at ``at``, under these editions; the last that was recorded before is of ``since``.

    ``seat`` is the public key of the seat on which a sitting went on; ``from_file`` where what it went on from had come
    to that seat in a file.
    """

    kind: Literal["gap"] = "gap"
    since: Moment
    editions: Editions
    seat: Hash | None = None
    from_file: Literal[True] | None = None


class BeatEntry(EntryBody):
    """The program was still there: what a stop after it can have taken is counted from here."""

    kind: Literal["beat"] = "beat"


class FromFileEntry(EntryBody):
    """What follows was not typed or pressed by anybody: it was sent in from a file, or by another program."""

    kind: Literal["from file"] = "from file"


class MarkEntry(EntryBody):
    """The mark of the house before it, whether handed over or left.

    ``skills_shown`` names the skills whose deciding act was got ready by the deepest hint.
    """

    kind: Literal["mark"] = "mark"
    score: Percent
    outcome: Outcome
    skills_shown: Annotated[list[Name], Field(max_length=100)] | None = None


class ClosingEntry(EntryBody):
    """The end: nothing follows."""

    kind: Literal["close"] = "close"


_MODELS: dict[str, type[EntryBody]] = {
    model.model_fields["kind"].default: model for model in EntryBody.__subclasses__()
}
ANSWERS: dict[str, type[AnswerEntry]] = {
    "choice": ChoiceAnswer,
    "sequencing": ChoiceAnswer,
    "matching": MatchingAnswer,
    "numeric": NumericAnswer,
}


def finding_facts(found: Iterable[Finding]) -> list[FindingFacts]:
    """Return what is kept of findings."""
    return [FindingFacts(**{name: getattr(finding, name) for name in FindingFacts.model_fields}) for finding in found]


def body_fault(said: object) -> str:
    """Return what is wrong with the content of one entry, or an empty text."""
    if not isinstance(said, dict):
        return _("it is no set of keys")
    model = _MODELS.get(str(said.get("kind")), EntryBody)
    if model is AnswerEntry:
        model = ANSWERS.get(str(said.get("asked")), AnswerEntry)
    return fault_of(said, model)


def misfit(entries: Sequence[Entry]) -> Break | None:
    """Return the first entry whose content is wrong or which can't stand where it does; None where all is well."""
    under, done = "", 0
    for ordinal, entry in enumerate(entries):
        fault = body_fault(entry.body) or _out_of_place(str(entry.body["kind"]), under, ordinal) or _hidden(entry)
        if not fault and entry.body["kind"] == "act" and entry.body["index"] != done:
            fault = _("its number is not its place among what was done at its house")
        if fault:
            return Break(ordinal, fault)
        if entry.body["kind"] in _UNDER:
            under, done = str(entry.body["kind"]), 0
        done += entry.body["kind"] == "act"
    return None


def _hidden(entry: Entry) -> str:
    """Why an entry would not be seen by those who leave single actions out, or whose ticket is none."""
    if entry.body["kind"] != "act" and AN_ACTION in entry.text:
        return _("it hides what it is: it holds the sign of a single action")
    ticket = entry.body.get("ticket") if entry.body["kind"] == "open" else None
    if ticket is not None and (fault := fault_of(ticket["content"], TicketContent)):
        return _("its ticket: {what}").format(what=fault)
    return ""


AN_ACTION = b'"kind":"act"'
"""By this the store tells single actions from all else; inside a text of JSON the quotes would be escaped."""
_UNDER = ("house", "paper", "mark", "close")
"""Kinds that decide what may follow."""


def _out_of_place(kind: str, under: str, ordinal: int) -> str:
    if (kind == "open") != (ordinal == 0):
        return _("an attempt begins with one opening entry")
    if under == "close":
        return _("it comes after the attempt was closed")
    if kind in ("act", "mark") and under != "house":
        return _("there is no house for it that was begun and not marked yet")
    if kind == "answer" and under != "paper":
        return _("there is no paper for it")
    return ""
