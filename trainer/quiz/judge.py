"""Whether an answer is right: read as typed, judged, and a known mistake named."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.plan import Point
from trainer.quiz.measure import TypedNumber, Unclear, amount, read_measure
from trainer.quiz.question import (
    Amount,
    Answer,
    Asked,
    InOrder,
    LabelledPlace,
    OneOf,
    Pairs,
    PointAt,
    SomeOf,
    SpotFault,
)
from trainer.words import _, ngettext

LETTERS = "ABCDEFGHIJKLMNOPQRST"
"""Names of choices, steps, lines and places, in their order."""
ROUNDING = 1e-6
"""What a typed number may be off its tolerance by for want of exact fractions."""
_TOKENS = re.compile(r"[^\s,;:./()>-]+")


@dataclass(frozen=True, slots=True)
class Verdict:
    """What became of an answer. ``understood`` gives it back; ``slip`` names the mistake behind it, where known."""

    right: bool
    understood: str
    slip: str = ""


def judge(asked: Asked, answer: Answer) -> Verdict | Unclear:
    """Judge an answer; one that can't be read, or that can't be an answer to this question, is unclear, not wrong."""
    task = asked.task
    if isinstance(task, Amount):
        if not isinstance(answer, str):
            return Unclear(_("Type a number."))
        read = read_measure(answer, task.unit)
        return read if isinstance(read, Unclear) else _judge_amount(asked, task, read)
    chosen = _read_letters(asked, answer) if isinstance(answer, str) else answer
    if isinstance(chosen, Unclear):
        return chosen
    if unclear := _unfit(asked, chosen):
        return unclear
    given = tuple(sorted(chosen)) if isinstance(task, SomeOf) else chosen
    return Verdict(given == right_answer(asked), answer_text(asked, given), _slip(asked, given))


def option_names(asked: Asked) -> Sequence[str]:
    """Return what the options of a question are called, in their order: places by number, anything else by letter."""
    return tuple(place.label for place in asked.task.places) if isinstance(asked.task, PointAt) else LETTERS


def right_answer(asked: Asked) -> Answer:
    """Return the answer that is right, as a learner would give it."""
    match asked.task:
        case OneOf() | PointAt() | SpotFault() as task:
            return (task.right,)
        case SomeOf() | InOrder() | Pairs() as task:
            return task.right
        case Amount() as task:
            return amount(task.value, task.unit, task.decimals)


def answer_text(asked: Asked, answer: Answer) -> str:
    """Return an answer in words."""
    if isinstance(answer, str):
        return answer
    match asked.task:
        case InOrder(steps=steps):
            return _("; then ").join(steps[i] for i in answer)
        case Pairs(left=left, others=others):
            return "; ".join(f"{a}: {others[i]}" for a, i in zip(left, answer, strict=True))
        case _:
            texts, names = options(asked), option_names(asked)
            return "; ".join(f"{names[i]}, {texts[i]}" for i in answer)


def options(asked: Asked) -> tuple[str, ...]:
    """Return what is chosen from or ordered, in the order of its letters; nothing where a number is asked for."""
    match asked.task:
        case OneOf(choices=texts) | SomeOf(choices=texts) | InOrder(steps=texts) | SpotFault(lines=texts):
            return texts
        case Pairs(others=texts):
            return texts
        case PointAt(places=places):
            return tuple(place.words for place in places)
        case Amount():
            return ()


def read_answer(asked: Asked, text: str) -> Answer | Unclear:
    """Read an answer as typed: letters for choices, places, lines and steps; ``1C 2A 3B`` or ``C A B`` for a match."""
    if isinstance(asked.task, Amount):
        read = read_measure(text, asked.task.unit)
        return read if isinstance(read, Unclear) else text
    return _read_letters(asked, text)


def _read_letters(asked: Asked, text: str) -> tuple[int, ...] | Unclear:
    task, count = asked.task, len(options(asked))
    words = _TOKENS.findall(text.upper())
    if isinstance(task, Pairs):
        return _read_match(words, len(task.left), count)
    if len(words) == 1 and len(words[0]) > 1 and not isinstance(task, OneOf | PointAt | SpotFault):
        words = list(words[0])
    if isinstance(task, PointAt):  # a place may be called by the letter of its row in the list as well
        words = [LETTERS[int(word) - 1] if word in option_names(asked) else word for word in words]
    letters = [_index(word, count) for word in words]
    if not letters or None in letters:
        return Unclear(_none_of(asked, count))
    answer = tuple(i for i in letters if i is not None)
    return _unfit(asked, answer) or answer


def nearest_place(places: Sequence[LabelledPlace], at: Point, within: float) -> int | None:
    """Return the index of the place nearest to a plan point, none where all are further than ``within`` mm."""
    found = min(range(len(places)), key=lambda i: math.dist(places[i].at, at), default=None)
    return found if found is not None and math.dist(places[found].at, at) <= within else None


def _unfit(asked: Asked, answer: tuple[int, ...]) -> Unclear | None:
    """Say why indices can't be an answer to this question, or none."""
    task, count = asked.task, len(options(asked))
    why = ""
    if any(i not in range(count) for i in answer):
        why = _none_of(asked, count)
    elif isinstance(task, OneOf | PointAt | SpotFault) and len(answer) != 1:
        why = _("Choose one.")
    elif isinstance(task, SomeOf) and not answer:
        why = _("Choose one or more.")
    elif isinstance(task, Pairs) and len(answer) != len(task.left):
        why = _("Give a letter for each number from 1 to {count}.").format(count=len(task.left))
    elif not isinstance(task, Pairs) and len(set(answer)) < len(answer):
        why = _("Name each of them once.")
    elif isinstance(task, InOrder) and len(answer) != count:
        why = ngettext("Name all {n}, the first one first.", "Name all {n}, the first one first.", count).format(
            n=count
        )
    return Unclear(why) if why else None


