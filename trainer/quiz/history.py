"""What a learner has met so far, folded into cards: every answer, every mistake made on a roof, every drill.

A mistake makes a card of its rule, and so does a wrong answer to a question about what that rule judges. From then
on every answer and every drill about it moves the card. Worked questions share a card by their family: the same kind
of sum comes back on another house, not the same figures. Times are UTC and passed in; nothing here knows what day it
is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from trainer.chance import chance, shuffled
from trainer.quiz.bank import Question
from trainer.quiz.from_bank import asked
from trainer.quiz.paper import SEEDS
from trainer.quiz.question import Asked
from trainer.quiz.review import (
    FAMILY,
    QUESTION,
    RULE,
    TOPIC_OF,
    Card,
    Rating,
    families_of,
    new_card,
    rating_of,
    reviewed,
)
from trainer.quiz.worked import FAMILIES, Subject
from trainer.rules import all_rules


@dataclass(frozen=True, slots=True)
class Seen:
    """One meeting with what the card ``name`` is about, and how it went."""

    name: str
    when: datetime
    rating: Rating


def of_answer(question: str, right: bool, hinted: bool, when: datetime) -> tuple[Seen, ...]:
    """Return what an answer to the question with this id says of its own card, and of rules about the same."""
    rating = rating_of(right, hinted)
    name, worked, _rest = question.partition(".")
    rules = FAMILIES[name].rules if name in FAMILIES else ()
    own = f"{FAMILY if worked else QUESTION} {name}"
    return tuple(Seen(each, when, rating) for each in (own, *(f"{RULE} {rule}" for rule in rules)))


def of_mistakes(rules: Iterable[str], when: datetime) -> tuple[Seen, ...]:
    """Return what an attempt on a roof says: each rule that was broken in it, once."""
    return tuple(Seen(f"{RULE} {rule}", when, "again") for rule in dict.fromkeys(rules))


def of_drill(
    rules: Iterable[str], broken: Iterable[str], right: bool, hinted: bool, when: datetime
) -> tuple[Seen, ...]:
    """Return what a drill on ``rules`` says: those broken in it, and, where it went right, the others that it is on."""
    wrong = of_mistakes(broken, when)
    mistaken = {seen.name for seen in wrong}
    rating = rating_of(right, hinted)
    practised = (Seen(f"{RULE} {rule}", when, rating) for rule in dict.fromkeys(rules)) if right else ()
    return (*wrong, *(seen for seen in practised if seen.name not in mistaken))


def cards(history: Iterable[Seen]) -> dict[str, Card]:
    """Fold a history, oldest first, into its cards by name. A rule has none until it was got wrong once."""
    found: dict[str, Card] = {}
    for seen in history:
        card = found.get(seen.name)
        if card is None:
            if seen.rating != "again" and seen.name.startswith(f"{RULE} "):
                continue
            card = new_card(seen.name, seen.when)
        found[seen.name] = reviewed(card, seen.rating, seen.when)
    return found


def question_for(card: Card, bank: Sequence[Question], subjects: Sequence[Subject], seed: int) -> Asked | None:
    """Return a question on what a card is about, for one of these houses; none where there is nothing to ask."""
    kind, name = card.about
    if kind == QUESTION:
        return next((asked(question, seed) for question in bank if question.id == name), None)
    families = (name,) if kind == FAMILY else families_of(name)
    return next(_worked(families, subjects, seed), None) or (_written_on(name, bank, seed) if kind == RULE else None)


def due_questions(
    due: Iterable[Card], bank: Sequence[Question], subjects: Sequence[Subject], seed: int, count: int
) -> tuple[Asked, ...]:
    """Return up to ``count`` different questions for cards that are due, in the order of the cards."""
    found: dict[str, Asked] = {}
    for card in due:
        if len(found) == count:
            break
        question = question_for(card, bank, subjects, seed)
        if question is not None:
            found.setdefault(question.id, question)
    return tuple(found.values())


def _worked(families: Sequence[str], subjects: Sequence[Subject], seed: int) -> Iterator[Asked]:
    for name in shuffled([name for name in families if name in FAMILIES], seed, "families of a card"):
        own_seed = int(chance(seed, "due", name) * SEEDS)
        for subject in shuffled(subjects, seed, "houses of a card", name):
            if question := FAMILIES[name].ask(subject, own_seed):
                yield question


def _written_on(rule: str, bank: Sequence[Question], seed: int) -> Asked | None:
    """A written question about the rule itself; where there is none, on the topic of its stage."""
    topics: Mapping[str, str] = {each.name: TOPIC_OF[each.stage] for each in all_rules()}
    about = [q for q in bank if rule in q.rules] or [q for q in bank if q.topic == topics.get(rule)]
    chosen = shuffled(about, seed, "written on a rule", rule)
    return asked(chosen[0], seed) if chosen else None
