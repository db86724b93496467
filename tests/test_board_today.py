"""Today on the board, from nothing: the three parts by keys alone and by mouse alone, and what is kept of them."""

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import partial
from itertools import count
from pathlib import Path

import pytest
from attempts import level_of
from board_person import ByKeyboard, ByMouse, Person

from trainer.board.quiz_start import quiz_on_cards
from trainer.board.scenes.drilling import OneDrill
from trainer.board.scenes.film import FilmScreen
from trainer.board.scenes.home import Home
from trainer.board.scenes.quiz import Quiz
from trainer.board.scenes.today import DAY, TodayScreen
from trainer.board.scenes.work import Work
from trainer.board.today import Day, now_of
from trainer.course import Build, Sitting, Today
from trainer.level import write_level
from trainer.quiz.review import RULE, new_card
from trainer.records.course import course_done
from trainer.records.drills import times_done
from trainer.records.seat import CODE_SETTING
from trainer.rehearse import rehearse
from trainer.shipped.course import course
from trainer.site import AnyAction, HandOver, done, step_actions
from trainer.site.query import held

NIGHT = 24 * 3_600_000


class Hands:
    """Goes on by keys alone or by mouse alone."""

    def __init__(self, person: Person, *, mouse: bool) -> None:
        self.person, self.mouse = person, mouse

    def press(self, name: str) -> None:
        if self.mouse:
            self.person.click_on("button", name)
        else:
            self.person.tab_to("button", name)
            self.person.key("enter")
        self.person.wait(3)


@pytest.fixture(params=[False, True], ids=["keys", "mouse"])
def hands(request: pytest.FixtureRequest, tmp_path: Path) -> Hands:
    return Hands(at_home(tmp_path), mouse=request.param)


def at_home(data: Path) -> Person:
    person = Person(data=data)
    person.wait_for_houses()
    person.wait(3)
    return person


def parts(person: Person) -> list[str]:
    """What one does in each part of today, in order."""
    rows = person.see("list", "The parts of today").children
    names = ("Watch it", "Finish it", "Build a whole house", "What is due", "Why")
    return [next(name for name in names if row.name.startswith(name)) for row in rows]


def watch(hands: Hands) -> None:
    screen = hands.person.app.scene
    assert isinstance(screen, FilmScreen)
    for _ in range(400):
        if screen.player is not None and screen.ready:
            break
        hands.person.pass_time(50)
    for _ in range(80):
        assert screen.player is not None
        if screen.player.ended:
            break
        hands.press("Skip the question" if screen.player.asking else "Go on" if screen.player.held else "Next step")
    hands.press("Go on")


def finish(hands: Hands) -> None:
    """Do what is left of an exercise, with the tools of the board."""
    person = hands.person
    hands.press("Close")
    does = ByMouse(person) if hands.mouse else ByKeyboard(person)
    doing = person.work.assignment
    assert isinstance(doing, OneDrill)
    while step := next((each for each in doing.steps if not done(doing.session.site, each)), None):
        does.do(step_actions(doing.session.site, step)[0])
    assert person.see("heading").name == "The drill is done"
    hands.press("Go on with today")


def answer(hands: Hands) -> int:
    person = hands.person
    assert isinstance(person.app.scene, Quiz)
    n = 0
    while not person.sees("heading", "The quiz is done"):
        if person.sees("list", "Choices"):
            first = person.see("list", "Choices").children[0]
            person.click(first.rect.center) if hands.mouse else person.key("a")
        else:
            person.write("1800")  # a sum: the answer has the focus
        hands.press("Answer")
        n += 1
        if person.sees("button", "Go on with today"):
            break  # there is but one question
        hands.press("Go on")
    hands.press("Go on with today")
    return n


def test_today_leads_through_its_parts_from_nothing_and_the_next_evening_goes_on(hands: Hands) -> None:
    person = hands.person
    hands.press("Today's work")
    person.wait(5)
    assert isinstance(person.app.scene, TodayScreen)
    assert parts(person) == ["Watch it", "Finish it", "Why"]
    hands.press("Begin")
    watch(hands)
    assert answer(hands) == 1  # nothing is asked in this part of the film itself
    assert isinstance(person.app.scene, TodayScreen)
    hands.press("Go on")
    finish(hands)
    hands.press("Go on")
    assert answer(hands) == 2
    assert person.see("heading", "Today's work is done.")
    seat = person.app.services.records.seat()
    assert times_done(seat.store, seat.code) == {"watch-set-out": 1, "finish-set-out-1": 1}
    hands.press("Finish for today")
    assert isinstance(person.app.scene, Home)

    clock = seat.clock
    seat.clock = lambda: clock() + NIGHT
    hands.press("Today's work")
    person.wait(5)
    assert parts(person) == ["What is due", "Finish it", "Watch it", "Finish it", "Why"]
    hands.press("Begin")
    assert answer(hands) == 4


