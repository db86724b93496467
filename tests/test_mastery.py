"""Mastery of each skill out of what was done, what holds a house back, and the houses that nobody has seen."""

import pathlib
from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest
from attempts import level_of
from report_made import built, mistaken
from sizes import some
from test_course import NOW, course, minutes

from trainer.board.keeping import Records
from trainer.board.library import read_entry
from trainer.board.path import Path
from trainer.board.quiz_start import quiz_on_why, reasons_of
from trainer.course import (
    Build,
    Done,
    LastHouse,
    TimeDone,
    Today,
    holding_back,
    mastery,
    new_house,
    states_in_words,
    today,
)
from trainer.course.mastery import STATES
from trainer.course.model import CourseStep
from trainer.course.sittings import BUILDING_MINUTES, new_house_id, sittings
from trainer.course.today import ORDER_REASONS
from trainer.course.transfer import house_of_part
from trainer.drill.playing import DrillSite
from trainer.film.course import Course as FilmCourse
from trainer.film.ideas import BY_KEY
from trainer.layout import lay_out
from trainer.level import parse_level, write_level
from trainer.quiz.history import Seen, of_answer
from trainer.quiz.worked import FAMILIES
from trainer.records.practice import last_house, times_in, times_of
from trainer.records.progress import Progress
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.terms import KIND_NAMES, STAGE_OF, TrussKind

WEEK = timedelta(days=7)
ROW = course().step("row")
ENDS = tuple(step for step in course().steps if step.new_house)
DAYS = (date(2026, 3, 2), date(2026, 11, 30))


def at(
    name: str,
    day: float = 0,
    *,
    right: bool = True,
    hinted: bool = False,
    broken: tuple[str, ...] = (),
    stood: Iterable[TrussKind] = KIND_NAMES,
    found_of: tuple[TrussKind, ...] = (),
) -> TimeDone:
    when = NOW + timedelta(days=day)
    return TimeDone(name, when, right, hinted, frozenset(broken), frozenset(stood), frozenset(found_of))


def reached(*times: TimeDone) -> tuple[str, ...]:
    return mastery(course(), times)["row"]


def test_nothing_is_reached_by_nothing_and_a_film_shows() -> None:
    assert reached() == ()
    assert reached(at("watch-row")) == ("shown",)
    assert reached(at("watch-gable")) == ()


@pytest.mark.parametrize(
    ("name", "hinted", "right", "states"),
    [
        ("finish-row-1", False, True, ("shown", "helped")),  # the text that teaches stands beside it
        ("finish-row-2", True, True, ("shown", "helped")),
        ("finish-row-2", False, True, ("shown", "helped", "alone")),
        ("finish-row-3", False, True, ("shown", "helped", "alone")),
        ("finish-row-3", False, False, ("shown",)),
        ("finish-row-5", False, True, ("shown", "helped", "alone")),  # once more, after the last time of the course
        ("finish-row-x", False, True, ()),
        ("finish-gable-3", False, True, ()),
        ("thornbill", True, True, ("shown", "helped")),
        ("thornbill", False, True, ("shown", "helped", "alone")),
        ("pardalote", False, True, ()),
    ],
)
def test_help_decides_between_with_help_and_alone(
    name: str, hinted: bool, right: bool, states: tuple[str, ...]
) -> None:
    assert reached(at(name, right=right, hinted=hinted)) == states


def test_a_house_counts_for_a_skill_only_where_none_of_its_rules_was_broken() -> None:
    assert reached(at("thornbill", broken=("stood-before-last-tied",))) == ()
    assert reached(at("thornbill", broken=("row-left-unsafe-overnight",))) == ()
    assert "alone" in reached(at("thornbill", broken=("mark-off-station",)))


def test_a_house_counts_for_a_skill_only_where_its_trusses_were_stood_and_nothing_was_found_of_them() -> None:
    def skills(time: TimeDone) -> set[str]:
        return {step for step, states in mastery(course(), [time]).items() if "alone" in states}

    of_wren = {"girder", "saddles", "broken-hip"}
    assert skills(at("wren")) == of_wren
    assert skills(at("wren", broken=("off-station",), found_of=("saddle",))) == of_wren - {"saddles"}
    assert skills(at("wren", broken=("out-of-plumb",), found_of=("girder", "hip"))) == {"saddles"}
    assert skills(at("wren", stood=("standard", "girder"))) == {"girder"}
    assert skills(at("wren", broken=("off-station",), found_of=("standard",))) == of_wren


@pytest.mark.parametrize("step", [step for step in course().steps if step.kinds], ids=lambda step: step.id)
def test_the_whole_house_of_a_skill_has_trusses_of_its_kinds(step: CourseStep) -> None:
    layout = lay_out(read_entry(find_level(step.whole)).level.house())
    assert set(step.kinds) & {member.kind for member in layout.members}


def test_a_house_of_the_records_says_which_kinds_were_stood_and_what_was_found_of_which(tmp_path: pathlib.Path) -> None:
    done = mistaken(tmp_path, "wren-09", "pardalote", "tie-down-missing")
    (time,) = times_in(course(), [done])
    assert "gable" in time.stood and time.found_of <= time.stood and time.found_of


