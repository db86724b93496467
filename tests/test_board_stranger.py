"""What somebody stumbles over who sees the board for the first time: names, silence, places, and what is lost."""

from pathlib import Path

import pytest
from attempts import level_of, right
from board_person import Person
from board_quiz import first, show
from typer.testing import CliRunner

from trainer.board.aim import place_in_words
from trainer.board.back_to import BackTo
from trainer.board.glossary import TERMS
from trainer.board.scenes.drilling import drill_on
from trainer.board.scenes.result import ResultScreen
from trainer.board.tools.registry import STAGE_TOOLS, Toolbox
from trainer.board.tools.tool import Tool
from trainer.cli import app
from trainer.course import finish
from trainer.picture.model import Text
from trainer.plan import Point
from trainer.quiz.question import Amount, InOrder
from trainer.rules.plain import kg, mm
from trainer.rules.whole import NOT_DONE
from trainer.session import Session
from trainer.shipped.course import course
from trainer.site import Event, HandOver, Mark, Stand
from trainer.site.actions import Measure
from trainer.site.model import Reading
from trainer.terms import STAGE_NAMES, VERBS, counted


def at(house: str, size: tuple[int, int] = (1280, 800), scale: float = 1.0, data: Path | None = None) -> Person:
    person = Person(size, scale=scale, data=data)
    person.wait_for_houses()
    person.arrow_to(house, "Houses")
    person.key("p")
    return person


# names


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_no_stage_has_the_name_of_a_tool(scale: float) -> None:
    person = at("wren", scale=scale)
    tools = {VERBS[tool.verb].name for tools in STAGE_TOOLS.values() for tool in tools}
    assert tools & set(STAGE_NAMES.values()), "their bare names do meet"
    shown = {node.name for node in person.see("region", "Tools").walk() if node.role == "tab"}
    shown |= {node.value for node in person.see("region", "Tools").walk() if node.role == "choice"}
    assert shown and not shown & tools


def test_a_place_is_never_said_to_be_at_minus_nothing() -> None:
    site = Session(level_of("wren")).site
    corners: list[Point] = [(x + d, y + d) for x, y in site.layout.house.plan.outline for d in (0.0, -1e-9, 1e-9)]
    assert all("-0" not in place_in_words(site, corner) for corner in corners)


def test_a_reading_that_is_off_says_by_how_much_and_where_to_look_that_up() -> None:
    person = at("wren")
    person.key("a")
    person.press_until("c", "What", "plate straight")
    assert any("near enough" in node.name and "half a millimetre" in node.name for node in person.tree().walk())
    off = Event(0, Measure(what="length", wall="A"), reading=Reading(4500.5, 4500.0))
    assert Tool.reading(off).endswith("0.5 mm out.")
    assert "as it should" in Tool.reading(Event(0, Measure(what="length", wall="A"), reading=Reading(4500.0, 4500.0)))


# where a house begins


def test_a_house_begins_with_looking_round_and_the_first_place_is_chosen() -> None:
    person = at("kookaburra")
    assert person.work.tool.verb == "check" and person.work.stage == "pre-start"
    assert person.work.site.job.conditions.checks[0] == person.work.tools["check"].item
    assert "look round" in person.status


def test_a_house_without_pre_start_and_one_gone_on_with_begin_further_on() -> None:
    assert Toolbox(Session(level_of("thornbill"))).tool.verb != "check"
    half = Session(level_of("wren"), 4).replay(right("wren", 4)[:60])
    assert half.site.lifted and Toolbox(half).tool.verb != "check"


@pytest.mark.parametrize(
    ("step", "opens"),
    [("set-out", ("set-out", "mark")), ("row", ("stand", "stand")), ("permanent", ("brace", "restrain")),
     ("verge", ("fix", "fit")), ("crossings", ("fix", "fix")), ("inspection", ("hand-over", "inspect"))],
)  # fmt: skip
def test_an_exercise_opens_at_the_stage_and_the_tool_that_have_something_left_to_do(
    step: str, opens: tuple[str, str]
) -> None:
    lesson = course().step(step)
    tools = Toolbox(finish(lesson, 1, level_of(lesson.finish[0]), 1).session())
    assert (tools.first_stage, tools.tool.verb) == opens


def test_each_house_begins_at_the_top_of_its_own_job_sheet() -> None:
    person = at("wren")
    sheet = person.app.scene.roots["side"]
    tops = [widget.rect.top for widget in sheet.walk() if widget.role == "text"]
    person.wheel(person.see("scroll", "Job sheet").rect.center, -6)
    person.wait(2)
    moved = [widget.rect.top for widget in person.app.scene.roots["side"].walk() if widget.role == "text"]
    assert moved[0] < tops[0]
    person.key("esc")
    person.arrow_to("wagtail", "Houses")
    person.key("p")
    again = [widget.rect.top for widget in person.app.scene.roots["side"].walk() if widget.role == "text"]
    assert again[0] == tops[0]


