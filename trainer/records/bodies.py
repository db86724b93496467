"""What the entries of an attempt say, kind by kind. Times are whole milliseconds UTC and come from outside.

An attempt begins with ``open`` and ends with ``close``. In between come houses, each with its actions and then
its mark, papers with their answers, and drills, each told by one entry. Where the program stopped in the middle,
``gap`` says for how long.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Literal, get_args

from trainer.records.chain import Break, Entry
from trainer.records.shape import (
    Check,
    Shape,
    fault_of,
    hexes,
    list_of,
    number,
    of_shape,
    one_of,
    optional,
    table_of,
    text,
    whole,
    yes_or_no,
)
from trainer.rules import Finding
from trainer.terms import Mode
from trainer.words import _

QuestionKind = Literal["choice", "numeric", "matching", "sequencing"]
CODE = r"[A-Za-z0-9][A-Za-z0-9_-]{0,39}"
"""A code name: nothing in it can be taken for a formula by a spreadsheet or for a folder by a system."""
UUID = r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"
FOUND = ("rule", "member", "severity", "got", "want", "cause")
"""What is kept of a finding: its facts. Its texts are the rule's own."""
MOST_TEXT = 1_000_000

_EDITIONS: Shape = {"trainer": text(40), "layout": text(40), "rules": text(40)}
_FOUND: Shape = {name: text(2000) for name in FOUND}
_AT: Mapping[str, Check] = {"at": whole()}
SHAPES: Mapping[str, Shape] = {
    "open": {
        **_AT,
        "schema": whole(1, 1),
        "attempt": text(36, UUID),
        "code": text(40, CODE),
        "mode": one_of(*get_args(Mode)),
        "editions": of_shape(_EDITIONS),
        "seat": optional(hexes(64)),
        "pack": optional(hexes(64)),
        "title": optional(text(80)),
        "ticket": optional(of_shape({})),
    },
    "house": {
        **_AT,
        "level": text(40),
        "text": text(MOST_TEXT),
        "seed": whole(),
        "practice_mark": optional(whole(0, 100)),
    },
    "act": {
        **_AT,
        "index": whole(),
        "action": of_shape({"do": text(40)}),
        "refused": optional(text(2000)),
        "found": list_of(of_shape(_FOUND)),
        "hinted": optional(yes_or_no),
    },
    "paper": {**_AT, "paper": text(80), "seed": whole(), "questions": optional(list_of(text(80), 400))},
    "answer": {
        **_AT,
        "question": text(80),
        "asked": one_of(*get_args(QuestionKind)),
        "text": text(4000),
        "offered": optional(table_of(table_of(text(4000)))),
        "right": yes_or_no,
        "hinted": yes_or_no,
        "took": whole(),
        "serves": optional(list_of(text(40), 20)),
    },
    "drill": {
        **_AT,
        "drill": text(40),
        "level": text(40),
        "seed": whole(),
        "reached": whole(),
        "goals": whole(),
        "right": yes_or_no,
        "hinted": yes_or_no,
        "found": list_of(of_shape(_FOUND)),
        "rules": list_of(text(80), 100),
    },
    "gap": {**_AT, "since": whole(), "editions": of_shape(_EDITIONS)},
    "mark": {**_AT, "score": whole(0, 100), "outcome": one_of("met", "not yet met", "unfinished")},
    "close": _AT,
}
"""What each kind must hold. Kinds that are not here come from a later trainer, and are carried along."""
_OF_LATER: Shape = {**_AT, "kind": text(40)}

_NAMES = list_of(text(200), 100)
_PAIRS = list_of(list_of(text(200), 2, 2), 100)
_ANSWERS: Mapping[str, Shape] = {
    "choice": {"given": _NAMES, "want": _NAMES},
    "sequencing": {"given": _NAMES, "want": _NAMES},
    "matching": {"given": _PAIRS, "want": _PAIRS},
    "numeric": {"given": optional(number), "want": list_of(number, 2, 2)},
}
"""What is given and wanted, by the kind of question."""


def opening(at: int, attempt: str, code: str, mode: Mode, editions: Mapping[str, str], **more: Any) -> dict[str, Any]:
    """The first entry. ``more``: the ``seat`` (a public key); a sitting's ``pack`` (a hash), ``title``, ``ticket``."""
    said = {"kind": "open", "schema": 1, "attempt": attempt, "code": code, "mode": mode, "editions": dict(editions)}
    return {**said, "at": at, **more}


