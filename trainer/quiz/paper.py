"""Papers: the same seed the same paper, other seeds parallel forms of it.

Each topic's written questions, easy to hard, are dealt out like cards to as many forms as the blueprint has;
a seed takes the form ``seed % forms``. So papers from that many seeds in a row share no written question, and
every form gets its part of the easy ones and of the hard ones.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from trainer.chance import chance
from trainer.quiz.bank import Question
from trainer.quiz.blueprint import Blueprint, PaperPart, blueprint
from trainer.quiz.from_bank import asked
from trainer.quiz.of_rules import ABOUT_RULES, WRITTEN, about_rule, rule_of, written_again
from trainer.quiz.question import Asked, OneOf
from trainer.quiz.unit import TOPICS, Topic
from trainer.quiz.worked import FAMILIES, Subject
from trainer.words import ngettext

SEEDS = 1_000_000
"""Seeds of worked questions lie below this."""
TRIES = 4
"""Seeds tried for a worked question that is not on the paper yet."""


MODELLED = "if-it-comes-off"
"""The family that the model answers: it judges a rule too, which one its house says."""


class AskOnly(Protocol):
    """What says which questions may be asked: of a family before it is asked, and of a question."""

    def may_be_about(self, difficulty: int, rules: Iterable[str]) -> bool:
        """Whether what is so hard and about these rules may be asked."""

    def may_ask(self, question: Asked) -> bool:
        """Whether a question may be asked."""


class TooFewQuestions(ValueError):  # noqa: N818 - it is an answer about a bank, not a fault of the program
    """Raised where there are not as many questions as were asked for; says how many there are."""


@dataclass(frozen=True)
class Paper:
    """The questions of one paper, topic by topic."""

    seed: int
    questions: tuple[Asked, ...]


def make_paper(
    bank: Sequence[Question],
    subjects: Sequence[Subject] = (),
    seed: int = 0,
    count: int = 40,
    topics: Collection[Topic] = TOPICS,
    turn: int | None = None,
    only: AskOnly | None = None,
    beside: Paper | None = None,
) -> Paper:
    """Return a paper from a bank and, where there are ``subjects``, from questions worked on these houses.

    One of fewer questions than topics takes those whose ``turn`` it is; without one its seed says. Of questions that
    ``only`` lets be asked it has ``count`` at most. What the paper ``beside`` it asks comes only where nothing else is
    left.

    :raises TooFewQuestions: where bank and houses don't hold ``count`` different questions on ``topics``.
    """
    if only is not None:
        bank = [question for question in bank if only.may_ask(asked(question))]
        topics = [topic for topic in topics if any(question.topic == topic for question in bank)]
    plan = blueprint(bank, count, topics, houses=bool(subjects), turn=seed if turn is None else turn)
    chosen = _Choice(bank, subjects, seed, plan, only, beside)
    for part in plan.parts:
        chosen.take(part)
    chosen.fill(count, [part.topic for part in plan.parts])
    if beside is not None:
        chosen.beside = frozenset()
        chosen.fill(count, [part.topic for part in plan.parts])
    if len(chosen.questions) < (count if only is None else 1):
        found = len(chosen.questions)
        text = ngettext(
            "There is only {found} question for such a paper, and {count} were asked for. Ask for fewer.",
            "There are only {found} questions for such a paper, and {count} were asked for. Ask for fewer.",
            found,
        )
        raise TooFewQuestions(text.format(found=found, count=count))
    ordered = sorted(chosen.questions.values(), key=lambda q: (TOPICS.index(q.topic), q.difficulty, q.written, q.id))
    return Paper(seed, tuple(ordered))


def easy_first(paper: Paper) -> tuple[Asked, ...]:
    """Return the questions of a short paper with the easy ones first; of a longer one topic by topic, as they stand.

    Of those as easy the ones come first that are answered by a choice in plain words, and not from a house or by a sum.
    """
    if len(paper.questions) >= len(TOPICS):
        return paper.questions
    easy = sorted(paper.questions, key=lambda q: (q.difficulty, not (q.written and isinstance(q.task, OneOf))))
    return tuple(easy)


def question_again(
    id_: str, bank: Mapping[str, Question], subjects: Mapping[str, Subject], seed: int = 0
) -> Asked | None:
    """Return the question with this id: a written one, or a worked one of one of these houses; none where it's gone."""
    if id_ in bank:
        return asked(bank[id_], seed)
    name, _dot, rest = id_.partition(".")
    if name == WRITTEN:
        return written_again(id_, bank, seed)
    level, _dot, own_seed = rest.rpartition(".")
    if name in ABOUT_RULES and own_seed.isdigit():
        return about_rule(name, level, int(own_seed))
    if name not in FAMILIES or level not in subjects or not own_seed.isdigit():
        return None
    return FAMILIES[name].ask(subjects[level], int(own_seed))


