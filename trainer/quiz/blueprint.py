"""What a paper is made of: how many questions on each topic, how many of them written, and how hard."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from trainer.chance import shuffled
from trainer.quiz.bank import Question
from trainer.quiz.unit import TOPICS, Topic
from trainer.quiz.worked import FAMILIES

WEIGHTS: Mapping[Topic, int] = {
    "terms": 2, "reading plans": 3, "safety": 3, "lifting": 2, "set-out": 3, "order": 3, "bracing": 3, "fixing": 3,
    "tolerances": 2, "gables and verges": 2, "saddles": 2, "inspection": 3, "tools and PPE": 2,
    "ceiling trimming and access holes": 2, "clean-up": 1, "who decides what": 2,
}  # fmt: skip
"""How much of a paper each topic takes; our own judgement of the job, no source."""
DIFFICULTY: Mapping[int, float] = {1: 0.3, 2: 0.45, 3: 0.25}
"""Share of a paper at each difficulty."""
WORKED_SHARE = 0.5
"""Share of a topic's questions that are worked from a house, where its families allow."""
MOST_FORMS = 6
"""Parallel papers that share no written question, at most."""


@dataclass(frozen=True, slots=True)
class PaperPart:
    """One topic of a paper: how many of its questions are ``written`` and how many ``worked``."""

    topic: Topic
    written: int
    worked: int


@dataclass(frozen=True)
class Blueprint:
    """What a paper asks for. Papers from ``forms`` seeds one after another share no written question."""

    parts: tuple[PaperPart, ...]
    hardness: Mapping[int, int]
    forms: int

    @property
    def count(self) -> int:
        """How many questions."""
        return sum(part.written + part.worked for part in self.parts)


def blueprint(
    bank: Sequence[Question], count: int, topics: Collection[Topic] = TOPICS, houses: bool = True, turn: int = 0
) -> Blueprint:
    """Return the blueprint for ``count`` questions on ``topics``; without ``houses`` all of them are written.

    Fewer questions than topics go round the topics, from ``turn`` to turn: none has to wait for long.
    """
    asked = [topic for topic in TOPICS if topic in topics]
    if count < len(asked):
        round_it = shuffled(asked, 0, "round of topics")
        due = {round_it[(turn * count + n) % len(round_it)] for n in range(count)}
        asked = [topic for topic in asked if topic in due]
    each = dict(zip(asked, _shared_out(count, [WEIGHTS[topic] for topic in asked]), strict=True))
    held = {topic: sum(question.topic == topic for question in bank) for topic in asked}
    parts = tuple(_part(topic, each[topic], held[topic], houses) for topic in asked if each[topic])
    forms = min((held[part.topic] // part.written for part in parts if part.written), default=MOST_FORMS)
    hardness = dict(zip(DIFFICULTY, _shared_out(count, list(DIFFICULTY.values())), strict=True))
    return Blueprint(parts, hardness, max(1, min(forms, MOST_FORMS)))


def _part(topic: Topic, count: int, held: int, houses: bool) -> PaperPart:
    families = sum(family.topic == topic for family in FAMILIES.values())
    worked = min(max(1, families // 2), int(count * WORKED_SHARE + 0.5)) if houses and families else 0
    if houses and families:
        worked = max(worked, count - held)
    return PaperPart(topic, count - worked, worked)


def _shared_out(count: int, weights: Sequence[float]) -> list[int]:
    """Share a whole number out by weight: by the largest remainders, the earlier first where they tie."""
    total = sum(weights) or 1
    exact = [count * weight / total for weight in weights]
    shares = [int(share) for share in exact]
    by_remainder = sorted(range(len(exact)), key=lambda i: (round(shares[i] - exact[i], 9), i))
    for i in by_remainder[: count - sum(shares)]:
        shares[i] += 1
    return shares
