"""A drill on the board to its end: the way back, what is recorded of it, and what comes back for review."""

from pathlib import Path

from attempts import level_of
from board_person import Person
from board_screens import HOUSE

from trainer.board.scenes.drill_choice import DrillChoice
from trainer.board.scenes.home import Home
from trainer.board.scenes.result import ResultScreen
from trainer.board.scenes.work import Work
from trainer.drill import drill_for, make_drill
from trainer.records.attempt import Attempt
from trainer.rehearse import rehearse
from trainer.site import HandOver
from trainer.site.actions import Inspect

HOUR = 3_600_000


def at_houses(data: Path | None = None) -> Person:
    person = Person(data=data)
    person.wait_for_houses()
    person.wait(3)
    return person


def later(person: Person, by: int = HOUR) -> None:
    """Let time pass for the records."""
    seat = person.app.services.records.seat()
    clock = seat.clock
    seat.clock = lambda: clock() + by


def drilled(person: Person) -> list[Attempt]:
    """The attempts in the records that tell of a drill."""
    store = person.app.services.records.seat().store
    return [made for id_ in store.ids() for made in store.attempts(id_) if made.drills]


def with_a_mistake(person: Person, rule: str = "off-station") -> ResultScreen:
    """Build a house with one mistake and hand it over."""
    person.arrow_to(HOUSE, "Houses")
    person.key("p")
    for action in rehearse(level_of(HOUSE), 3, rule).actions[:-1]:
        person.work.do_recorded([action])
    person.work.do_recorded([HandOver()])
    person.work.assignment.handed_over(person.app.services, person.work.entry, person.work.session)
    scene = person.app.scene
    assert isinstance(scene, ResultScreen)
    return scene


def do_it(person: Person) -> None:
    """Do a drill by its own hints, with keys alone."""
    for _ in range(60):
        if person.app.asking:
            return
        person.key("h", times=4)
        person.key("enter")
    raise AssertionError("the drill never came to its end")


def test_a_drill_on_what_went_wrong_leads_back_to_the_result_and_is_recorded(tmp_path: Path) -> None:
    person = at_houses(tmp_path)
    scene = with_a_mistake(person)
    person.tab_to("button", "Practise what went wrong")
    person.key("enter")
    person.key("esc")
    assert isinstance(person.app.scene, Work)
    do_it(person)
    assert person.see("heading").name == "The drill is done"
    assert person.focused.name == "Back to the result"
    (made,) = drilled(person)
    (told,) = made.drills
    assert made.closed and made.seals
    assert (told["drill"], told["level"], told["right"], told["hinted"]) == (
        drill_for("off-station"),
        HOUSE,
        True,
        True,
    )
    person.key("enter")
    assert person.app.scene is scene
    person.tab_to("button", "Practise what went wrong")


def test_a_result_come_back_to_is_drawn_in_the_look_of_now(tmp_path: Path) -> None:
    person = at_houses(tmp_path)
    scene = with_a_mistake(person)
    person.click_on("button", "Practise what went wrong")
    person.key("esc")
    person.key("+", ctrl=True)
    person.key("esc")
    assert person.app.scene is scene
    fresh = Person(scale=person.app.look.scale)
    again = person.see("heading", "Result").rect
    assert again.height > 0
    assert not any(node.cut for node in person.tree().walk())
    assert fresh.app.look.line("heading") == person.app.look.line("heading")


def test_a_drill_chosen_on_a_house_leads_back_to_the_drills_by_mouse(tmp_path: Path) -> None:
    person = at_houses(tmp_path)
    person.click_row("Houses", HOUSE)
    person.click_on("button", "Drills")
    person.click_row("Which skill?", "what-order")
    person.click_on("button", "Begin")
    person.click_on("button", "Close")
    assert person.see("button", "Drills") and not person.sees("button", "Hand over")
    do_it(person)
    person.click_on("button", "Back to the drills")
    assert isinstance(person.app.scene, DrillChoice) and person.app.scene.chosen == "what-order"
    (row,) = [row for row in person.see("list", "Which skill?").children if row.key == "what-order"]
    assert "done right" in row.name
    person.key("esc")
    person.wait_for_houses()
    person.wait(3)
    assert any("1 drill done" in row.name for row in person.see("list", "Houses").children if row.key == HOUSE)


