"""Fair questions: no family answers itself, no twins on a paper, every topic in its turn, hints that do not tell."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import pytest
from attempts import SHIPPED, level_of
from quiz_reading import CHECKS
from sizes import by_size
from test_quiz_worked import shipped  # it lists the checks

from trainer.quiz.bank import parse_bank
from trainer.quiz.from_bank import asked
from trainer.quiz.judge import answer_text, right_answer
from trainer.quiz.paper import easy_first, make_paper
from trainer.quiz.question import Asked, InOrder, OneOf, Pairs, PointAt, SomeOf, SpotFault
from trainer.quiz.rule_kin import words_of
from trainer.quiz.sitting import hint_of
from trainer.quiz.unit import TOPICS
from trainer.quiz.worked import FAMILIES, Subject, subject_of
from trainer.quiz.worked.judging import JUDGING, RuleFamily
from trainer.shipped import bank_paths

BANK = tuple(question for path in bank_paths() for question in parse_bank(path.read_bytes(), path.name))
JUDGED = {*(family.name for family in JUDGING), "if-it-comes-off"}
MEASURED = sorted(set(FAMILIES) - JUDGED)
LARGEST = 100
SEEDS = range(by_size(1, 4, 12))
FEWEST = 24
"""Draws of a family from which its answers are counted."""
TWO = frozenset(("plate-reading", "over-an-inside-wall", "tied-to-the-wall"))
"""Families with two answers: each may be right in 40 to 60 of a hundred draws."""


@cache
def houses() -> tuple[Subject, ...]:
    found = (subject_of(level_of(name)) for name in SHIPPED)
    return tuple(subject for subject in found if len(subject.layout.members) <= LARGEST)


def answer_in_words(question: Asked) -> str:
    """What is right, wherever it stands among the choices."""
    match question.task:
        case OneOf(choices=choices, right=right):
            return choices[right]
        case SomeOf(choices=choices, right=right):
            return "; ".join(sorted(choices[i] for i in right))
        case _:
            return answer_text(question, right_answer(question))


@pytest.mark.parametrize("family", MEASURED)
def test_no_family_has_one_answer_in_more_than_half_of_its_draws(family: str) -> None:
    drawn = [q for subject in houses() for seed in SEEDS if (q := FAMILIES[family].ask(subject, seed))]
    found = Counter(answer_in_words(question) for question in drawn)
    if len(drawn) >= FEWEST:
        most = 0.6 + 0.1 * (len(SEEDS) == 1) if family in TWO else 0.5 + 0.1 * (len(SEEDS) == 1)
        assert max(found.values()) <= most * len(drawn), found.most_common(3)


@pytest.mark.parametrize("family", JUDGING, ids=lambda family: family.name)
def test_questions_of_judgement_give_no_answer_away(family: RuleFamily) -> None:
    drawn = [q for name in ("pardalote", "curlew") for seed in range(by_size(1, 40, 120))
             if (q := family.ask(shipped(name), seed * 7))]  # fmt: skip
    fine, cue = 0.0, 0.0
    for question in drawn:
        assert isinstance(question.task, OneOf) and len(question.task.choices) == 4
        right = question.task.choices[question.task.right]
        fine += right.startswith(("Nothing", "Crew 1"))
        words = words_of(question.text)
        common = [len(words_of(choice) & words) for choice in question.task.choices]
        most = [n for n, count in enumerate(common) if count == max(common)]
        cue += (question.task.right in most) / len(most)
        assert hint_of(question) and not any(part in hint_of(question) for part in question.working)
    if len(drawn) >= FEWEST:
        assert 0.2 < fine / len(drawn) < 0.8
        assert cue / len(drawn) < 0.35, "a quarter is chance"


def test_a_hundred_and_fifty_moments_and_more_are_asked_about() -> None:
    """Each is one rule broken on one house; both forms ask about it."""
    found = set()
    for family in JUDGING:
        for name in ("pardalote", "woodswallow", "curlew", "scrubwren")[: by_size(1, 3, 4)]:
            for rule in family.judged[:: by_size(3, 1, 1)]:
                if (question := family.ask_about(rule, shipped(name), 1)) is not None:
                    assert question.rules == (rule,)
                    found.add((family.name, rule, name))
    assert len(found) >= by_size(18, 180, 250)


def test_a_hint_helps_and_does_not_tell() -> None:
    for written in BANK:
        question = asked(written, 3)
        hint = hint_of(question)
        match question.task:
            case OneOf(choices=choices, right=right):
                assert hint and f"“{choices[right]}”" not in hint, written.id
            case SomeOf(choices=choices, right=right):
                assert hint and not any(f"“{choices[i]}”" in hint for i in right), written.id
            case InOrder() | Pairs():
                assert hint, written.id


@pytest.mark.parametrize("family", MEASURED)
def test_the_hint_of_a_family_does_not_hold_its_answer(family: str) -> None:
    for subject in houses()[:12]:
        question = FAMILIES[family].ask(subject, 1)
        if question is None or not (hint := hint_of(question)):
            continue
        if isinstance(question.task, OneOf | SomeOf | PointAt | SpotFault):
            right = answer_in_words(question)
            assert right[0].isdigit() or right not in hint, (right, hint)


def test_six_default_quizzes_ask_about_every_topic() -> None:
    for first in by_size((5,), (0, 5, 11), (0, 5, 11)):
        topics = {
            question.topic
            for turn in range(first, first + 6)
            for question in make_paper(BANK, [shipped("wren")], 1000 + turn, 10, turn=turn).questions
        }
        assert topics == set(TOPICS)


def test_a_short_quiz_starts_easy() -> None:
    questions = easy_first(make_paper(BANK, [shipped("pardalote")], 3, 10))
    assert [question.difficulty for question in questions] == sorted(question.difficulty for question in questions)
    assert questions[0].written and isinstance(questions[0].task, OneOf), "a choice in words, and no sum"


def test_no_family_stands_on_every_paper() -> None:
    papers = [make_paper(BANK, [shipped("wren")], seed, 40) for seed in range(by_size(3, 10, 24))]
    stands = Counter(name for paper in papers for name in {q.id.partition(".")[0] for q in paper.questions if q.level})
    assert max(stands.values()) < len(papers), stands.most_common(3)


def test_worked_questions_are_right_and_none_stands_twice_on_a_paper() -> None:
    """Thousands of them, each worked out apart; 20,000 and more by hand before a release."""
    asked_so_far = 0
    for seed in range(by_size(2, 12, 1290)):
        subject = houses()[seed % len(houses())]
        questions = make_paper(BANK, [subject], seed, 40).questions
        assert len({q.id for q in questions}) == len({q.text for q in questions}) == 40
        rules = [q.rules for q in questions if q.id.partition(".")[0] in JUDGED]
        assert len(set(rules)) == len(rules), "no rule is judged twice"
        for question in questions:
            if question.level:
                CHECKS[question.id.partition(".")[0]](question, subject)
                asked_so_far += 1
    assert asked_so_far >= by_size(10, 120, 20_000)


def test_choices_of_a_written_question_stand_elsewhere_under_another_seed() -> None:
    places = Counter()
    for written in BANK[:120]:
        for seed in (1, 2, 3):
            question = asked(written, seed)
            if isinstance(question.task, OneOf) and not re.match(r"\d", question.task.choices[0]):
                places[question.task.right] += 1
    assert set(places) >= {0, 1, 2, 3} and max(places.values()) < 0.4 * sum(places.values())