def test_what_was_left_in_the_middle_is_gone_on_with_after_the_program_was_closed(tmp_path: Path) -> None:
    hands = Hands(at_home(tmp_path), mouse=False)
    hands.press("Today's work")
    hands.person.wait(5)
    hands.press("Begin")
    watch(hands)
    hands.person.app.services.records.close()
    again = Hands(at_home(tmp_path), mouse=False)
    again.press("Today's work")
    again.person.wait(5)
    assert parts(again.person) == ["Finish it", "Why"]


def test_the_first_screen_has_one_main_button_and_without_records_today_works_all_the_same() -> None:
    person = Person()
    person.wait_for_houses()
    person.wait(3)
    hands = Hands(person, mouse=False)
    hands.press("Today's work")
    person.wait(5)
    hands.press("Begin")
    watch(hands)
    answer(hands)
    assert parts(person) == ["Watch it", "Finish it", "Why"]
    hands.press("Go on")
    assert isinstance(person.app.scene, Work)


def test_a_part_of_a_house_ends_at_a_safe_point_and_the_next_evening_goes_on_from_there(tmp_path: Path) -> None:
    person = at_home(tmp_path)
    hands = Hands(person, mouse=False)
    parts_of = [Build("thornbill", n, 2, 2.5) for n in (1, 2)]
    actions = rehearse(level_of("thornbill"), 3).actions

    def build(part: Build, rest: Sequence[AnyAction]) -> Sequence[AnyAction]:
        """Build until something is said; return what is left to be done."""
        person.app.ui.memory[DAY] = Day(
            Today((), Sitting((part,)), (), None), now_of(person.app.services), reviewed=True, asked_why=True
        )
        hands.press("Today's work")
        person.wait(5)
        hands.press("Begin")
        while rest and not person.app.asking and isinstance(person.app.scene, Work):
            person.work.do_recorded(rest[:1])
            rest = rest[1:]
        return rest

    rest = build(parts_of[0], actions)
    assert person.see("heading").name == "A safe point"
    assert 0 < len(rest) <= len(actions) / 2 + 12
    assert all(held(person.work.site, tag) for tag in person.work.site.at_place.values())
    hands.press("Go on with today")
    assert person.sees("heading", "Today's work is done.")
    hands.press("Finish for today")

    person.app.services.records.close()
    person = hands.person = at_home(tmp_path)
    person.key("esc")  # the offer to go on with it
    rest = build(parts_of[1], rest[:-1])
    assert rest == ()
    seat = person.app.services.records.seat()
    assert course_done(seat, lambda _house: 1).share["thornbill"] > 1
    ByKeyboard(person).do(HandOver())
    person.wait(3)
    person.key("esc")
    person.wait(3)
    assert person.sees("heading", "Today's work is done.")
    assert "thornbill" in course_done(seat, lambda _house: 1).built


def test_a_new_house_is_built_with_no_help_and_fills_its_trusses(tmp_path: Path) -> None:
    person = at_home(tmp_path)
    hands = Hands(person, mouse=False)

    def begin(part: Build) -> None:
        plan = Today((), Sitting((part,)), (), None)
        person.app.ui.memory[DAY] = Day(plan, now_of(person.app.services), reviewed=True, asked_why=True)
        hands.press("Today's work")
        person.wait(5)
        hands.press("Begin")

    first, last = (Build("new-house-verge-1", n, 2, 5) for n in (1, 2))
    seat = person.app.services.records.seat()
    seat.store.set_setting(CODE_SETTING, "amber-12")
    seat.clock = partial(next, count(1_772_000_000_000, 1000))
    begin(first)
    work = person.work
    assert work.session.mode == "assessment" and not work.session.level.lesson.hints
    text = write_level(work.session.level)
    actions = rehearse(work.session.level, work.site.job.seed).actions
    rest = list(actions)
    while not person.app.asking:
        work.do_recorded([rest.pop(0)])
    hands.press("Go on with today")
    assert 0.4 <= course_done(seat, lambda house: len(actions) if house.text == text else 0).share[first.house] < 0.9
    hands.press("Finish for today")
    person.wait(3)
    assert not person.app.asking  # Today leads back to it, the list of houses has none of it

    begin(last)
    assert write_level(person.work.session.level) == text, "the same house, also on another day"
    for action in rest[:-1]:
        person.work.do_recorded([action])
    ByKeyboard(person).do(HandOver())
    person.wait(3)
    done = course_done(seat, lambda _house: 0)
    assert first.house in done.built and first.house in done.ended
    person.app.services.path.look()
    mastery = person.app.services.path.mastery
    assert mastery["row"] == ("shown", "helped", "alone", "new") and mastery["girder"] == ()


def test_a_review_asks_on_houses_that_were_met() -> None:
    waiting = [new_card(f"{RULE} {rule}", datetime(2026, 3, 2, tzinfo=UTC)) for rule in course().steps[0].rules]
    for seed in range(4):
        quiz = quiz_on_cards(waiting, seed, None)
        assert quiz is not None and set(quiz.subjects) <= {course().steps[0].watch}
