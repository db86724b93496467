"""What comes back, and when: every answer and every mistake on a roof folded into cards."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, datetime, timedelta

from attempts import SHIPPED, level_of
from fsrs import Card as FsrsCard
from fsrs import Rating, Scheduler
from hypothesis import given
from hypothesis import strategies as st
from sizes import by_size

from trainer.quiz.bank import parse_bank
from trainer.quiz.from_bank import asked
from trainer.quiz.history import Seen, cards, due_questions, of_answer, of_drill, of_mistakes, question_for
from trainer.quiz.of_rules import ABOUT_RULES, about_rule, house_of, judged_rule, rule_of, written_about
from trainer.quiz.paper import question_again
from trainer.quiz.question import OneOf
from trainer.quiz.review import due
from trainer.quiz.rule_kin import KIN, distractors, words_of
from trainer.quiz.slips import SLIPS
from trainer.quiz.worked import FAMILIES, Subject, subject_of
from trainer.quiz.worked.judging import NOT_SHOWN
from trainer.quiz.worked.moments import moment_of
from trainer.rules import all_rules
from trainer.shipped import bank_paths
from trainer.site import Mark

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
BANK = tuple(q for path in bank_paths() for q in parse_bank(path.read_bytes(), str(path)))
HOUSES: tuple[Subject, ...] = tuple(subject_of(level_of(name)) for name in SHIPPED[:4])


def day(number: float) -> datetime:
    return START + timedelta(days=number)


def test_a_card_is_what_the_scheduler_itself_makes_of_the_same_reviews() -> None:
    """Against the library itself: the fold adds nothing and loses nothing."""
    ratings = [
        ("again", Rating.Again, 0),
        ("good", Rating.Good, 0.01),
        ("hard", Rating.Hard, 3),
        ("good", Rating.Good, 9),
    ]
    found = cards(Seen("question terms-span", day(at), ours) for ours, _theirs, at in ratings)["question terms-span"]
    scheduler, card = Scheduler(enable_fuzzing=False, maximum_interval=30), FsrsCard(card_id=1, due=START)
    for _ours, theirs, at in ratings:
        card, _log = scheduler.review_card(card, theirs, day(at))
    assert (found.due, found.stability, found.difficulty) == (card.due, card.stability, card.difficulty)


def test_a_mistake_on_the_roof_makes_a_card_that_is_due_at_once_and_leads_to_a_question() -> None:
    found = cards(of_mistakes(["off-station", "off-station"], START))
    assert set(found) == {"rule off-station"}
    (card,) = due(found.values(), START + timedelta(minutes=10))
    question = question_for(card, BANK, HOUSES, seed=5)
    assert question is not None
    assert "off-station" in question.rules


SOME = by_size(27, 6, 1)
"""Each of so many rules is asked about on houses too."""


def test_every_rules_card_plays_a_week_and_is_always_asked_about_that_rule() -> None:
    """Broken on the first day, it is due, is asked about the rule itself, and once the answers are right it rests."""
    for n, rule in enumerate(rule.name for rule in all_rules()):
        houses = HOUSES if n % SOME == 0 else ()  # for a question of judgement a whole day is played
        history, asked_on = list(of_mistakes([rule], START)), []
        for number in range(1, 8):
            (card,) = cards(history).values()
            if due([card], day(number)):
                question = question_for(card, BANK, houses, seed=number)
                assert question is not None and question.rules == (rule,)
                history += of_answer(question.id, number > 1, False, day(number))
                asked_on.append(number)
        (card,) = cards(history).values()
        assert 2 <= len(asked_on) <= 5, rule
        assert card.due > day(7), "right answers let it rest"


def test_a_choice_is_not_right_for_sharing_most_words_with_what_is_asked() -> None:
    for form in ABOUT_RULES:
        shares = []
        for rule in all_rules():
            for seed in range(by_size(1, 3, 3)):
                question = about_rule(form, rule.name, seed)
                assert question is not None and isinstance(question.task, OneOf)
                words = words_of(question.text)
                common = [len(words_of(choice) & words) for choice in question.task.choices]
                most = [n for n, count in enumerate(common) if count == max(common)]
                shares.append((question.task.right in most) / len(most))
        assert sum(shares) / len(shares) < 0.43, "a third is chance"


def test_no_wrong_choice_is_of_a_rule_that_could_be_defended() -> None:
    for rule in all_rules():
        kin = {name for group in KIN if rule.name in group for name in group}
        assert not kin & {each.name for each in distractors(rule.why, rule.name, 5, 0)}


def test_a_question_of_judgement_moves_the_card_of_its_rule() -> None:
    question = judged_rule("hip-before-truncated-girder", HOUSES, 5)
    assert question is not None and question.drawing is not None
    assert rule_of(question.id) == "hip-before-truncated-girder" and question.rules == (rule_of(question.id),)
    assert house_of(question.id) == question.level
    by_level = {subject.level.id: subject for subject in HOUSES}
    assert question_again(question.id, {}, by_level) == question
    (seen,) = of_answer(question.id, True, False, START)
    assert seen.name == "rule hip-before-truncated-girder"


def test_a_written_question_on_a_rule_counts_for_that_rule() -> None:
    for rule in NOT_SHOWN:
        question = written_about(rule, BANK, 4)
        assert question is not None and question.rules == (rule,) == (rule_of(question.id),), rule
        assert house_of(question.id) == ""
        assert question_again(question.id, {each.id: each for each in BANK}, {}, 4) == question
        (seen,) = of_answer(question.id, True, False, START)
        assert seen.name == f"rule {rule}"


def test_a_rule_is_asked_about_in_two_ways_each_made_again_from_its_id() -> None:
    places = Counter()
    for rule in all_rules():
        for form in ABOUT_RULES:
            question = about_rule(form, rule.name, 3)
            assert question == question_again(question.id, {}, {})
            assert isinstance(question.task, OneOf)
            choices = question.task.choices
            assert len(set(choices)) == len(choices) == 3
            assert choices[question.task.right] == (rule.fix if form == "put-right" else rule.why)
            others = {
                text
                for each in all_rules()
                if each.why == rule.why or each.fix == rule.fix
                for text in (each.fix, each.why)
            }
            assert not others & {text for n, text in enumerate(choices) if n != question.task.right}
            assert {slip.text for slip in question.slips} == set(choices) - {choices[question.task.right]}
            places[question.task.right] += 1
    assert set(places) == {0, 1, 2} and max(places.values()) < sum(places.values()) * 0.45


def test_what_could_hurt_somebody_is_asked_about_first() -> None:
    history = [
        *of_answer(BANK[0].id, False, False, START),
        *of_mistakes(["off-station", "let-go-half-fixed"], day(0.1)),
    ]
    found = due_questions(due(cards(history).values(), day(8)), BANK, HOUSES, 1, 3)
    assert [q.rules for q in found] == [("let-go-half-fixed",), ("off-station",), BANK[0].rules]


def test_a_wrong_sum_makes_a_card_of_the_sum_alone() -> None:
    question = next(q for seed in range(20) if (q := FAMILIES["within-tolerance"].ask(HOUSES[0], seed)))
    assert question.rules
    assert set(cards(of_answer(question.id, False, False, START))) == {"family within-tolerance"}


def test_a_right_answer_about_a_rule_moves_its_card_and_a_first_one_makes_it() -> None:
    question = about_rule("put-right", "off-station", 1)
    assert question is not None
    assert set(cards(of_answer(question.id, True, False, START))) == {"rule off-station"}
    assert cards(of_drill(["off-station"], [], True, False, START)) == {}
    wrong = of_mistakes(["off-station"], START)
    moved = cards([*wrong, *of_answer(question.id, True, False, day(1))])
    assert moved["rule off-station"].due > cards(wrong)["rule off-station"].due


def test_a_worked_question_comes_back_with_other_figures_and_a_written_one_as_it_was() -> None:
    worked = next(q for seed in range(20) if (q := FAMILIES["truncated-height"].ask(HOUSES[1], seed)))
    card = cards(of_answer(worked.id, False, False, START))["family truncated-height"]
    again = [question_for(card, BANK, HOUSES, seed) for seed in range(6)]
    assert len({q.text for q in again if q}) > 1
    assert all(q and q.id.startswith("truncated-height.") for q in again)
    written = asked(BANK[0])
    (card,) = cards(of_answer(written.id, False, False, START)).values()
    assert question_for(card, BANK, (), 3) == asked(BANK[0], 3)


def test_due_questions_are_different_ones_in_the_order_of_the_cards_and_the_same_under_one_seed() -> None:
    history = [s for i, q in enumerate(BANK[:12]) for s in of_answer(q.id, False, False, day(i / 10))]
    waiting = due(cards(history).values(), day(5))
    found = due_questions(waiting, BANK, HOUSES, 7, 5)
    assert [q.id for q in found] == [card.about[1] for card in waiting[:5]]
    assert found == due_questions(waiting, BANK, HOUSES, 7, 5)


def test_what_the_bank_no_longer_holds_is_passed_over() -> None:
    history = [Seen("question long-gone", START, "again"), Seen("family long-gone", START, "again")]
    assert due_questions(due(cards(history).values(), day(1)), BANK, HOUSES, 1, 5) == ()


@given(
    st.lists(st.tuples(st.sampled_from(["again", "hard", "good"]), st.integers(0, 60_000)), max_size=12), st.booleans()
)
def test_a_history_gives_the_same_cards_however_often_it_is_folded(reviews: list[tuple[str, int]], rule: bool) -> None:
    when, history = START, []
    for rating, minutes in reviews:
        when += timedelta(minutes=minutes)
        history.append(Seen("rule off-station" if rule else "question q", when, rating))  # type: ignore[arg-type]
    assert cards(history) == cards(history)
    wrong = any(rating == "again" for rating, _minutes in reviews)
    assert bool(cards(history)) == (wrong if rule else bool(reviews))


def test_what_is_done_and_said_on_site_instead_stands_beside_every_rule() -> None:
    """Common practice, no source: what a beginner could well take for right. About as long as what is right."""
    by_name = {rule.name: rule for rule in all_rules()}
    assert set(SLIPS) == set(by_name)
    lengths = Counter[str]()
    for name, slips in SLIPS.items():
        rule = by_name[name]
        for form, wrong, right in zip(ABOUT_RULES, slips, (rule.fix, rule.why), strict=True):
            texts = [text for text, _said in wrong]
            assert len({right, *texts}) == 3, name
            assert all(said for _text, said in wrong)
            question = about_rule(form, name, 5)
            assert question is not None and isinstance(question.task, OneOf)
            assert {right, *texts} == set(question.task.choices)
            lengths["right"] += len(right)
            lengths["wrong"] += sum(map(len, texts)) // 2
    assert abs(lengths["right"] - lengths["wrong"]) < 0.2 * lengths["right"]


def test_a_crew_that_did_it_right_measured_nothing_on_from_a_mark() -> None:
    for house in ("thornbill", "pardalote"):
        moment = moment_of(subject_of(level_of(house)), "measured-bay-by-bay", 0)
        assert moment is not None
        on_from = [
            [action for action in crew.actions if isinstance(action, Mark) and action.measured_from is not None]
            for crew in (moment.right, moment.wrong)
        ]
        assert not on_from[0] and len(on_from[1]) == 2


def test_a_question_that_two_rules_share_is_asked_once() -> None:
    waiting = list(cards(of_mistakes([rule.name for rule in all_rules()], START)).values())
    for seed in range(by_size(1, 3, 12)):
        texts = [question.text for question in due_questions(waiting, BANK, (), seed, len(waiting))]
        assert len(texts) == len(set(texts)) > 0.95 * len(waiting)
