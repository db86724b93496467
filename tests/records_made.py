"""Invented attempts for tests of the records: who, when and what are made up."""

from __future__ import annotations

import random
import uuid
from collections.abc import Iterable
from typing import Any

from trainer.records import entries
from trainer.records.attempt import Attempt
from trainer.records.chain import START, Entry, link
from trainer.rules import Finding

EDITIONS = {"trainer": "0.1.0", "layout": "aaaa", "rules": "bbbb"}
NOON = 1_760_000_000_000
"""Some moment, ms UTC."""


class Clock:
    """The records' clock, which a test sets. At a ``pace`` it goes on by so many ms each time it is looked at."""

    def __init__(self, pace: int = 0) -> None:
        self.now = NOON
        self.pace = pace

    def __call__(self) -> int:
        self.now += self.pace
        return self.now


BY_HAND = 60
"""A pace at which acts are no quicker than a hand's, ms."""


def opened(at: int, attempt: str, code: str, mode: Any, editions: dict[str, str], **more: Any) -> dict[str, Any]:
    told = entries.OpeningEntry(
        at=at, schema_=1, attempt=attempt, code=code, mode=mode, editions=entries.Editions(**editions), **more
    )
    return told.as_json()


def house_begun(at: int, level: str, text: str, seed: int, practice_mark: int | None = None) -> dict[str, Any]:
    return entries.HouseBegunEntry(at=at, level=level, text=text, seed=seed, practice_mark=practice_mark).as_json()


def acted(
    at: int, index: int, action: dict[str, Any], found: Iterable[Finding], refused: str | None = None
) -> dict[str, Any]:
    kept, line = entries.finding_facts(found), entries.DiaryLine(**action)
    return entries.ActionEntry(at=at, index=index, action=line, found=kept, refused=refused).as_json()


def paper_begun(at: int, name: str, seed: int) -> dict[str, Any]:
    return entries.PaperEntry(at=at, paper=name, seed=seed).as_json()


def answered(
    at: int, question: str, asked: Any, text: str, given: Any, want: Any, right: bool, took: int,
    hinted: bool = False, offered: Any = None,
) -> dict[str, Any]:  # fmt: skip
    told = entries.ANSWERS[asked](
        at=at, question=question, asked=asked, text=text, given=given, want=want, right=right, took=took,
        hinted=hinted, offered=offered,
    )  # fmt: skip
    return told.as_json()


def gap(at: int, since: int, editions: dict[str, str]) -> dict[str, Any]:
    return entries.GapEntry(at=at, since=since, editions=entries.Editions(**editions)).as_json()


def marked(at: int, score: int, outcome: Any) -> dict[str, Any]:
    return entries.MarkEntry(at=at, score=score, outcome=outcome).as_json()


def ended(at: int) -> dict[str, Any]:
    return entries.ClosingEntry(at=at).as_json()


def uuid_of(seed: int) -> str:
    return str(uuid.UUID(int=random.Random(seed).getrandbits(128), version=4))


def opening(seed: int = 1, code: str = "wren-07", mode: Any = "practice", **more: Any) -> dict[str, Any]:
    return opened(NOON, uuid_of(seed), code, mode, EDITIONS, **more)


def house(level: str = "wren", at: int = NOON) -> dict[str, Any]:
    return house_begun(at, level, f"schema: 1\nid: {level}\n", 7)


def act(index: int, found: Iterable[Any] = (), tag: str = "T1") -> dict[str, Any]:
    action = {"do": "stand", "tag": tag, "from": [1800.0, 0.0], "to": [1800.0, 7800.5]}
    return acted(NOON + 1000 * index, index, action, found)


def said(acts: int = 5, seed: int = 1, closed: bool = True, **more: Any) -> list[dict[str, Any]]:
    """What the entries of one attempt say, unnumbered."""
    told = [opening(seed, **more), house(), *(act(index) for index in range(acts))]
    if closed:
        told += [marked(NOON + 99_000, 92, "met"), ended(NOON + 99_000)]
    return told


def chain(*told: dict[str, Any]) -> tuple[Entry, ...]:
    return link(START, [{**body, "n": n} for n, body in enumerate(told)])


def attempt(acts: int = 5, seed: int = 1, closed: bool = True, **more: Any) -> Attempt:
    return Attempt(chain(*said(acts, seed, closed, **more)))


CHOICES = {"choices": {"a": "The girder", "b": "The hip", "c": "The saddle"}}
TWO = [["a", "x"], ["b", "y"]]
PAIRS = {"source": {"a": "TG", "b": "H"}, "target": {"x": "truncated girder", "y": "hip"}}


def with_answers() -> Attempt:
    """Three houses, each marked otherwise, and a paper with every kind of question."""
    found = [
        Finding(rule, 1, "T1", severity, "", "", "", "", "", "", "")  # type: ignore[arg-type]
        for rule, severity in (("a", "rework"), ("b", "rework"), ("c", "habit"))
    ]
    told = [
        opening(), house(), act(0), act(1, found), acted(NOON + 2500, 2, {"do": "hand_over"}, [], "Too soon."),
        marked(NOON + 61_234, 83, "met"),
        house("emu", NOON + 70_000), marked(NOON + 80_000, 40, "not yet met"),
        house("owl", NOON + 90_000), marked(NOON + 95_000, 100, "unfinished"), paper_begun(NOON, "stand", 3),
        answered(NOON, "q-1", "choice", "Which first?", ["a"], ["a", "c"], False, 4200, False, CHOICES),
        answered(NOON, "q-2", "numeric", "How far, in mm?", 600.5, [598, 602], True, 10),
        answered(NOON, "q-3", "matching", "What is it?", [["a", "x"]], TWO, False, 1, True, PAIRS),
        answered(NOON, "q-4", "sequencing", "In order?", ["b", "a"], ["a", "b", "c"], False, 0, False, CHOICES),
        answered(NOON, "q-5", "numeric", "And none given?", None, [-0.5, 1e-7], False, 999),
        ended(NOON + 99_990),
    ]  # fmt: skip
    return Attempt(chain(*told))
