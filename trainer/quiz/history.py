"""What a learner has met so far, folded into cards: every answer, every mistake made on a roof, every drill.

A mistake makes a card of its rule, which comes back as a question about that rule. From then on every answer to one,
and every drill on it, moves the card; a wrong sum makes a card of the sum alone. Worked questions share a card by their
family: the same kind of sum comes back on another house, not the same figures. Times are UTC and passed in; nothing
here knows what day it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from trainer.chance import chance, pick, shuffled
from trainer.quiz.bank import Question
from trainer.quiz.from_bank import asked
from trainer.quiz.of_rules import ABOUT_RULES, about_rule, judged_rule, rule_of, written_about
from trainer.quiz.paper import SEEDS
from trainer.quiz.question import Asked
from trainer.quiz.review import (
    FAMILY,
    QUESTION,
    RULE,
    Card,
    Rating,
    new_card,
    rating_of,
    reviewed,
)
from trainer.quiz.worked import FAMILIES, Subject
from trainer.rules import all_rules
from trainer.terms import SEVERITIES

DRAWN_ANEW = 4
"""So many times a question is drawn for a card, where it has been asked about another already."""
JUDGED_SHARE = 0.7
"""Share of questions about a rule that ask for judgement, where a house has room for it; the rest ask its texts."""


@dataclass(frozen=True, slots=True)
class Seen:
    """One meeting with what the card ``name`` is about, and how it went."""

    name: str
    when: datetime
    rating: Rating
    asked: bool = False
    """Whether it was an answer to a question, and not something done."""


def of_answer(question: str, right: bool, hinted: bool, when: datetime) -> tuple[Seen, ...]:
    """Return what an answer to the question with this id says: of its own card, or of the rule that it is about."""
    rating = rating_of(right, hinted)
    name, worked, _rest = question.partition(".")
    if rule := rule_of(question):
        return (Seen(f"{RULE} {rule}", when, rating, asked=True),)
    return (Seen(f"{FAMILY if worked else QUESTION} {name}", when, rating, asked=True),)


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
    """Fold a history, oldest first, into its cards by name. A rule has none until it was got wrong or asked about."""
    found: dict[str, Card] = {}
    for seen in history:
        card = found.get(seen.name)
        if card is None:
            if seen.rating != "again" and not seen.asked and seen.name.startswith(f"{RULE} "):
                continue
            card = new_card(seen.name, seen.when)
        found[seen.name] = reviewed(card, seen.rating, seen.when)
    return found


def question_for(card: Card, bank: Sequence[Question], subjects: Sequence[Subject], seed: int) -> Asked | None:
    """Return a question on what a card is about, for one of these houses; none where there is nothing to ask."""
    kind, name = card.about
    if kind == QUESTION:
        return next((asked(question, seed) for question in bank if question.id == name), None)
    if kind == RULE:
        own_seed = int(chance(seed, "due", name) * SEEDS)
        asks = None
        if chance(seed, "judged", name) < JUDGED_SHARE:
            asks = judged_rule(name, subjects, own_seed) or written_about(name, bank, seed)
        return asks or about_rule(pick(ABOUT_RULES, seed, "form", name), name, own_seed)
    return next(_worked(name, subjects, seed), None)


def due_questions(
    due: Iterable[Card], bank: Sequence[Question], subjects: Sequence[Subject], seed: int, count: int
) -> tuple[Asked, ...]:
    """Return up to ``count`` different questions for cards that are due.

    Those about mistakes come first, the most serious before all; else they are in the order of the cards.
    """
    found: dict[str, Asked] = {}
    for card in sorted(due, key=seriousness):
        if len(found) == count:
            break
        # Two rules can share a written question: it is asked once, and the other card is drawn for anew.
        drawn = (question_for(card, bank, subjects, seed + n) for n in range(DRAWN_ANEW))
        question = next((each for each in drawn if each is not None and each.text not in found), None)
        if question is not None:
            found[question.text] = question
    return tuple(found.values())


def seriousness(card: Card) -> int:
    """The place of a card's rule among the severities; after them what is about no rule."""
    kind, name = card.about
    severity = next((rule.severity for rule in all_rules() if rule.name == name), None) if kind == RULE else None
    return SEVERITIES.index(severity) if severity else len(SEVERITIES)


def _worked(family: str, subjects: Sequence[Subject], seed: int) -> Iterator[Asked]:
    own_seed = int(chance(seed, "due", family) * SEEDS)
    for subject in shuffled(subjects, seed, "houses of a card", family) if family in FAMILIES else ():
        if question := FAMILIES[family].ask(subject, own_seed):
            yield question