def _twins(question: Asked) -> set[str]:
    """What no two questions of a paper share: their text, and of those that judge a rule on a house that rule."""
    judged = rule_of(question.id) or (question.rules[0] if question.id.startswith(f"{MODELLED}.") else "")
    return {question.text, *([f"rule {judged}"] if judged else [])}


class _Choice:
    """A paper while its questions are chosen."""

    def __init__(
        self, bank: Sequence[Question], subjects: Sequence[Subject], seed: int, plan: Blueprint,
        only: AskOnly | None, beside: Paper | None,
    ) -> None:  # fmt: skip
        self.subjects, self.seed, self.plan, self.only = subjects, seed, plan, only
        asked_there = beside.questions if beside is not None else ()
        self.beside = frozenset(twin for question in asked_there for twin in _twins(question))
        self.form = seed + (beside is not None)
        self.by_topic: dict[Topic, list[Question]] = {}
        for question in bank:
            self.by_topic.setdefault(question.topic, []).append(question)
        self.questions: dict[str, Asked] = {}
        self.texts: set[str] = set()
        self.hardness: Counter[int] = Counter()
        self.families: Counter[str] = Counter()

    def take(self, part: PaperPart) -> None:
        """Take a part's worked questions, its written ones from this form, and more written ones where houses fail."""
        want = part.written + part.worked
        worked = self._worked(part.topic)
        got = 0
        while got < part.worked and (question := next(worked, None)):
            got += self._add(question)
        pool = self._form(part.topic)
        while got < want and pool:
            got += self._add(asked(self._wanted(pool), self.seed))

    def fill(self, count: int, topics: Sequence[Topic]) -> None:
        """Make up what is missing: from houses on any of the topics, then from other forms."""
        for source in (self._worked, self._all_written):
            for topic in topics:
                for question in source(topic):
                    if len(self.questions) >= count:
                        return
                    self._add(question)

    def _add(self, question: Asked) -> bool:
        twins = _twins(question)
        if question.id in self.questions or twins & (self.texts | self.beside):
            return False
        self.questions[question.id] = question
        self.texts |= twins
        self.hardness[question.difficulty] += 1
        if not question.written:
            self.families[question.id.partition(".")[0]] += 1
        return True

    def _need(self, difficulty: int) -> int:
        """How many more of a difficulty the blueprint asks for."""
        return self.plan.hardness[difficulty] - self.hardness[difficulty]

    def _form(self, topic: Topic) -> list[Question]:
        """The part of a topic's written questions that is dealt to this form."""
        ordered = sorted(self.by_topic.get(topic, ()), key=lambda q: (q.difficulty, chance(0, "deal", q.id)))
        shift = int(chance(0, "deal", topic) * self.plan.forms)
        return [q for i, q in enumerate(ordered) if (i + shift) % self.plan.forms == self.form % self.plan.forms]

    def _wanted(self, pool: list[Question]) -> Question:
        """Take out of ``pool`` the question that the paper needs most for its difficulty."""
        best = max(pool, key=lambda q: (self._need(q.difficulty), chance(self.seed, "written", q.id)))
        pool.remove(best)
        return best

    def _all_written(self, topic: Topic) -> Iterator[Asked]:
        pool = [q for q in self.by_topic.get(topic, ()) if q.id not in self.questions]
        while pool:
            yield asked(self._wanted(pool), self.seed)

    def _worked(self, topic: Topic) -> Iterator[Asked]:
        """Worked questions on a topic: each family in turn before any comes again."""
        names = [family.name for family in FAMILIES.values() if family.topic == topic]
        # Where only a few families may ask, none of them fills a paper by itself.
        for turn in range(TRIES if self.only is None else 1):
            left = list(names)
            while left and self.subjects:
                name = max(
                    left,
                    key=lambda n: (
                        -self.families[n],
                        self._need(FAMILIES[n].difficulty) > 0,
                        chance(self.seed, "family", n, turn),
                    ),
                )
                left.remove(name)
                if question := self._ask(name, turn):
                    yield question

    def _ask(self, name: str, turn: int) -> Asked | None:
        first = int(chance(self.seed, "house", name, turn) * len(self.subjects))
        for i in range(len(self.subjects)):
            subject = self.subjects[(first + i) % len(self.subjects)]
            seed = int(chance(self.seed, "question", name, subject.level.id, turn) * SEEDS)
            if not self._may_be_about(name, seed):
                continue
            question = FAMILIES[name].ask(subject, seed)
            if question is not None and (self.only is None or self.only.may_ask(question)):
                return question
        return None

    def _may_be_about(self, name: str, seed: int) -> bool:
        """Whether a family may be asked for a seed; those that judge a rule are about the one of that seed."""
        if self.only is None:
            return True
        judged = rule_of(f"{name}.house.{seed}")
        return self.only.may_be_about(FAMILIES[name].difficulty, (judged,) if judged else FAMILIES[name].rules)