def at_drill(data: Path, drill: str) -> Person:
    """A drill begun from the houses, its task read."""
    person = at_houses(data)
    person.arrow_to(HOUSE, "Houses")
    person.key("d")
    person.arrow_to(drill, "Which skill?")
    person.key("enter")
    person.key("esc")
    return person


def test_another_one_like_it_is_a_new_drill_with_the_same_way_back(tmp_path: Path) -> None:
    person = at_drill(tmp_path, "read-the-tape")
    do_it(person)
    person.tab_to("button", "Another one like it")
    person.key("enter")
    assert person.see("heading").name != "The drill is done"
    person.key("esc")
    assert isinstance(person.app.scene, Work) and not person.work.session.outcomes
    do_it(person)
    assert len(drilled(person)) == 2
    person.key("enter")
    assert isinstance(person.app.scene, DrillChoice)


def test_a_drill_with_a_mistake_shows_it_first_and_makes_its_rule_come_back(tmp_path: Path) -> None:
    person = at_drill(tmp_path, "find-the-fault")
    sound = next(tag for tag in ("TG1", "G1", "H1") if not judged_wrong(person, tag))
    person.work.do([Inspect(tag=sound, accept=False)])
    assert "Look at what was found." in person.see("text").value
    assert person.focused.name == "Look at it"
    person.key("enter")
    assert person.see("region", "What was found")
    (made,) = drilled(person)
    (told,) = made.drills
    assert ([found["rule"] for found in told["found"]], told["right"]) == (["rejected-though-sound"], False)
    person.key("esc")
    person.key("esc")
    assert isinstance(person.app.scene, DrillChoice), "nothing is asked: it is done"
    later(person)
    person.app.services.path.look()
    assert ("rule", "rejected-though-sound") in person.app.services.path.due


def judged_wrong(person: Person, tag: str) -> bool:
    """Whether a truss is one of those at fault in the drill on the screen."""
    work = person.work
    return tag in make_drill("find-the-fault", level_of(HOUSE), work.session.job.seed).faults


def test_a_drill_done_right_puts_off_what_was_due(tmp_path: Path) -> None:
    person = at_houses(tmp_path)
    with_a_mistake(person)
    later(person)
    path = person.app.services.path
    path.look()
    assert ("rule", "off-station") in path.due
    kind = drill_for("off-station")
    person.key("esc")
    person.wait(3)
    person.key("d")
    person.arrow_to(kind, "Which skill?")
    person.key("enter")
    person.key("esc")
    do_it(person)
    path.look()
    assert ("rule", "off-station") not in path.due
    later(person, 60 * 24 * HOUR)
    path.look()
    assert ("rule", "off-station") in path.due, "it comes back"


def test_leaving_a_drill_in_the_middle_asks_says_so_and_records_nothing(tmp_path: Path) -> None:
    person = at_drill(tmp_path, "what-order")
    person.key("h", times=4)
    person.key("enter")
    assert person.work.session.outcomes and not person.app.asking
    person.key("enter", ctrl=True)
    assert not person.app.asking and "ends by itself" in person.status
    person.key("esc")
    assert "Nothing of it is recorded" in person.see("text").value
    person.tab_to("button", "Leave")
    person.key("enter")
    assert isinstance(person.app.scene, DrillChoice)
    assert drilled(person) == []
    person.key("esc")
    assert isinstance(person.app.scene, Home)


def test_without_records_a_drill_is_done_all_the_same() -> None:
    person = at_houses()
    person.arrow_to(HOUSE, "Houses")
    person.key("d")
    person.arrow_to("read-the-tape", "Which skill?")
    person.key("enter")
    person.key("esc")
    do_it(person)
    person.key("enter")
    assert isinstance(person.app.scene, DrillChoice)