@pytest.mark.parametrize("house", ["kookaburra", "fantail"])
def test_the_job_sheet_has_the_mass_and_length_of_each_kind_for_the_lift_plan(house: str) -> None:
    person = at(house)
    sheet = next(node.value for node in person.tree().walk() if node.role == "text" and "Lifting" in node.value)
    lifting = sheet[sheet.index("Lifting") : sheet.index("Set-out")]
    lifts = person.work.site.job.lifts
    assert len(lifts) > 3
    for kind, lift in lifts.items():
        assert f"{counted(kind, lift.many)}, up to {kg(lift.mass)} and {mm(lift.length)} long" in lifting


# at work


@pytest.mark.parametrize("key", ["b", "g"])
def test_enter_with_no_truss_chosen_says_what_is_wanted(key: str) -> None:
    person = at("wren")
    person.key(key)
    if key == "b":
        person.press_until("c", "With", "batten: ties one truss to the next")
    person.tab_to("plan", "Plan")
    person.work.say("")
    person.key("enter")
    assert "standing truss" in person.status


def test_the_next_truss_is_not_drawn_over_the_one_just_stood() -> None:
    person = at("wren")
    member = person.work.site.layout.by_tag["ST12"]
    person.key("s")
    person.work.tools.aim_at(Stand(tag="ST12", start=member.start, finish=member.finish))
    assert person.work.tool.drawn("")
    person.work.act()
    person.read_note()
    following = person.work.hand.truss
    assert following not in {"", "ST12"} and person.work.tool.drawn("") == []
    person.work.tool.move(person.work, 1, 0, 600.0)
    said = [item.text for item in person.work.tool.drawn("") if isinstance(item, Text)]
    assert following in said, "it shows once it is aimed elsewhere"


def test_before_a_hand_over_practice_says_what_is_still_open_and_an_assessment_does_not() -> None:
    for mode in "pa":
        person = Person()
        person.wait_for_houses()
        person.arrow_to("pardalote", "Houses")
        person.key(mode)
        for action in right("pardalote", 4)[:-20]:
            person.work.session.do(action)
        before = person.work.session.diary().actions
        person.key("enter", ctrl=True)
        text = person.see("region", "Hand the roof over?").one("text").value
        assert ("Still open:" in text) == (mode == "p")
        assert person.work.session.diary().actions == before, "nothing is done by looking"


def test_a_drill_shows_how_much_of_it_is_done() -> None:
    person = Person()
    person.wait_for_houses()
    home = BackTo("Houses", "Houses", person.app.services.go_home)
    drill_on(person.app.services, level_of("wren"), "brace-the-row", home)
    person.wait(2)
    person.key("esc")
    seen = set()
    for _ in range(3):
        seen.add(next(node.name for node in person.see("region", "Top").walk() if "a drill" in node.name))
        person.key("h", times=4)
        person.key("enter")
        person.wait(2)
    assert len(seen) > 1 and all("done" in said for said in seen)


# large text


def test_the_wheel_scrolls_the_column_over_a_number_and_changes_nothing() -> None:
    person = at("kookaburra", scale=2.0)
    person.key("p", shift=True)
    person.tab_to("entry", "People")
    place = person.see("entry", "People")
    before = place.value
    person.wheel(place.rect.center, 2)
    person.wait(2)
    assert person.see("entry", "People").value == before
    assert person.see("entry", "People").rect.top > place.rect.top, "the column went on instead"


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
@pytest.mark.parametrize("key", ["q", "P", "S", "I", "s", "x"])
def test_what_does_it_is_in_sight_at_the_largest_text(size: tuple[int, int], key: str) -> None:
    person = at("kookaburra", size, 2.0)
    person.key(key.lower(), shift=key.isupper())
    if key == "s":
        person.key("down")
    button = next((node for node in person.tree().walk() if node.key == "panel/do"), None)
    assert button is not None and button.rect.height >= 44
    assert person.surface.get_rect().contains(button.rect)


# the result, and the records


def poor(person: Person) -> ResultScreen:
    """Handed over with much missing."""
    for action in right("wren", 4)[:-80]:
        person.work.do_recorded([action])
    person.work.do_recorded([HandOver()])
    person.work.assignment.handed_over(person.app.services, person.work.entry, person.work.session)
    person.wait(2)
    assert isinstance(person.app.scene, ResultScreen)
    return person.app.scene


