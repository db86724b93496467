"""From what a learner chooses to a quiz that is kept: its questions, its houses, and where its answers go."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from typing import TYPE_CHECKING

from trainer.board.quizzing import Keep, Quizzing
from trainer.course import Done, Watch, met_so_far
from trainer.course.today import ORDER_REASONS, LastHouse, Today
from trainer.layout import LayoutRefused
from trainer.level import parse_level
from trainer.quiz.bank import Question, parse_bank
from trainer.quiz.from_bank import asked as written
from trainer.quiz.history import cards, due_questions, question_for
from trainer.quiz.of_rules import WHY, about_rule, house_of
from trainer.quiz.paper import SEEDS, TooFewQuestions, easy_first, make_paper, question_again
from trainer.quiz.question import Asked
from trainer.quiz.review import RULE, Card, due
from trainer.quiz.sitting import Given, Sitting
from trainer.quiz.unit import TOPICS, Topic
from trainer.quiz.worked import FAMILIES, Subject, subject_of
from trainer.read import Faulty
from trainer.records.answers import given_again, history
from trainer.records.course import course_done
from trainer.records.quizzing import OpenQuiz, paper_of, quizzes_answered, unfinished_quizzes
from trainer.shipped import bank_paths, find_level, style_texts
from trainer.shipped.course import course
from trainer.terms import Mode
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.library import HouseEntry, Library
    from trainer.records.attempt import Attempt
    from trainer.records.seat import Seat

DUE = "due"
"""What a learner chooses for what has come back."""
ALL = "all"
"""And for questions on everything."""
HOUSES_ASKED_ON = 6
"""A review is about so many houses that were met, at most."""
REASONS_TRIED = 6
"""Reasons of an order that are drawn, so that two of them differ."""


@dataclass(frozen=True)
class Wish:
    """What a learner chose: ``about`` is :data:`DUE`, :data:`ALL` or a topic.

    Of :data:`ALL` only ideas of the course that were met are asked about, unless it is to be on ``everything``.
    """

    about: str
    entry: HouseEntry
    count: int
    mode: Mode
    seed: int
    everything: bool = False


@lru_cache(1)
def bank() -> tuple[Question, ...]:
    """Read the shipped bank, once; a faulty shipped file is a fault of the program."""
    return tuple(q for path in bank_paths() for q in parse_bank(path.read_bytes(), str(path)))


def due_now(seat: Seat | None) -> tuple[Card, ...]:
    """Return what has come back for who works here, the longest overdue first."""
    if seat is None:
        return ()
    return due(cards(history(seat.store, seat.code)).values(), datetime.fromtimestamp(seat.clock() / 1000, UTC))


def begin_quiz(wish: Wish, seat: Seat | None) -> Quizzing:
    """Make the quiz that was wished for; ``seat`` keeps its answers, and without one nothing is kept.

    :raises LayoutRefused: where the house can't be laid out.
    :raises TooFewQuestions: where there is nothing to ask.
    """
    subject = subject_of(wish.entry.level)
    subjects = {subject.level.id: subject}
    asked: Sequence[Asked]
    if wish.about == DUE:
        waiting = due_now(seat)
        asked = due_questions(waiting, bank(), [subject], wish.seed, wish.count)
        if not asked:  # this house has nothing of the kind that has come back
            other = _with_most_kinds()
            subjects[other.level.id] = other
            asked = due_questions(waiting, bank(), [other], wish.seed, wish.count)
    else:
        topics: Sequence[Topic] = TOPICS if wish.about == ALL else [t for t in TOPICS if t == wish.about]
        turn = quizzes_answered(seat) if seat is not None else wish.seed
        only = None if wish.everything or wish.about != ALL else met_so_far(course(), _done(seat))
        asked = easy_first(make_paper(bank(), [subject], wish.seed, wish.count, topics, turn, only))
    if not asked:
        raise TooFewQuestions(_("Nothing is due now. Come back another day, or choose a topic."))
    return _quiz_of(asked, subjects, f"quiz {subject.level.id}", wish.seed, wish.mode, seat)


def _done(seat: Seat | None) -> Done:
    """What of the course is done by who works here, so far as it says which ideas were met."""
    return Done() if seat is None else course_done(seat, lambda _house: 0)


def quiz_on_cards(waiting: Sequence[Card], seed: int, seat: Seat | None) -> Quizzing | None:
    """Make a quiz of a question for each card; none where there is nothing to ask.

    About rules it asks on houses of the course that were met, so that nobody's second day is about hips and girders.
    """
    done = _done(seat)
    met, most = _houses_met(done), [_with_most_kinds()]
    on_rules = [card for card in waiting if card.about[0] == RULE]
    known, rules = met_so_far(course(), done), {card.about[1] for card in on_rules}
    plain = [each for each in bank() if rules & set(each.rules) and known.may_ask(written(each, seed))]
    others = [card for card in waiting if card.about[0] != RULE]
    found = (question_for(card, bank(), met, seed) or question_for(card, bank(), most, seed) for card in others)
    asked = (
        *due_questions(on_rules, plain, met, seed, len(on_rules)),
        *{question.id: question for question in found if question is not None}.values(),
    )
    on = {house_of(question.id) for question in asked}
    subjects = {subject.level.id: subject for subject in (*met, *most) if subject.level.id in on}
    return _quiz_of(asked, subjects, "today", seed, "practice", seat) if asked else None


def _houses_met(done: Done) -> list[Subject]:
    """Houses on which ideas of the course were watched, or that were built, the latest; the first where none was."""
    steps = course().steps
    met = [step.watch for step in steps if done.has(Watch(step))]
    built = [step.whole for step in steps if step.whole in done.built]
    latest = list(dict.fromkeys((*met, *built)))[-HOUSES_ASKED_ON:]
    return [_shipped(house) for house in latest or [steps[0].watch]]


def quiz_on_rules(rules: Sequence[str], seed: int, seat: Seat | None, form: str) -> Quizzing | None:
    """Make a quiz on these rules, in one of the forms; none where there are none."""
    found = (about_rule(form, rule, seed % SEEDS) for rule in rules)
    asked = [question for question in found if question is not None]
    return _quiz_of(asked, {}, form, seed, "practice", seat) if asked else None


def quiz_on_why(plan: Today, seed: int, seat: Seat | None) -> Quizzing | None:
    """Make the quiz on why of a day; on the reasons of its order where nothing was found in the house built last."""
    asked = [question for rule in plan.why if (question := about_rule(WHY, rule, seed % SEEDS)) is not None]
    subjects: dict[str, Subject] = {}
    if plan.built is not None and not plan.built.broken and (own := reasons_of(plan.built, seed)) is not None:
        subject, reasons = own
        subjects, asked = {subject.level.id: subject}, [*reasons, *asked][: max(1, len(plan.why))]
    return _quiz_of(asked, subjects, WHY, seed, "practice", seat) if asked else None


def reasons_of(last: LastHouse, seed: int) -> tuple[Subject, list[Asked]] | None:
    """Return the house that was built last and questions on the reasons of its order; None where it has none."""
    try:
        subject = subject_of(parse_level(last.text, last.level))
    except (Faulty, LayoutRefused):
        return None
    drawn = (FAMILIES[ORDER_REASONS].ask(subject, (seed + n) % SEEDS) for n in range(REASONS_TRIED))
    asked = {question.text: question for question in drawn if question is not None}
    return (subject, list(asked.values())) if asked else None


def _quiz_of(
    asked: Sequence[Asked], subjects: Mapping[str, Subject], name: str, seed: int, mode: Mode, seat: Seat | None
) -> Quizzing:
    """Make a quiz of these questions; ``seat`` keeps its answers."""
    keep: Keep = _nowhere
    finish: Callable[[], object] = _never
    ids = tuple(question.id for question in asked)
    if seat is not None:
        answering = OpenQuiz.begin(seat, name, seed, ids, mode)
        keep, finish = answering.keep, answering.finish
    begun = Sitting(mode, seed, next(iter(subjects), ""), ids)
    return Quizzing(asked, subjects, begun, keep, finish)


def _with_most_kinds() -> Subject:
    """A house of moderate size with hips, a girder, a gable, saddles and inside walls to ask about."""
    return _shipped("wren")


@lru_cache(12)
def _shipped(house: str) -> Subject:
    path = find_level(house)
    return subject_of(parse_level(path.read_text(encoding="utf-8"), path.name, style_texts(path)))


def left_in_the_middle(seat: Seat | None) -> Attempt | None:
    """Return the quiz that was left in the middle last, if there is one."""
    return next(iter(unfinished_quizzes(seat)), None) if seat is not None else None


def go_on_with(attempt: Attempt, seat: Seat, library: Library) -> Quizzing | None:
    """Go on with a quiz that was left; None where a question or a house of it is no longer there.

    :raises Elsewhere: where it went on in another window.
    """
    paper = paper_of(attempt) or {}
    subjects: dict[str, Subject] = {}
    by_id = {question.id: question for question in bank()}
    for level in {house for id_ in paper["questions"] if (house := house_of(id_))}:
        entry = next((each for each in library.entries if each.id == level), None)
        if entry is None:
            return None
        try:
            subjects[level] = subject_of(entry.level)
        except LayoutRefused:
            return None
    asked = [question_again(id_, by_id, subjects, int(paper["seed"])) for id_ in paper["questions"]]
    if not all(asked):
        return None
    questions = {q.id: q for q in asked if q is not None}
    answering = OpenQuiz.resume(seat, attempt)
    given = tuple(given_again(questions[e.body["question"]], e.body) for e in attempt.answers)
    begun = Sitting(attempt.mode, int(paper["seed"]), next(iter(subjects), ""), tuple(questions), given)
    return Quizzing(tuple(questions.values()), subjects, begun, answering.keep, answering.finish)


def _nowhere(_asked: Asked, _given: Given, _took_ms: int) -> None:
    """Keep nothing: there is no folder to keep it in."""


def _never() -> None:
    """Close nothing."""