def test_a_week_later_wants_seven_days_between_two_times_alone() -> None:
    first = at("finish-row-3")
    assert "later" not in reached(first, at("thornbill", 6.9))
    assert "later" in reached(at("thornbill", 7), first)
    assert "later" not in reached(first, at("thornbill", 8, hinted=True))
    assert "later" not in reached(at("finish-row-1"), at("thornbill", 8))


def test_a_new_house_fills_its_truss_and_what_lies_below_and_all_five_can_be_filled() -> None:
    assert reached(at("new-house-verge-1")) == ("shown", "helped", "alone", "new")
    assert reached(at("new-house-verge-1"), at("new-house-verge-2", 7)) == STATES
    assert reached(at("new-house-verge-1", broken=("row-with-nothing-solid",))) == ()
    assert reached(at("new-house-higher-wall-1")) == ()  # it does not ask for a row
    times = [at(new_house_id(step.id, n), 10 * n) for step in ENDS for n in (1, 2)]
    assert set(mastery(course(), times).values()) == {STATES}, "each step is asked for on some new house"


def test_states_are_said_in_words() -> None:
    assert states_in_words(()) == "not met yet"
    assert states_in_words(("shown", "helped")) == "with help"
    assert states_in_words(("shown", "helped", "alone", "new")) == "alone, on a new house"


def test_a_house_of_a_later_chapter_waits_for_the_deciding_skills_before_it() -> None:
    deciding = [step.id for step in course().steps if step.deciding]
    assert set(deciding) >= {"first-truss", "row", "girder", "saddles"}
    assert holding_back(course(), "silvereye", {}) == ()
    assert [step.id for step in holding_back(course(), "firetail", {})] == ["first-truss", "row"]
    known = {"first-truss": ("shown", "helped", "alone"), "row": ("shown", "helped")}
    assert [step.id for step in holding_back(course(), "wren", known)] == ["row"]
    assert {step.id for step in holding_back(course(), "robin", {})} == set(deciding)
    assert holding_back(course(), "jabiru", {}) == (), "a house beside the course is held back by nothing"


def test_the_path_says_what_holds_a_house_back_and_does_not_count_it() -> None:
    entry = read_entry(find_level("firetail"))
    path = Path(Records(None), done={"firetail": Progress(1, 92, True)})
    assert path.sign("firetail") == "house_built" and path.houses_done == 1
    assert path.in_words(entry) == "Done, best mark 92"
    path.held_back = {"firetail": ("The first truss", "A row, tied as it goes")}
    assert path.sign("firetail") == "house_open" and path.houses_done == 0
    assert path.in_words(entry) == (
        "Mark met, best mark 92 · it counts as done once you can do this without hints: "
        "The first truss; A row, tied as it goes"
    )


@pytest.mark.parametrize("step", ENDS, ids=lambda step: step.id)
@pytest.mark.parametrize("day", some(DAYS, 1), ids=str)
def test_a_new_house_has_all_that_it_asks_for_and_gives_no_help(step, day: date) -> None:  # type: ignore[no-untyped-def]
    level = new_house(step, 1, "amber-12", day)
    assert not level.lesson.hints and level.lesson.unseen
    assert level.id == f"new-house-{step.id}-1"
    assert parse_level(write_level(level), "new.yaml") == level
    made = new_house(step, 1, "amber-12", day)
    assert made == level
    others = [new_house(step, 2, "amber-12", day), new_house(step, 1, "cobalt-07", day)]
    assert all(other.plates != level.plates or other.roof != level.roof for other in others)
    layout = lay_out(level.house())
    scene = DrillSite.of(level, layout, 1)
    played = FilmCourse(layout, scene.job.order, 1, tuple(scene.sequence), (), ())
    for asked in map(course().step, step.new_house.asks):
        if asked.film in BY_KEY:
            assert any(BY_KEY[asked.film].about(played, each) for each in scene.sequence), asked.id
        else:
            assert asked.film.removeprefix("stage ") in {STAGE_OF[each.verb] for each in scene.sequence}, asked.id
    assert level.lesson.minutes == step.new_house.minutes
    assert 0.65 * len(layout.members) <= step.new_house.minutes


def test_no_new_house_is_made_of_another_id() -> None:
    assert house_of_part(course(), "new-house-verge-2", "a", DAYS[0]).id == "new-house-verge-2"
    with pytest.raises(KeyError):
        house_of_part(course(), "new-house-row-1", "a", DAYS[0])


def test_it_is_asked_after_its_chapter_and_again_a_week_after_the_hand_over() -> None:
    parts = [part for sitting in sittings(course(), minutes()) for part in sitting.parts]
    first = next(n for n, part in enumerate(parts) if isinstance(part, Build) and part.new)
    before = {part.house for part in parts[:first] if isinstance(part, Build)}
    assert before == {"thornbill", "pardalote"}
    built = Done(built=frozenset({"new-house-verge-1"}), ended={"new-house-verge-1": NOW})
    assert _first_built(built, NOW + WEEK - timedelta(minutes=1)) != "new-house-verge-2"
    due = today(course(), minutes(), built, [], NOW + WEEK, 1).building
    assert due and due.parts[0].house == "new-house-verge-2" and due.minutes <= BUILDING_MINUTES
    done = Done(built=built.built | {"new-house-verge-2"}, ended=built.ended)
    assert _first_built(done, NOW + WEEK) != "new-house-verge-2"


