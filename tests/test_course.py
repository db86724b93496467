"""The course: its file, its sittings, what is left to be finished, and what a day holds."""

from datetime import UTC, datetime, timedelta
from functools import cache

import pytest
from sizes import some
from ten_days import course, level_of, ten_days

from trainer.course import (
    Build,
    CourseStep,
    Done,
    FinishIt,
    Sitting,
    Watch,
    finish,
    met_so_far,
    once_more_house,
    parse_course,
    sittings,
    today,
)
from trainer.course.finish import READING_S, STEP_S
from trainer.course.sittings import BUILDING_MINUTES, next_sitting
from trainer.course.today import FEWEST_REVIEWS, MOST_A_DAY, MOST_REVIEWS, with_done
from trainer.film import film_of
from trainer.order import Step
from trainer.quiz.bank import parse_bank
from trainer.quiz.from_bank import asked
from trainer.quiz.history import Seen
from trainer.quiz.judge import options
from trainer.quiz.paper import make_paper
from trainer.quiz.worked import subject_of
from trainer.read import Faulty
from trainer.rules import all_rules
from trainer.session import Session
from trainer.shipped import bank_paths, course_path, level_paths
from trainer.site import done, step_actions

HOUSES = [path.stem for path in level_paths()]
NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


@cache
def minutes() -> dict[str, int]:
    return {step.whole: level_of(step.whole)[0].lesson.minutes or 0 for step in course().steps}


def test_it_has_some_twenty_steps_on_houses_that_are_not_kept_for_assessment() -> None:
    assert 18 <= len(course().steps) <= 24
    houses = {house for step in course().steps for house in (step.watch, step.whole, *step.finish)}
    assert not [house for house in houses if level_of(house)[0].lesson.unseen]
    assert all(minutes().values())


def test_every_fault_of_a_course_is_named_with_its_line_and_what_may_be_meant() -> None:
    text = course_path().read_text(encoding="utf-8")
    text = text.replace("id: first-truss", "id: set-out", 1).replace("whole: wren", "whole: wrenn", 1)
    text = text.replace("film: saddle", "film: sadle", 1).replace("drill: line-it-up", "drill: line-it", 1)
    text = text.replace("[mark-off-station,", "[mark-of-station,", 1)
    with pytest.raises(Faulty) as caught:
        parse_course(text, "course.yaml", HOUSES)
    paths = {fault.path for fault in caught.value.faults}
    assert {"steps[1].id", "steps[10].whole", "steps[11].film", "steps[0].rules[0]"} <= paths
    assert any(path.endswith(".drill") for path in paths)
    assert "wren" in next(fault.what for fault in caught.value.faults if fault.path == "steps[10].whole")
    assert all(fault.line > 1 for fault in caught.value.faults)


@pytest.mark.parametrize("step", some(course().steps, 6), ids=lambda step: step.id)
def test_what_is_left_to_be_finished_is_done_right_by_its_own_steps_and_hints_fade(step: CourseStep) -> None:
    for number, house in enumerate(step.finish, 1):
        level, layout = level_of(house)
        part = FinishIt(step, number)
        drill = finish(step, number, level, number, layout)
        assert drill.kind == part.name
        assert drill.rules and set(drill.rules) <= set(step.rules)
        acts_take = (READING_S + STEP_S * len(drill.steps)) / 60
        assert (acts_take if drill.steps else drill.minutes) <= part.minutes
        assert drill.level.lesson.hints == (number < len(step.finish))
        session = drill.session()
        assert not drill.finished(session.site)
        if drill.steps:
            assert _do_it(session, drill.steps) == ()
            assert drill.result(session).right


def _do_it(session: Session, steps: tuple[Step, ...]) -> tuple[object, ...]:
    """Do always the first that is not done: a bracket that another truss took is wanted once more."""
    while step := next((each for each in steps if not done(session.site, each)), None):
        session.do_in_one_go([step_actions(session.site, step)[0]])
    return session.findings


@pytest.mark.parametrize("step", some(course().steps, 4), ids=lambda step: step.id)
def test_each_idea_is_in_the_film_where_it_is_watched(step: CourseStep) -> None:
    level, layout = level_of(step.watch)
    film = film_of(level, 1, layout, idea=step.film)
    (part,) = (part for part in film.parts if part.key == step.film)
    assert part.ranges