def house(at: int, level: str, level_text: str, seed: int, practice_mark: int | None = None) -> dict[str, Any]:
    """A house is begun; the level file's whole text goes with it, so that it can be judged again.

    ``practice_mark`` stands for the level's own where an assessor set another.
    """
    said = {"kind": "house", "at": at, "level": level, "text": level_text, "seed": seed}
    return said if practice_mark is None else {**said, "practice_mark": practice_mark}


def act(
    at: int,
    index: int,
    action: Mapping[str, Any],
    found: Iterable[Finding],
    refused: str | None = None,
    hinted: bool = False,
) -> dict[str, Any]:
    """One action as a diary writes it, why it was refused if it was, and the facts of what was found in it.

    ``hinted``: a hint was taken before it.
    """
    said = {"kind": "act", "at": at, "index": index, "action": dict(action), "found": _facts(found)}
    said |= {"hinted": True} if hinted else {}
    return said if refused is None else {**said, "refused": refused}


def paper(at: int, name: str, seed: int, questions: Sequence[str] = ()) -> dict[str, Any]:
    """A question paper is begun; ``questions`` are the ids of what it asks, so that it can be gone on with."""
    said = {"kind": "paper", "at": at, "paper": name, "seed": seed}
    return {**said, "questions": list(questions)} if questions else said


def answer(
    at: int,
    question: str,
    asked: QuestionKind,
    text: str,
    given: Any,
    want: Any,
    right: bool,
    took: int,
    hinted: bool = False,
    offered: Mapping[str, Any] | None = None,
) -> dict[str, Any]:
    """One question answered; ``took`` in ms.

    ``given`` and ``want``: a list of names for choice and sequencing, a list of pairs of names for matching, a
    number and a ``[low, high]`` for numeric. ``offered`` has the texts by name: ``choices``, ``source``, ``target``.
    """
    said = {
        "kind": "answer", "at": at, "question": question, "asked": asked, "text": text, "given": given,
        "want": want, "right": right, "took": took, "hinted": hinted,
    }  # fmt: skip
    return said if offered is None else {**said, "offered": dict(offered)}


def drill(
    at: int,
    name: str,
    level: str,
    seed: int,
    reached: int,
    goals: int,
    right: bool,
    found: Iterable[Finding],
    rules: Sequence[str],
    hinted: bool = False,
) -> dict[str, Any]:
    """A drill of the kind ``name`` on a level came to its end: how many of its goals were reached, what was found.

    ``rules`` are those that it practises.
    """
    return {
        "kind": "drill", "at": at, "drill": name, "level": level, "seed": seed, "reached": reached, "goals": goals,
        "right": right, "hinted": hinted, "found": _facts(found), "rules": list(rules),
    }  # fmt: skip


def _facts(found: Iterable[Finding]) -> list[dict[str, str]]:
    return [{name: getattr(finding, name) for name in FOUND} for finding in found]


def gap(at: int, since: int, editions: Mapping[str, str]) -> dict[str, Any]:
    """The attempt went on at ``at``, under these editions; the last that was recorded before is of ``since``."""
    return {"kind": "gap", "at": at, "since": since, "editions": dict(editions)}


def mark(at: int, score: int, outcome: str) -> dict[str, Any]:
    """The mark of the house before it, whether handed over or left."""
    return {"kind": "mark", "at": at, "score": score, "outcome": outcome}


def close(at: int) -> dict[str, Any]:
    """The end: nothing follows."""
    return {"kind": "close", "at": at}


def body_fault(body: object) -> str:
    """Return what is wrong with the content of one entry, or an empty text."""
    if not isinstance(body, dict):
        return _("it is no set of keys")
    shape = SHAPES.get(str(body.get("kind")), _OF_LATER)
    fault = fault_of(body, shape)
    if fault or body["kind"] != "answer":
        return fault
    return fault_of(body, _ANSWERS[body["asked"]])


def misfit(entries: Sequence[Entry]) -> Break | None:
    """Return the first entry whose content is wrong or which can't stand where it does; None where all is well."""
    under = ""
    for ordinal, entry in enumerate(entries):
        if fault := body_fault(entry.body) or _out_of_place(str(entry.body["kind"]), under, ordinal):
            return Break(ordinal, fault)
        if entry.body["kind"] in _UNDER:
            under = str(entry.body["kind"])
    return None


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