def test_the_ways_on_are_in_sight_where_much_is_missing_and_the_worst_comes_first(tmp_path: Path) -> None:
    person = at("wren", data=tmp_path)
    scene = poor(person)
    for name in ("Build it again", "Practise what went wrong", "Write a report"):
        button = person.see("button", name)
        assert button.rect.height >= 44 and person.surface.get_rect().contains(button.rect), name
    rows = [row.name for row in person.see("list", "Findings").children]
    worst = ["Stop work", "Rework", "Out of tolerance", "Habit"]
    ranks = [next(n for n, word in enumerate(worst) if word in row) for row in rows]
    assert ranks == sorted(ranks) and len(rows) == len(scene.findings)


def test_the_list_of_attempts_names_what_was_missing(tmp_path: Path) -> None:
    person = at("wren", data=tmp_path)
    missing = [finding.what for finding in poor(person).mark.missing]
    person.key("esc")
    person.wait_for_houses()
    person.wait(3)
    person.arrow_to("wren", "Houses")
    person.key("p")
    person.work.do_recorded([Mark(wall="A", at=600)])
    person.work.do_recorded([HandOver()])
    person.work.assignment.handed_over(person.app.services, person.work.entry, person.work.session)
    person.key("esc")
    person.wait(3)
    person.arrow_to("wren", "Houses")
    person.key("l")
    rows = [row.name for row in person.see("list", "Which attempt?").children]
    assert len(rows) == 2 and any("not yet met" in row and any(what in row for what in missing) for row in rows)
    ids = sorted(person.app.services.records.seat().store.ids())
    shown = "".join(CliRunner().invoke(app, ["records", "show", name, "--data", str(tmp_path)]).stdout for name in ids)
    assert NOT_DONE in shown and any(what in shown for what in missing), "and so does the command line"


def test_a_house_that_was_never_begun_has_nothing_to_review() -> None:
    person = Person()
    person.wait_for_houses()
    path, entries = person.app.services.path, person.app.scene.library.entries  # type: ignore[attr-defined]
    taught = next(entry for entry in entries if entry.level.lesson.teaches)
    path.due = (("rule", taught.level.lesson.teaches[0]),)
    assert "to review" not in path.in_words(taught)
    path.drills = {taught.id: 1}
    assert "1 to review" in path.in_words(taught)


# finding things


def test_a_house_is_found_by_a_word_of_its_name() -> None:
    person = Person()
    person.wait_for_houses()
    title = level_of("kookaburra").title
    person.key("f", ctrl=True)
    person.write(title.split()[0].lower())
    assert title in " ".join(row.name for row in person.see("list", "What can be done").children)
    while title not in person.see("list", "What can be done").value:
        person.key("down")
    person.key("enter")
    assert person.app.scene.entry.id == "kookaburra" and person.focused.name == "Houses"  # type: ignore[attr-defined]


def test_trade_words_are_found_by_typing_and_several_show_at_once() -> None:
    person = at("wren")
    person.key("f8")
    words = person.see("list", "Trade words")
    shown = [row for row in words.children if words.rect.contains(row.rect)]
    assert len(shown) >= 4 and len(words.children) == len(TERMS)
    person.tab_to("entry", "Type some letters")
    person.write("sadd")
    rows = [row.name for row in person.see("list", "Trade words").children]
    assert rows and all("saddle" in row for row in rows)
    assert person.see("heading", "Saddle")
    person.write("zz")
    assert not person.see("list", "Trade words").children


# the quiz


def test_what_is_typed_after_an_empty_answer_is_the_answer() -> None:
    asked = first(Amount, worked=True)
    person = Person()
    kept = show(person, (asked,))
    person.click_on("button", "Answer")
    assert not kept
    person.type(1800)
    assert person.see("entry", "Your answer").value == "1800"


def test_digits_go_to_the_answer_wherever_the_focus_is() -> None:
    person = Person()
    show(person, (first(Amount, worked=True),))
    person.tab_to("button", "Answer")
    person.type(25)
    assert person.see("entry", "Your answer").value == "25"


def test_an_order_is_not_said_to_have_letters() -> None:
    person = Person()
    show(person, (first(InOrder, worked=True),))
    said = [node.name for node in person.tree().walk() if node.role == "label"]
    assert "Put them in order, the first one first." in said and not any("letters" in text for text in said)


def test_one_key_hints_at_work_and_in_the_quiz() -> None:
    person = at("wren")
    before = person.status
    person.key("h", ctrl=True)
    assert person.status != before and "Press H again" in person.status
    asked = first(Amount, worked=True)
    person = Person()
    show(person, (asked,))
    assert person.see("button", "Hint").shortcut == "Ctrl H"
