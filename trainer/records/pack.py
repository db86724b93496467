"""Assessment packs, and the tickets that let one candidate sit one of them, both signed by an assessor."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from functools import cached_property
from typing import Any, Literal, get_args

from trainer.level import parse_level
from trainer.quiz.unit import TOPICS, Topic
from trainer.records.bodies import CODE, MOST_TEXT
from trainer.records.chain import canonical
from trainer.records.keys import PrivateKey
from trainer.records.shape import Shape, hexes, list_of, of_shape, one_of, optional, text, whole
from trainer.records.signed import Signed, read_signed, sign_document

SeedPolicy = Literal["same", "by code"]
"""Whether every candidate gets the same site, or each one of their own, drawn from the code name."""
PACK, TICKET = "assessment pack", "ticket"
MOST_ASKED = 200
"""Questions on one paper."""
_HOUSE: Shape = {"level": text(40), "text": text(MOST_TEXT)}
_PAPER: Shape = {"questions": whole(1, MOST_ASKED), "topics": list_of(one_of(*TOPICS)), "bank": hexes(64)}
_PACK: Shape = {
    "title": text(80, r".+"),
    "made": whole(),
    "houses": list_of(of_shape(_HOUSE), 20),
    "paper": optional(of_shape(_PAPER)),
    "seeds": one_of(*get_args(SeedPolicy)),
    "seed": whole(),
    "minutes": optional(whole(1, 1440)),
    "practice_mark": optional(whole(0, 100)),
}
_TICKET: Shape = {
    "nonce": hexes(32),
    "code": text(40, CODE),
    "pack": hexes(64),
    "made": whole(),
    "expires": whole(),
    "extra_minutes": whole(0, 1440),
}
MINUTE = 60_000
"""A minute in ms."""


@dataclass(frozen=True, slots=True)
class Blueprint:
    """What the question paper asks: how many ``questions``, on which ``topics``, out of the bank with this hash.

    Worked questions are about the pack's own houses.
    """

    questions: int
    topics: tuple[Topic, ...]
    bank: str


@dataclass(frozen=True)
class Pack:
    """What is sat: houses with their level files' whole text, a question paper, how seeds are drawn, and the time."""

    signed: Signed

    @property
    def title(self) -> str:
        """What the assessor calls it."""
        return str(self.signed.content["title"])

    @cached_property
    def houses(self) -> tuple[tuple[str, str], ...]:
        """(level, text of its file) of each house, in order."""
        return tuple((str(house["level"]), str(house["text"])) for house in self.signed.content["houses"])

    @property
    def paper(self) -> Blueprint | None:
        """The question paper, sat after the houses; None where nothing is asked."""
        given = self.signed.content.get("paper")
        return None if given is None else Blueprint(given["questions"], tuple(given["topics"]), given["bank"])

    @property
    def minutes(self) -> int | None:
        """How long it may take, without a candidate's own extension; None for as long as it takes."""
        return self.signed.content.get("minutes")

    @property
    def practice_mark(self) -> int | None:
        """The mark to meet on every house; None for each level's own."""
        return self.signed.content.get("practice_mark")

    def seed(self, code: str, house: int) -> int:
        """Return the seed of a house, counted from 0, for one candidate; the paper counts as the last one."""
        drawn: list[Any] = [self.signed.content["seed"], house]
        if self.signed.content["seeds"] == "by code":
            drawn.append(code)
        return int.from_bytes(hashlib.sha256(canonical(drawn)).digest()[:6])


@dataclass(frozen=True)
class Ticket:
    """Leave for one candidate to sit one pack. ``extra`` minutes are an adjustment; why is nobody's business here."""

    signed: Signed

    @property
    def extra(self) -> int:
        """Minutes on top of the pack's."""
        return int(self.signed.content["extra_minutes"])

    def fits(self, pack: str, code: str, at: int) -> bool:
        """Whether it is for this pack (by its hash) and this code name, and not run out at ``at``, ms UTC."""
        content = self.signed.content
        return (content["pack"], content["code"]) == (pack, code) and at <= content["expires"]


def make_pack(
    key: PrivateKey,
    title: str,
    levels: Sequence[str],
    made: int,
    seed: int,
    seeds: SeedPolicy = "same",
    minutes: int | None = None,
    practice_mark: int | None = None,
    paper: Blueprint | None = None,
) -> Pack:
    """Sign a pack. ``levels`` are the texts of level files; ``made`` in ms UTC.

    :raises Faulty: for a faulty level.
    """
    houses = [{"level": parse_level(each, f"level {n}").id, "text": each} for n, each in enumerate(levels, 1)]
    content: dict[str, Any] = {"title": title, "made": made, "houses": houses, "seeds": seeds, "seed": seed}
    asked = None if paper is None else {**asdict(paper), "topics": list(paper.topics)}
    limits = {"minutes": minutes, "practice_mark": practice_mark, "paper": asked}
    return Pack(sign_document(key, PACK, content | {name: n for name, n in limits.items() if n is not None}))


def make_ticket(key: PrivateKey, pack: Pack, code: str, nonce: str, made: int, expires: int, extra: int = 0) -> Ticket:
    """Sign a ticket; ``nonce`` is 32 hexadecimal figures drawn at random, ``extra`` in minutes."""
    content: dict[str, Any] = {"nonce": nonce, "code": code, "pack": pack.signed.hash}
    return Ticket(sign_document(key, TICKET, content | {"made": made, "expires": expires, "extra_minutes": extra}))


def read_pack(given: bytes, file: str) -> Pack:
    """Read a pack's file: its signature must fit, and its levels must be levels.

    :raises Faulty: with what is wrong.
    """
    pack = Pack(read_signed(given, PACK, _PACK, file))
    for level, level_text in pack.houses:
        parse_level(level_text, f"{file}, level {level}")
    return pack


def read_ticket(given: bytes | Mapping[str, Any], file: str) -> Ticket:
    """Read a ticket from its file's bytes, or from the opening of an attempt.

    :raises Faulty: with what is wrong.
    """
    return Ticket(read_signed(given, TICKET, _TICKET, file))