def test_the_film_stops_in_the_idea_that_is_wanted_also_before_what_it_waits_for() -> None:
    level, layout = level_of("wren")
    film = film_of(level, 1, layout, idea="saddle")
    (part,) = (part for part in film.parts if part.key == "saddle")
    asked = [stop for stop in film.stops if any(start <= stop.at_ms < end for start, end in part.ranges)]
    assert asked and all(stop.waits and layout.by_tag[stop.waits.tag].kind == "saddle" for stop in asked)


def test_a_sitting_is_short_holds_one_new_idea_at_most_and_each_idea_returns() -> None:
    found = sittings(course(), minutes())
    for sitting in found:
        assert 0 < sitting.minutes <= BUILDING_MINUTES + 1
        assert sum(isinstance(part, Watch) for part in sitting.parts) <= 1
    parts = [part for sitting in found for part in sitting.parts]
    for step in course().steps:
        assert [p.number for p in parts if isinstance(p, FinishIt) and p.step == step] == [
            *range(1, len(step.finish) + 1)
        ]
        built = [p.number for p in parts if isinstance(p, Build) and p.house == step.whole]
        assert built == [*range(1, len(built) + 1)]
        assert built


def test_girder_valley_and_saddles_come_within_three_hours() -> None:
    passed = 0.0
    for sitting in sittings(course(), minutes()):
        passed += sitting.minutes
        if sitting.new and sitting.new.film == "saddle":
            break
    assert passed <= 180


def test_every_rule_of_a_step_is_known_and_the_deciding_ones_are_in_it() -> None:
    taught = {rule for step in course().steps for rule in step.rules}
    assert taught <= {rule.name for rule in all_rules()}
    assert len(taught) >= 60


def test_the_course_goes_on_where_it_was_left_until_it_is_done() -> None:
    so_far, number = Done(), 0
    while (sitting := next_sitting(course(), minutes(), so_far)) is not None:
        assert sitting == sittings(course(), minutes())[number]
        half = with_done(so_far, Sitting(sitting.parts[:1]))
        left = next_sitting(course(), minutes(), half)
        assert left is None or left.parts[0] != sitting.parts[0]
        so_far, number = with_done(so_far, sitting), number + 1
    assert number == len(sittings(course(), minutes()))
    assert all(n == of for n, of in map(so_far.of_step, course().steps))


@pytest.mark.parametrize("seed", some(range(1, 9), 2))
def test_ten_evenings_are_short_bring_one_idea_each_at_most_and_each_idea_back_twice(seed: int) -> None:
    evenings = ten_days(seed)
    for evening in evenings:
        assert (9 if evening.number > 2 else 5) * 60 <= evening.seconds <= 15 * 60
        assert len(evening.new) <= 1
        assert evening.questions <= MOST_A_DAY
    assert all(evening.reviews >= FEWEST_REVIEWS for evening in evenings[3:])
    for step in [step for evening in evenings for step in evening.new]:
        assert sum(step in evening.back for evening in evenings) >= 2
    assert sum(len(evening.new) for evening in evenings) >= 5


def test_after_a_week_away_the_most_serious_eight_come_back_first() -> None:
    rules = sorted(all_rules(), key=lambda rule: rule.name)[:40]
    history = [Seen(f"rule {rule.name}", NOW - timedelta(days=7), "again") for rule in rules]
    taught = Done(drills={Watch(step).name: 1 for step in course().steps})
    plan = today(course(), minutes(), taught, history, NOW, 1)
    assert len(plan.review) == MOST_REVIEWS
    grave = [rule.name for rule in rules if rule.severity == "stop-work"]
    assert all(card.about[1] in grave for card in plan.review[: len(grave)])
    later = [*history, *(Seen(f"rule {rule.name}", NOW, "good", asked=True) for rule in rules[:13])]
    assert len(today(course(), minutes(), taught, later, NOW, 1).review) == 0


