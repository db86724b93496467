"""Written questions as they are put to a learner: choices, steps and right sides shuffled by a paper's seed."""

from __future__ import annotations

from dataclasses import replace

from trainer.chance import shuffled
from trainer.quiz.bank import LETTERS, ChooseOne, ChooseSeveral, Match, Number, PutInOrder, Question
from trainer.quiz.question import Amount, Asked, InOrder, OneOf, Pairs, Slip, SomeOf, Task


def asked(question: Question, seed: int = 0) -> Asked:
    """Return a written question to be asked, shuffled by ``seed``; choices that are all numbers keep their order."""
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
        slips=_slips(question),
        hint=question.hint or "",
        rules=question.rules,
    )


def _slips(question: Question) -> tuple[Slip, ...]:
    if not isinstance(question, ChooseOne | ChooseSeveral):
        return ()
    return tuple(Slip(question.choices[LETTERS.index(letter)], why) for letter, why in question.why_not.items())


def _task(question: Question, seed: int) -> Task:
    match question:
        case ChooseOne() | ChooseSeveral():
            order = _order_of_choices(question, seed)
            choices = tuple(question.choices[i] for i in order)
            right = tuple(sorted(order.index(i) for i in question.right))
            return OneOf(choices, right[0]) if isinstance(question, ChooseOne) else SomeOf(choices, right)
        case PutInOrder():
            return in_order(question.steps, seed, question.id)
        case Match():
            return pairs(question.pairs, seed, question.id)
        case Number():
            decimals = max(len(f"{question.answer:g}".partition(".")[2]), 0)
            return Amount(question.answer, question.unit, question.tolerance, decimals)


def _order_of_choices(question: ChooseOne | ChooseSeveral, seed: int) -> list[int]:
    """Indices of the choices as they are shown; numbers stay in their order."""
    indices = range(len(question.choices))
    if all(choice[0].isdigit() for choice in question.choices):
        return list(indices)
    return shuffled(indices, seed, question.id, "choices")


def reshuffled(question: Asked, code: str) -> Asked:
    """Return a question with its choices in the order of a code name; numbers stay in their order."""
    task = question.task
    if not isinstance(task, OneOf | SomeOf) or all(choice[0].isdigit() for choice in task.choices):
        return question
    order = shuffled(range(len(task.choices)), 0, question.id, "choices of", code)
    choices = tuple(task.choices[i] for i in order)
    if isinstance(task, OneOf):
        return replace(question, task=OneOf(choices, order.index(task.right)))
    return replace(question, task=SomeOf(choices, tuple(sorted(order.index(i) for i in task.right))))


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