def _none_of(asked: Asked, count: int) -> str:
    if isinstance(asked.task, PointAt):
        return _("Type a number from 1 to {last}.").format(last=count)
    return _("Type letters from A to {last}.").format(last=LETTERS[count - 1])


def _read_match(words: list[str], left: int, others: int) -> tuple[int, ...] | Unclear:
    """Read ``1C 2A 3B``, ``1 C 2 A 3 B`` or, in the order of the left sides, ``C A B``."""
    flat = re.findall(r"[0-9]+|[A-Z]", " ".join(words))
    numbers = [int(word) for word in flat if word.isdigit()]
    letters = [_index(word, others) for word in flat if not word.isdigit()]
    want = Unclear(_("Give a letter for each number, such as 1C 2A 3B."))
    if len(letters) != left or None in letters or (numbers and sorted(numbers) != list(range(1, left + 1))):
        return want
    if numbers and [word.isdigit() for word in flat] != [True, False] * left:
        return want
    by_number = dict(zip(numbers or range(1, left + 1), letters, strict=True))
    return tuple(i for n in range(1, left + 1) if (i := by_number[n]) is not None)


def _index(word: str, count: int) -> int | None:
    index = LETTERS.find(word) if len(word) == 1 else -1
    return index if 0 <= index < count else None


def _judge_amount(asked: Asked, task: Amount, read: TypedNumber) -> Verdict:
    near = task.tolerance + ROUNDING
    if abs(read.value - task.value) <= near:
        return Verdict(True, read.said)
    slip = next((s.why for s in asked.slips if s.value is not None and abs(read.value - s.value) <= near), "")
    if not read.with_unit and task.unit == "mm" and abs(read.value * 1000 - task.value) <= near:
        slip = _("That number would be right in metres. Write the unit with it, or give millimetres.")
    return Verdict(False, read.said, slip)


def _slip(asked: Asked, answer: tuple[int, ...]) -> str:
    """The mistakes behind the wrong ones among what was chosen."""
    if not isinstance(asked.task, OneOf | SomeOf | PointAt | SpotFault):
        return ""
    texts = options(asked)
    known = {slip.text: slip.why for slip in asked.slips}
    return " ".join(dict.fromkeys(known[texts[i]] for i in answer if texts[i] in known))