def test_what_was_done_wrong_on_a_house_before_its_lesson_is_asked_about_after_the_lesson() -> None:
    history = [Seen(f"rule {rule}", NOW - timedelta(days=2), "again") for rule in ("off-station", "roof-brace-missing")]
    steps = {step.id: step for step in course().steps}

    def reviewed(*watched: str) -> set[str]:
        done = Done(drills={Watch(steps[each]).name: 1 for each in watched}, built=frozenset({"pardalote"}))
        return {card.about[1] for card in today(course(), minutes(), done, history, NOW, 1).review}

    assert reviewed() == set()
    assert reviewed("first-truss") == {"off-station"}
    assert reviewed("first-truss", "permanent") == {"off-station", "roof-brace-missing"}


def test_a_day_with_little_due_asks_about_ideas_met_and_the_first_day_begins_with_the_course() -> None:
    first = today(course(), minutes(), Done(), [], NOW, 1)
    assert first.review == ()
    assert first.building and isinstance(first.building.parts[0], Watch)
    assert first.minutes <= 15
    met = with_done(Done(), sittings(course(), minutes())[0])
    second = today(course(), minutes(), met, [], NOW, 1)
    assert 0 < len(second.review) <= FEWEST_REVIEWS
    assert {card.about[1] for card in second.review} <= set(course().steps[0].rules)


def test_a_quiz_asks_only_about_ideas_that_were_met_and_whoever_begins_is_asked_what_is_easy() -> None:
    bank = [question for path in bank_paths() for question in parse_bank(path.read_bytes(), path.name)]
    houses = [subject_of(level_of("wren")[0], level_of("wren")[1])]
    counts = []
    for n in (0, 3, 6, len(course().steps)):
        met = met_so_far(course(), Done(drills={FinishIt(step, 1).name: 1 for step in course().steps[:n]}))
        asked_now = make_paper(bank, houses, 2, 10, only=met).questions
        may_be = [question for question in map(asked, bank) if met.may_ask(question)]
        counts.append(len(may_be))
        assert all(question.difficulty == 1 for question in asked_now) or n
        assert len(asked_now) == 10 and all(map(met.may_ask, asked_now))
        text = " ".join(f"{question.text} {options(question)}" for question in may_be).casefold()
        assert ("saddle" in text, "jack" in text, "gable" in text) == (n > 10, n > 8, n > 3)
    assert counts == sorted(counts) and counts[0] >= 40 and counts[-1] == len(bank)


def test_a_house_that_was_built_counts_as_met() -> None:
    met = met_so_far(course(), Done(built=frozenset({"thornbill"})))
    bank = [question for path in bank_paths() for question in parse_bank(path.read_bytes(), path.name)]
    (about_row,) = (asked(question) for question in bank if question.id == "bracing-how-many-solid")
    assert met.may_ask(about_row) and not met_so_far(course(), Done()).may_ask(about_row)


def test_what_is_left_is_named_truss_by_truss_and_set_out_begins_on_bare_plates() -> None:
    steps = {step.id: step for step in course().steps}
    first = finish(steps["first-truss"], 1, level_of("thornbill")[0], 7)
    assert "This time that is ST" in first.task and "Tools: Stand and Brace." in first.task
    assert {each.verb for each in first.steps} == {"stand", "tie"}, "others fix the ends of this house"
    marks = finish(steps["set-out"], 2, level_of("pardalote")[0], 7)
    assert {action.do for action in marks.given} == {"mark"}


@pytest.mark.parametrize(
    "step", some([s for s in course().steps if s.chapter or s.deciding], 3), ids=lambda step: step.id
)
def test_once_more_is_on_a_house_made_new_so_that_no_exercise_comes_back_as_it_was(step: CourseStep) -> None:
    part = FinishIt(step, len(step.finish) + 1)
    assert once_more_house(course(), FinishIt(step, 1), 1) is None
    houses = [level for seed in range(4) if (level := once_more_house(course(), part, seed)) is not None]
    drills = [finish(step, part.number, level, 1) for level in houses]
    assert len({(drill.layout.house.plan.outline, drill.task) for drill in drills}) == 4
    assert all(len(drill.steps) * STEP_S + READING_S <= part.minutes * 60 for drill in drills)
    session = drills[0].session()
    assert _do_it(session, drills[0].steps) == () and drills[0].result(session).right
