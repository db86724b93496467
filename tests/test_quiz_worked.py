"""Worked questions: every answer worked out a second time apart from the product, and no question gives itself away."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import pytest
import quiz_checks_against  # noqa: F401 - it lists its checks, as the next six do
import quiz_checks_carrying  # noqa: F401
import quiz_checks_dutch  # noqa: F401
import quiz_checks_inside_corners  # noqa: F401
import quiz_checks_judging  # noqa: F401
import quiz_checks_measures  # noqa: F401
import quiz_checks_site  # noqa: F401
import quiz_checks_work  # noqa: F401
from attempts import layout_of, level_of
from quiz_houses import random_subject
from quiz_reading import CHECKS
from sizes import by_size

from trainer.generate import SHAPES, make_level
from trainer.quiz.bank_faults import LONGEST_SENTENCE
from trainer.quiz.judge import Verdict, judge, options, right_answer
from trainer.quiz.question import Amount, Asked
from trainer.quiz.worked import FAMILIES, Subject, subject_of
from trainer.quiz.worked.judging import JUDGING
from trainer.rules import all_rules

HOUSES = range(by_size(10, 40, 260))
LEAST = by_size(2, 4, 4)
SEEDS = 1
SHIPPED = (
    "pardalote",
    "fantail",
    "wren",
    "lorikeet",
    "bowerbird",
    "kookaburra",
    "whistler",
    "dotterel",
    "martin",
    "swallow",
    "woodswallow",
    "dollarbird",
    "jacana",
)
JUDGED = {*(each.name for each in JUDGING), "if-it-comes-off"}
WITH_DAYS = ("pardalote", "curlew", "woodswallow", "scrubwren")[: by_size(2, 4, 4)]
DAYS_EACH = by_size(1, 3, 40)


@cache
def house(seed: int) -> Subject | None:
    return random_subject(seed)


@cache
def shipped(name: str) -> Subject:
    return subject_of(level_of(name), layout_of(name))


@cache
def shipped_again(name: str) -> Subject:
    """The same house, laid out anew."""
    return subject_of(level_of(name))


@cache
def at_a_wall(seed: int) -> Subject:
    """A new house against a higher wall or round its corner, or with a gable above a lower roof."""
    shape = ("along-wall", "lean-to", "into-wall", "round-wall", "lower-room")[seed % 5]
    return subject_of(make_level(seed, SHAPES[shape].easiest, shape))


def subjects() -> list[Subject]:
    walled = (at_a_wall(seed) for seed in range(by_size(5, 15, 15)))
    return [*(s for seed in HOUSES if (s := house(seed))), *walled, *(shipped(name) for name in SHIPPED)]


@cache
def asked_of(family: str) -> list[tuple[Asked, Subject]]:
    found = []
    days = family in JUDGED  # a whole day is played for each of these
    for subject in map(shipped, WITH_DAYS) if days else subjects():
        for seed in range(DAYS_EACH if days else SEEDS):
            if question := FAMILIES[family].ask(subject, seed):
                found.append((question, subject))
    return found


def test_every_family_has_a_second_opinion() -> None:
    assert set(CHECKS) == set(FAMILIES)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_answer_stands_when_worked_out_apart(family: str) -> None:
    questions = asked_of(family)
    least = len(WITH_DAYS) - 1 if family in JUDGED else LEAST
    assert len(questions) >= least, "enough houses have something to ask about"
    for question, subject in questions:
        CHECKS[family](question, subject)


@pytest.mark.parametrize("family", FAMILIES)
def test_no_question_gives_itself_away(family: str) -> None:
    for question, _subject in asked_of(family):
        verdict = judge(question, right_answer(question))
        assert isinstance(verdict, Verdict) and verdict.right, question.text
        shown = options(question)
        assert len(set(shown)) == len(shown), (question.text, shown)
        for slip in question.slips:
            assert slip.why
            if isinstance(question.task, Amount):
                wrong = judge(question, slip.text)
                assert isinstance(wrong, Verdict) and not wrong.right and wrong.slip == slip.why, (question.text, slip)
            elif shown:
                wrong = judge(question, (shown.index(slip.text),))
                assert isinstance(wrong, Verdict) and not wrong.right and wrong.slip, (question.text, slip)


@pytest.mark.parametrize("family", FAMILIES)
def test_texts_are_plain_and_without_noise(family: str) -> None:
    for question, _subject in asked_of(family):
        # A mistake is explained in the words of its rule, which are held to plain reading where rules are.
        of_rules = family == "fault-in-diary" or family in JUDGED
        slips = [] if of_rules else [slip.why for slip in question.slips]
        working = () if of_rules else question.working
        for text in (question.text, *working, question.why, question.safety, *slips, *options(question)):
            assert not re.search(r"\d\.\d{5,}|\d\.\d*0\b(?! ÷)|\de-?\d|[{}]|nan|inf\b|-0\b|  ", text), text
            for sentence in re.split(r"(?<=[.!?])\s", text):
                words = [word for word in sentence.split() if re.search(r"[A-Za-z]", word)]
                assert len(words) <= LONGEST_SENTENCE + 5, sentence
        assert question.text.endswith((".", "?")) and question.text[0].isupper()
        assert question.working and question.why and question.source


@pytest.mark.parametrize("family", FAMILIES)
def test_the_same_seed_asks_the_same_question(family: str) -> None:
    name = WITH_DAYS[0] if family in JUDGED else SHIPPED[3]
    for seed in by_size((7,), (0, 7), (0, 7)):
        assert FAMILIES[family].ask(shipped(name), seed) == FAMILIES[family].ask(shipped_again(name), seed)


def test_other_seeds_ask_other_questions() -> None:
    subject = shipped("wren")
    worked = [family for family in FAMILIES.values() if family.name not in JUDGED]
    texts = Counter(q.text for f in worked for seed in range(6) if (q := f.ask(subject, seed)))
    assert len(texts) > 3 * len(worked)


def test_right_choices_stand_at_every_letter() -> None:
    places = Counter(
        question.task.right  # type: ignore[union-attr]
        for family in FAMILIES
        for question, _subject in asked_of(family)
        if question.kind == "choose one" and len(options(question)) == 4
    )
    share = sum(places.values()) / 4
    assert all(0.6 * share < places[i] < 1.4 * share for i in range(4)), places


def test_rules_named_by_questions_are_rules() -> None:
    named = {rule for family in FAMILIES.values() for rule in family.rules}
    named |= {rule for question, _subject in asked_of("fault-in-diary") for rule in question.rules}
    assert named <= {rule.name for rule in all_rules()}
    assert len({rule for question, _subject in asked_of("fault-in-diary") for rule in question.rules}) >= 6
