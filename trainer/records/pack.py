"""Assessment packs, and the tickets that let one candidate sit one of them, both signed by an assessor."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import Field

from trainer.level import parse_level
from trainer.quiz.unit import Topic
from trainer.records.chain import canonical
from trainer.records.entries import LevelText
from trainer.records.keys import PrivateKey
from trainer.records.shape import Hash, LevelId, Moment, Percent, Recorded, Whole
from trainer.records.signed import Signed, read_signed, sign_document
from trainer.records.ticket import PLAIN, Due, DueHouse, Eased, TicketContent

SeedPolicy = Literal["same", "by code"]
"""Whether every candidate gets the same site, or each one of their own, drawn from the code name."""
PACK, TICKET = "assessment pack", "ticket"
MOST_ASKED = 200
"""Questions on one paper."""
MINUTE = 60_000
"""A minute in ms."""


class PackPaper(Recorded):
    """What the question paper asks: how many ``questions``, on which ``topics``, out of the bank with this hash.

    Worked questions are about the pack's own houses.
    """

    questions: Annotated[int, Field(ge=1, le=MOST_ASKED)]
    topics: list[Topic]
    bank: Hash


class PackHouse(Recorded):
    """A house to be built, by the whole text of its level file."""

    level: LevelId
    text: LevelText


class PackContent(Recorded):
    """What is sat; ``made`` in ms UTC. ``practice_mark`` is the mark to meet on every house; None for each level's own.

    ``minutes`` is how long it may take, without a candidate's own extension; None for as long as it takes.
    """

    title: Annotated[str, Field(pattern=r"^.{1,80}$")]
    made: Moment
    houses: Annotated[list[PackHouse], Field(max_length=20)]
    paper: PackPaper | None = None
    seeds: SeedPolicy
    seed: Whole
    minutes: Annotated[int, Field(ge=1, le=1440)] | None = None
    practice_mark: Percent | None = None
    withhold: Literal[True] | None = None
    """Whether the seat says nothing of how it went, after the close either."""
    houses_differ: Literal[True] | None = None
    """Whether others of the class sit other houses of one family, each a new one of their own."""


@dataclass(frozen=True)
class AssessmentPack:
    """What is sat: houses with their level files' whole text, a question paper, how seeds are drawn, and the time."""

    signed: Signed

    @cached_property
    def content(self) -> PackContent:
        """What was signed."""
        return PackContent.model_validate(self.signed.content)

    @cached_property
    def houses(self) -> tuple[tuple[str, str], ...]:
        """(level, text of its file) of each house, in order."""
        return tuple((house.level, house.text) for house in self.content.houses)

    @property
    def title(self) -> str:
        """What the assessor calls it."""
        return self.content.title

    @property
    def paper(self) -> PackPaper | None:
        """The question paper, sat after the houses; None where nothing is asked."""
        return self.content.paper

    def seed(self, code: str, house: int) -> int:
        """Return the seed of a house, counted from 0, for one candidate; the paper counts as the last one."""
        drawn: list[Any] = [self.content.seed, house]
        if self.content.seeds == "by code":
            drawn.append(code)
        return int.from_bytes(hashlib.sha256(canonical(drawn)).digest()[:6])


@dataclass(frozen=True)
class Ticket:
    """A ticket as it was signed."""

    signed: Signed

    @cached_property
    def content(self) -> TicketContent:
        """What was signed."""
        return TicketContent.model_validate(self.signed.content)

    def fits(self, pack: str, code: str, at: int) -> bool:
        """Whether it is for this pack (by its hash) and this code name, and not run out at ``at``, ms UTC."""
        return (self.content.pack, self.content.code) == (pack, code) and at <= self.content.expires

    def is_for(self, houses: Sequence[tuple[str, int, int | None]], minutes: int | None) -> bool:
        """Whether what was sat, as (level's text, seed, practice mark) of each house, is what it is for, or its start.

        A ticket of an older trainer does not say, so it is for anything.
        """
        if (due := self.content.due) is None:
            return True
        sat = [(hashlib.sha256(text.encode("utf-8")).hexdigest(), seed, mark) for text, seed, mark in houses]
        wanted = [(each.text, each.seed, due.practice_mark) for each in due.houses]
        return sat == wanted[: len(sat)] and minutes == due.minutes


def make_pack(
    key: PrivateKey,
    title: str,
    levels: Sequence[str],
    made: int,
    seed: int,
    seeds: SeedPolicy = "same",
    minutes: int | None = None,
    practice_mark: int | None = None,
    paper: PackPaper | None = None,
    withhold: bool = False,
    houses_differ: bool = False,
) -> AssessmentPack:
    """Sign a pack. ``levels`` are the texts of level files; ``made`` in ms UTC.

    :raises Faulty: for a faulty level.
    """
    houses = [PackHouse(level=parse_level(each, f"level {n}").id, text=each) for n, each in enumerate(levels, 1)]
    content = PackContent(
        title=title, made=made, houses=houses, seeds=seeds, seed=seed, minutes=minutes, practice_mark=practice_mark,
        paper=paper, withhold=True if withhold else None, houses_differ=True if houses_differ else None,
    )  # fmt: skip
    return AssessmentPack(sign_document(key, PACK, content.as_json()))


def make_ticket(
    key: PrivateKey, pack: AssessmentPack, code: str, nonce: str, made: int, expires: int, extra: int = 0,
    breaks: int = 0, eased: Eased = PLAIN,
) -> Ticket:  # fmt: skip
    """Sign a ticket; ``nonce`` is 32 hexadecimal figures drawn at random, ``extra`` and ``breaks`` in minutes."""
    houses = [
        DueHouse(text=hashlib.sha256(text.encode("utf-8")).hexdigest(), seed=pack.seed(code, n))
        for n, (_level, text) in enumerate(pack.houses)
    ]
    minutes = pack.content.minutes
    due = Due(
        houses=houses, minutes=None if minutes is None else minutes + extra, practice_mark=pack.content.practice_mark
    )
    content = TicketContent(
        nonce=nonce, code=code, pack=pack.signed.hash, made=made, expires=expires, extra_minutes=extra,
        break_minutes=breaks or None, eased=None if eased == PLAIN else eased, due=due,
    )  # fmt: skip
    return Ticket(sign_document(key, TICKET, content.as_json()))


def read_pack(given: bytes, file: str) -> AssessmentPack:
    """Read a pack's file: its signature must fit, and its levels must be levels.

    :raises Faulty: with what is wrong.
    """
    pack = AssessmentPack(read_signed(given, PACK, PackContent, file))
    for level, level_text in pack.houses:
        parse_level(level_text, f"{file}, level {level}")
    return pack


def read_ticket(given: bytes | Mapping[str, Any], file: str) -> Ticket:
    """Read a ticket from its file's bytes, or from the opening of an attempt.

    :raises Faulty: with what is wrong.
    """
    return Ticket(read_signed(given, TICKET, TicketContent, file))
