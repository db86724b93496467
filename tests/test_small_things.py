"""What somebody new stumbled over: undo, picks that stay, words that say too much or too little, skills shown."""

from attempts import layout_of, level_of, right
from board_person import ByKeyboard, Person

from trainer.order.inspection import sample
from trainer.session import Session
from trainer.session.session import DEEPEST
from trainer.session.skills import skills_shown
from trainer.site import Brace, Mark, Stand
from trainer.site.actions import Inspect


def at_work(level: str = "thornbill") -> Person:
    person = Person()
    person.app.open(level)
    person.wait(2)
    return person


def stand(tag: str) -> Stand:
    member = layout_of("thornbill").by_tag[tag]
    return Stand(tag=tag, start=member.start, finish=member.finish)


def test_undo_puts_the_truss_that_stood_back_in_the_hand_and_not_the_one_after_it() -> None:
    person = at_work()
    person.key("s")
    person.work.do([stand("ST1")])
    assert person.work.hand.truss == "ST2"
    person.key("u")
    assert person.work.hand.truss == "ST1"
    assert person.work.tool.actions() == [stand("ST1")]


def test_a_batten_is_picked_anew_each_time() -> None:
    person = at_work()
    for tag in ("ST1", "ST2"):
        person.work.session.do(stand(tag))
    person.work.changed()
    tool = person.work.tools["brace"]
    person.work.use("brace")
    tool.change_kind("batten")
    tool.every = 3000
    tool.pick(person.work, "ST1")
    tool.pick(person.work, "ST2")
    assert person.work.site.bracing and tool.picked == ()


def test_the_inspection_names_what_the_job_sheet_asks_for() -> None:
    person = at_work()
    for action in right("thornbill", 1):
        if isinstance(action, Inspect) or action.do == "hand_over":
            break
        person.work.session.do(action)
    person.work.changed()
    person.key("i")
    (said,) = [node.name for node in person.tree().walk() if "to be inspected" in node.name]
    wanted = sample(person.work.site.layout)
    assert len(wanted) == 2 and all(tag in said for tag in wanted)


def test_a_mark_says_whose_it_is_where_the_layout_is_at_hand() -> None:
    person = at_work()
    ByKeyboard(person).do(Mark(wall="A", at=900.0))
    hand = person.work.hand
    hand.caught = "on the mark"
    assert hand.note("A", 900.0) == "on the mark: ST1"
    assert hand.note("A", 2000.0) == "on the mark"


def test_a_skill_is_shown_where_its_first_act_came_of_the_deepest_hint() -> None:
    attempt = Session(level_of("thornbill"), 1, layout=layout_of("thornbill"))
    attempt.do(stand("ST1"))
    attempt.take_hint(DEEPEST)
    attempt.do(Brace(kind="solid", tags=("ST1",)))
    attempt.do(stand("ST5"))
    attempt.do(Brace(kind="solid", tags=("ST5",)))
    assert skills_shown(attempt.outcomes, attempt.site) == ("hold the first truss",)
