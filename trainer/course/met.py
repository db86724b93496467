"""Which questions ask only about ideas that were met: all that a short quiz asks, unless somebody asks for more.

A question is about an idea where it is about one of its rules, uses one of its words, or speaks of a truss of its kind.
Whoever begins is asked what is easy; what is harder comes with the first ideas, and the hardest after the first chapter
(easy before hard; trade of teaching).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from trainer.course.model import Course
from trainer.course.sittings import Done, Watch
from trainer.layout.model import TAG_LETTERS
from trainer.quiz.judge import options
from trainer.quiz.question import Asked, Pairs
from trainer.terms import KIND_NAMES, TrussKind

_KINDS = {letters: kind for kind, letters in TAG_LETTERS.items()}
_TAG = re.compile(r"\b([A-Z]{1,2})\d+\b")


@dataclass(frozen=True)
class Met:
    """The ideas of a course that were met: steps by their ids, and the ``hardest`` that is asked by now.

    ``by_rule`` has the steps that each rule belongs to, ``by_word`` the step of each word, in ``words`` all of them.
    """

    steps: frozenset[str]
    hardest: int
    by_rule: Mapping[str, frozenset[str]]
    by_word: Mapping[str, str]
    words: re.Pattern[str]

    def may_be_about(self, difficulty: int, rules: Iterable[str]) -> bool:
        """Whether what is so hard and about these rules may be asked; a rule of no step may be."""
        if difficulty > self.hardest:
            return False
        return all(self.by_rule[rule] & self.steps for rule in rules if rule in self.by_rule)

    def may_ask(self, question: Asked) -> bool:
        """Whether a question asks only about what was met."""
        if not self.may_be_about(question.difficulty, question.rules):
            return False
        text = " ".join(_texts(question)).casefold()
        return all(self.by_word[word] in self.steps for word in self.words.findall(text))


def met_so_far(course: Course, done: Done) -> Met:
    """Return what of a course was met by whoever has done so much of it."""
    met = frozenset(step.id for step in course.steps if done.has(Watch(step)) or step.whole in done.built)
    hardest = 3 if met >= {step.id for step in course.chapters()[0]} else 2 if met else 1
    rules = {rule for step in course.steps for rule in step.rules}
    by_rule = {rule: frozenset(step.id for step in course.steps if rule in step.rules) for rule in rules}
    by_word = {word.casefold(): step.id for step in course.steps for word in step.words}
    # The longest first: a truncated girder is no girder over an opening.
    words = re.compile("|".join(rf"\b{re.escape(word)}" for word in sorted(by_word, key=len, reverse=True)))
    return Met(met, hardest, by_rule, by_word, words)


def _texts(question: Asked) -> Iterator[str]:
    """All that is read in a question before it is answered, and what the trusses are called whose tags stand there."""
    left = question.task.left if isinstance(question.task, Pairs) else ()
    said = (question.text, *options(question), *left)
    yield from said
    yield from (KIND_NAMES[kind] for text in said for kind in kinds_in(text))


def kinds_in(text: str) -> Iterator[TrussKind]:
    """Yield the kinds of the trusses whose tags stand in a text."""
    return (_KINDS[letters] for letters in _TAG.findall(text) if letters in _KINDS)
