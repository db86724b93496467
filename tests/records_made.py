"""Invented attempts for tests of the records: who, when and what are made up."""

from __future__ import annotations

import random
import uuid
from collections.abc import Iterable
from typing import Any

from trainer.records import bodies
from trainer.records.attempt import Attempt
from trainer.records.chain import START, Entry, link
from trainer.rules import Finding

EDITIONS = {"trainer": "0.1.0", "layout": "aaaa", "rules": "bbbb"}
NOON = 1_760_000_000_000
"""Some moment, ms UTC."""


class Clock:
    """The records' clock, which a test sets."""

    def __init__(self) -> None:
        self.now = NOON

    def __call__(self) -> int:
        return self.now


def uuid_of(seed: int) -> str:
    return str(uuid.UUID(int=random.Random(seed).getrandbits(128), version=4))


def opening(seed: int = 1, code: str = "wren-07", mode: Any = "practice", **more: Any) -> dict[str, Any]:
    return bodies.opening(NOON, uuid_of(seed), code, mode, EDITIONS, **more)


def house(level: str = "wren", at: int = NOON) -> dict[str, Any]:
    return bodies.house(at, level, f"schema: 1\nid: {level}\n", 7)


def act(index: int, found: Iterable[Any] = (), tag: str = "T1") -> dict[str, Any]:
    action = {"do": "stand", "tag": tag, "from": [1800.0, 0.0], "to": [1800.0, 7800.5]}
    return bodies.act(NOON + 1000 * index, index, action, found)


def said(acts: int = 5, seed: int = 1, closed: bool = True, **more: Any) -> list[dict[str, Any]]:
    """What the entries of one attempt say, unnumbered."""
    told = [opening(seed, **more), house(), *(act(index) for index in range(acts))]
    if closed:
        told += [bodies.mark(NOON + 99_000, 92, "met"), bodies.close(NOON + 99_000)]
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
        opening(), house(), act(0), act(1, found), bodies.act(NOON + 2500, 2, {"do": "hand_over"}, [], "Too soon."),
        bodies.mark(NOON + 61_234, 83, "met"),
        house("emu", NOON + 70_000), bodies.mark(NOON + 80_000, 40, "not yet met"),
        house("owl", NOON + 90_000), bodies.mark(NOON + 95_000, 100, "unfinished"), bodies.paper(NOON, "stand", 3),
        bodies.answer(NOON, "q-1", "choice", "Which first?", ["a"], ["a", "c"], False, 4200, False, CHOICES),
        bodies.answer(NOON, "q-2", "numeric", "How far, in mm?", 600.5, [598, 602], True, 10),
        bodies.answer(NOON, "q-3", "matching", "What is it?", [["a", "x"]], TWO, False, 1, True, PAIRS),
        bodies.answer(NOON, "q-4", "sequencing", "In order?", ["b", "a"], ["a", "b", "c"], False, 0, False, CHOICES),
        bodies.answer(NOON, "q-5", "numeric", "And none given?", None, [-0.5, 1e-7], False, 999),
        bodies.close(NOON + 99_990),
    ]  # fmt: skip
    return Attempt(chain(*told))
