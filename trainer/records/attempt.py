"""One attempt as it was recorded: a whole chain, seen as a person would tell of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Self

from trainer.records.alike import Course, course_of
from trainer.records.chain import Break, Entry, JsonObject, first_break, head_code
from trainer.records.entries import misfit
from trainer.records.seal import Seal
from trainer.terms import Mode


@dataclass(frozen=True)
class RecordedHouse:
    """One house of an attempt: its level, what was done, and the mark where it was marked."""

    level: str
    text: str
    seed: int
    practice_mark: int | None
    began: int
    ended: int
    acts: tuple[JsonObject, ...]
    mark: JsonObject | None
    open: bool
    """Whether more may still be done on it."""

    @property
    def standing(self) -> tuple[JsonObject, ...]:
        """What was done and not taken back; what nobody could do is not in it."""
        kept: list[JsonObject] = []
        for act in self.acts:
            if "refused" in act:
                continue
            if act["action"]["do"] == "undo":
                del kept[-1:]
            else:
                kept.append(act)
        return tuple(kept)


@dataclass(frozen=True)
class RecordedPaper:
    """One question paper of an attempt, with the answers given, in order."""

    name: str
    seed: int
    began: int
    answers: tuple[JsonObject, ...]


@dataclass(frozen=True)
class Attempt:
    """A chain from its opening on, with the signatures under it. Times are in ms UTC.

    The chain need not hold: ask :attr:`fault` before anything that lies behind the opening.
    """

    entries: tuple[Entry, ...]
    seals: tuple[Seal, ...] = ()

    @property
    def opening(self) -> JsonObject:
        """The first entry."""
        return self.entries[0].body

    @property
    def id(self) -> str:
        """The attempt's UUID."""
        return str(self.opening.get("attempt", ""))

    @property
    def code(self) -> str:
        """Code name of who did it."""
        return str(self.opening.get("code", ""))

    @property
    def mode(self) -> Mode:
        """Practice or assessment."""
        return "assessment" if self.opening.get("mode") == "assessment" else "practice"

    @property
    def began(self) -> int:
        """When it was opened."""
        return int(self.opening.get("at", 0))

    @property
    def ended(self) -> int:
        """When the last entry was written."""
        return int(self.entries[-1].body.get("at", 0))

    @property
    def count(self) -> int:
        """How many entries it has."""
        return int(self.entries[-1].body.get("n", -1)) + 1

    @property
    def head(self) -> bytes:
        """Hash of the last entry."""
        return self.entries[-1].hash

    @property
    def head_code(self) -> str:
        """The head as the code that is written down."""
        return head_code(self.head)

    @property
    def closed(self) -> bool:
        """Whether it came to its end."""
        return bool(self.entries[-1].body.get("kind") == "close")

    @property
    def silent(self) -> bool:
        """Whether nothing may be said yet of how it went: it is an assessment, and not closed."""
        return self.mode == "assessment" and not self.closed

    @cached_property
    def veiled(self) -> Self:
        """The same as it may be seen yet: while it is silent, without findings, marks and answers."""
        return replace(self, entries=tuple(map(_veiled, self.entries))) if self.silent else self

    @cached_property
    def fault(self) -> Break | None:
        """Where the chain stops holding, or else the first entry that says what it can't."""
        return first_break(self.entries) or misfit(self.entries)

    @cached_property
    def houses(self) -> tuple[RecordedHouse, ...]:
        """The houses, in the order they were begun."""
        return tuple(self._houses())

    @cached_property
    def hints(self) -> tuple[int, ...]:
        """How often a hint was taken on each house; undoing an action does not give it back."""
        return tuple(sum(bool(act.get("hinted")) for act in house.acts) for house in self.houses)

    @cached_property
    def courses(self) -> tuple[Course, ...]:
        """How each house was gone about, to be compared with others'."""
        return tuple(course_of(house.text, house.began, house.acts) for house in self.houses)

    @property
    def answers(self) -> tuple[Entry, ...]:
        """The questions answered, in order."""
        return tuple(entry for entry in self.entries if entry.body["kind"] == "answer")

    @cached_property
    def papers(self) -> tuple[RecordedPaper, ...]:
        """The question papers, in the order they were begun."""
        begun: list[tuple[JsonObject, list[JsonObject]]] = []
        for entry in self.entries:
            if entry.body["kind"] == "paper":
                begun.append((entry.body, []))
            elif entry.body["kind"] == "answer":
                begun[-1][1].append(entry.body)
        return tuple(RecordedPaper(str(b["paper"]), int(b["seed"]), int(b["at"]), tuple(given)) for b, given in begun)

    @property
    def drills(self) -> tuple[JsonObject, ...]:
        """What is told of each drill, in order."""
        return tuple(entry.body for entry in self.entries if entry.body["kind"] == "drill")

    @property
    def gaps(self) -> tuple[tuple[int, int], ...]:
        """(since, until) of each time the program stopped in the middle."""
        bodies = (entry.body for entry in self.entries)
        return tuple((int(body["since"]), int(body["at"])) for body in bodies if body["kind"] == "gap")

    def _houses(self) -> Iterator[RecordedHouse]:
        begun: JsonObject | None = None
        acts: list[JsonObject] = []
        marked: JsonObject | None = None
        ended = 0
        for body in (*(entry.body for entry in self.entries), _END):
            kind = body["kind"]
            if kind in ("house", "paper", "close", ""):
                if begun is not None:
                    yield _house(begun, acts, marked, ended, not kind and marked is None)
                begun, acts, marked = (body if kind == "house" else None), [], None
            elif kind == "act":
                acts.append(body)
            elif kind == "mark":
                marked = body
            ended = int(body.get("at", 0))


class Outline(Attempt):
    """A closed attempt without its single actions: quick to read, for lists. Nothing in it was checked."""

    @cached_property
    def fault(self) -> Break | None:
        """Nothing: nobody looked."""
        return None


def _veiled(entry: Entry) -> Entry:
    """An entry that says that something was done, and nothing of how it went; it bears its own hash."""
    match entry.body["kind"]:
        case "act":
            return Entry({**entry.body, "found": []}, entry.hash)
        case "mark" | "answer":
            return Entry({"kind": "beat", "at": entry.body["at"], "n": entry.body.get("n")}, entry.hash)
        case _other:
            return entry


_END: dict[str, Any] = {"kind": ""}
"""Stands after the last entry."""


def _house(
    begun: JsonObject, acts: list[JsonObject], marked: JsonObject | None, ended: int, still: bool
) -> RecordedHouse:
    level, text, seed = str(begun["level"]), str(begun["text"]), int(begun["seed"])
    return RecordedHouse(
        level, text, seed, begun.get("practice_mark"), int(begun["at"]), ended, tuple(acts), marked, still
    )
