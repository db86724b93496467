"""When a question or a mistake comes back: spaced review by ``fsrs``, pure functions of card, rating and time.

Wrong is *again*, right is *good*, right after a hint is *hard*; *easy* is never given. How long an answer took
plays no part: that would punish slow readers. Nothing is scheduled in an assessment.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Literal

from fsrs import Card as FsrsCard
from fsrs import Rating as FsrsRating
from fsrs import Scheduler
from fsrs import State as FsrsState

Rating = Literal["again", "hard", "good"]
_RATINGS: Mapping[Rating, FsrsRating] = {"again": FsrsRating.Again, "hard": FsrsRating.Hard, "good": FsrsRating.Good}
RETENTION = 0.9
"""Share of cards that are to be remembered when they come back."""
LONGEST_DAYS = 30
"""A card comes back after so many days at most."""
RULE, QUESTION, FAMILY = "rule", "question", "family"


@dataclass(frozen=True, slots=True)
class Card:
    """Something to come back to: ``name`` is ``question ID``, ``family NAME`` or ``rule NAME``. Times are UTC."""

    name: str
    due: datetime
    state: int = 1
    step: int | None = 0
    stability: float | None = None
    difficulty: float | None = None
    last_review: datetime | None = None

    @property
    def about(self) -> tuple[str, str]:
        """(kind, id): a question's id, or the name of a family of worked questions or of a rule."""
        kind, _space, name = self.name.partition(" ")
        return kind, name


def rating_of(right: bool, hinted: bool = False) -> Rating:
    """Return how an answer rates."""
    return "again" if not right else "hard" if hinted else "good"


def new_card(name: str, now: datetime) -> Card:
    """Return a card that is due at once; ``now`` must be in UTC."""
    return Card(name, _utc(now))


def reviewed(card: Card, rating: Rating, now: datetime) -> Card:
    """Return the card after a review at ``now`` (UTC); the same card, rating and time always give the same."""
    scheduler = Scheduler(desired_retention=RETENTION, enable_fuzzing=False, maximum_interval=LONGEST_DAYS)
    after, _log = scheduler.review_card(_to_fsrs(card), _RATINGS[rating], _utc(now))
    return Card(
        card.name, after.due, int(after.state), after.step, after.stability, after.difficulty, after.last_review
    )


def due(cards: Iterable[Card], now: datetime) -> tuple[Card, ...]:
    """Return the cards that are due at ``now``, the longest overdue first."""
    return tuple(sorted((card for card in cards if card.due <= _utc(now)), key=lambda card: (card.due, card.name)))


def _to_fsrs(card: Card) -> FsrsCard:
    number = int.from_bytes(hashlib.sha256(card.name.encode()).digest()[:6], "big")
    return FsrsCard(
        card_id=number, state=FsrsState(card.state), step=card.step, stability=card.stability,
        difficulty=card.difficulty, due=card.due, last_review=card.last_review,
    )  # fmt: skip


def _utc(moment: datetime) -> datetime:
    if moment.tzinfo is None:
        raise ValueError("times must say that they are in UTC")
    return moment.astimezone(UTC)
