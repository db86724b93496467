"""Written questions as they are put to a learner: what a paper shows shuffled is shuffled by its seed."""

from __future__ import annotations

from trainer.chance import shuffled
from trainer.quiz.bank import ChooseOne, ChooseSeveral, Match, Number, PutInOrder, Question
from trainer.quiz.question import Amount, Asked, InOrder, OneOf, Pairs, SomeOf, Task


def asked(question: Question, seed: int = 0) -> Asked:
    """Return a written question to be asked. Choices keep the order of the file; steps and right sides don't."""
    return Asked(
        id=question.id,
        topic=question.topic,
        difficulty=question.difficulty,
        serves=question.serves,
        text=question.text,
        task=_task(question, seed),
        why=question.why,
        source=question.source,
        safety=question.safety or "",
        rules=question.rules,
    )


def _task(question: Question, seed: int) -> Task:
    match question:
        case ChooseOne():
            return OneOf(question.choices, question.right[0])
        case ChooseSeveral():
            return SomeOf(question.choices, question.right)
        case PutInOrder():
            return in_order(question.steps, seed, question.id)
        case Match():
            return pairs(question.pairs, seed, question.id)
        case Number():
            decimals = max(len(f"{question.answer:g}".partition(".")[2]), 0)
            return Amount(question.answer, question.unit, question.tolerance, decimals)


def in_order(steps: tuple[str, ...], seed: int, name: str) -> InOrder:
    """Return ``steps``, given in their right order, shuffled; never so that they stand right as shown."""
    order = shuffled(range(len(steps)), seed, name, "steps")
    if order == sorted(order):
        order = [*order[1:], order[0]]
    return InOrder(tuple(steps[i] for i in order), tuple(order.index(i) for i in range(len(steps))))


def pairs(matched: dict[str, str], seed: int, name: str) -> Pairs:
    """Return the left sides as they are and the right sides shuffled; never so that all stand right as shown.

    Left sides that share a right side share its letter.
    """
    right = tuple(matched.values())
    others = shuffled(tuple(dict.fromkeys(right)), seed, name, "right sides")
    if tuple(others) == right:
        others = [*others[1:], others[0]]
    return Pairs(tuple(matched), tuple(others), tuple(others.index(side) for side in right))