def _first_built(done: Done, now: datetime) -> str:
    plan = today(course(), minutes(), done, [], now, 1)
    first = plan.building.parts[0] if plan.building else None
    return first.house if isinstance(first, Build) else ""


WRONG = LastHouse("thornbill", "", NOW, ("row-with-nothing-solid", "off-station", "spacing-too-wide"))
RIGHT = LastHouse("wren", "", NOW, ())
NEXT_DAY = NOW + timedelta(days=1)


def why(last: LastHouse | None, now: datetime, *seen: Seen) -> Today:
    return today(course(), minutes(), Done(drills={"finish-gable-1": 1}), seen, now, 1, last)


def test_why_is_asked_of_what_was_found_at_the_next_session_and_not_at_once() -> None:
    usual = why(None, NEXT_DAY)
    assert usual.built is None and set(usual.why) <= set(course().step("set-out").rules), "the new idea"
    assert why(WRONG, NOW + timedelta(hours=1)) == why(None, NOW + timedelta(hours=1))
    plan = why(WRONG, NEXT_DAY)
    assert plan.built == WRONG and plan.why == WRONG.broken[:2]


def test_what_was_asked_since_is_not_asked_again_and_the_rest_is_made_up() -> None:
    later = NOW + timedelta(days=1, minutes=1)
    asked = [Seen(f"rule {rule}", later, "good", asked=True) for rule in WRONG.broken]
    before = Seen("rule spacing-too-wide", NOW - timedelta(days=1), "good", asked=True)
    plan = why(WRONG, NEXT_DAY + timedelta(days=1), before, *asked[:2])
    assert plan.why[0] == "spacing-too-wide" and plan.why[1] in course().step("set-out").rules
    assert why(WRONG, NEXT_DAY + timedelta(days=1), *asked).built is None


def test_where_nothing_was_found_it_is_asked_about_the_reasons_of_the_order_once() -> None:
    assert why(RIGHT, NEXT_DAY).built == RIGHT
    (seen,) = of_answer(f"{ORDER_REASONS}.wren.3", True, False, NEXT_DAY)
    assert why(RIGHT, NEXT_DAY + timedelta(days=1), seen).built is None
    assert ORDER_REASONS in FAMILIES


def test_the_quiz_is_about_the_house_that_was_built() -> None:
    text = find_level("wren").read_text(encoding="utf-8")
    plan = replace(why(RIGHT, NEXT_DAY), built=replace(RIGHT, text=text))
    quiz = quiz_on_why(plan, 5, None)
    assert quiz is not None
    assert [each.partition(".")[0] for each in quiz.questions] == [ORDER_REASONS] * 2
    assert {each.level for each in quiz.questions.values()} == {"wren"} and quiz.subject is not None
    found = quiz_on_why(why(WRONG, NEXT_DAY), 5, None)
    assert found is not None and [each.rules for each in found.questions.values()] == [(r,) for r in WRONG.broken[:2]]
    lean_to = replace(RIGHT, text=find_level("woodswallow").read_text(encoding="utf-8"))
    assert reasons_of(lean_to, 5) is None and reasons_of(replace(RIGHT, text=text), 5) is not None
    gone = quiz_on_why(replace(plan, built=replace(RIGHT, text="id: [")), 5, None)
    assert gone is not None and len(gone.questions) == 2, "a house that is no longer understood is not asked about"


def test_the_records_say_which_house_was_built_last_and_what_was_found(tmp_path: pathlib.Path) -> None:
    one = mistaken(tmp_path, "amber-12", "thornbill", "row-with-nothing-solid")
    with Store.open(tmp_path / FILE) as store:
        last = last_house(store, "amber-12")
        assert last is not None and last.level == "thornbill" and last.ended.timestamp() * 1000 == one.houses[0].ended
        assert last.broken[0] == "row-with-nothing-solid" and parse_level(last.text, "x").id == "thornbill"
        assert last_house(store, "nobody") is None
        skills = mastery(course(), times_of(store, "amber-12", course()))
    assert skills["first-truss"] == skills["row"] == ()
    assert skills["set-out"] == ("shown", "helped", "alone")


def test_a_house_that_was_handed_over_almost_empty_shows_no_skill(tmp_path: pathlib.Path) -> None:
    """Nothing is wrong with bracing that nobody put in, where no row stands to be braced."""
    actions = rehearse(level_of("pardalote"), 1).actions
    done = built(tmp_path, "wren-09", "pardalote", [*actions[:24], actions[-1]])
    assert any(act["found"] for house in done.houses for act in house.acts)
    assert times_in(course(), [done]) == []
