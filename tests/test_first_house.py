"""What a learner is told on the first house: what others do there, what comes next, and why."""

from pathlib import Path
from types import SimpleNamespace
from typing import cast

import pytest
from attempts import layout_of, level_of
from test_records_seat import seat_in

from trainer.board.diary_words import came_of, done, to_do
from trainer.board.glossary import words_in
from trainer.board.keeping import Records
from trainer.board.library import read_entry
from trainer.board.path import Path as LearningPath
from trainer.board.scenes.quiz_answer import reason_blocks
from trainer.board.scenes.work_side import how_far
from trainer.board.tools.hand import OTHER_CORNER
from trainer.board.tools.panel import Screen
from trainer.board.tools.registry import Toolbox
from trainer.board.tools.unbrace import UnbraceTool, pieces_on
from trainer.course.finish import finish
from trainer.picture.angled import YARD_SHARE, box_round, box_with_yard, scene_of
from trainer.picture.around import yard
from trainer.picture.model import Polygon
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.picture.struts import struts
from trainer.plan import inside
from trainer.quiz.of_rules import ABOUT_RULES, about_rule
from trainer.quiz.question import OneOf
from trainer.quiz.rule_kin import LATER, distractors, words_of
from trainer.records.drills import keep_drill
from trainer.rules import all_rules
from trainer.session import Session
from trainer.session.hands import run_on
from trainer.session.job_sheet import job_sheet
from trainer.shipped import find_level
from trainer.shipped.course import course
from trainer.site import needed_no_more
from trainer.site.actions import Brace, Mark, Stand

HOUSE = "thornbill"


def by_hints(until: str) -> Session:
    """The first house built as the hints say, up to the first step of a verb."""
    session = Session(level_of(HOUSE), 1)
    while (hint := session.hint()[0]).step.verb != until:
        outcome = session.do(hint.action)
        assert outcome.refused is None and not outcome.findings
    return session


def test_ends_that_others_fix_are_not_said_to_be_open() -> None:
    site = by_hints("restrain").site
    assert how_far(site, "ST1", {"ST1"}) == "braced · ends fixed by others"
    session = Session(level_of("wren"), 1)
    assert "fix" in session.site.job.stages
    assert how_far(session.site, "ST1", ()) == "not braced · 0 of 2 ends fixed"


@pytest.mark.parametrize(("house", "said"), [(HOUSE, "Others have measured them"), ("wren", "measured before trusses")])
def test_the_sheet_says_who_measures_the_plates(house: str, said: str) -> None:
    session = Session(level_of(house), 1)
    lines = [line for _heading, lines in job_sheet(level_of(house), session.site.job, "") for line in lines]
    assert [said in line for line in lines if line.startswith("Plates:")] == [True]


@pytest.mark.parametrize(
    ("house", "gables", "none"), [(HOUSE, True, True), ("wren", True, False), ("swallow", False, True)]
)
def test_the_sheet_says_when_gable_trusses_go_up_and_which_ties_are_not_needed(
    house: str, gables: bool, none: bool
) -> None:
    site = Session(level_of(house), 1, layout=layout_of(house)).site
    sheet = dict(job_sheet(level_of(house), site.job, ""))
    assert any("gable truss goes up" in line for line in sheet["Bracing while it goes up"]) == gables
    (ties,) = (line for line in sheet["Permanent bracing"] if line.startswith("Ties along the bottom chords"))
    assert ties.endswith("This house needs none.") == none
    widest = max(member.span for member in site.layout.members if member.full_height)
    assert none == (widest <= site.job.bracing.bottom_chord_ties), "no chord is longer than the gap that is allowed"


def test_a_hint_asks_for_the_inspection_only_when_the_roof_lacks_nothing_else() -> None:
    session = by_hints("read")
    wanting = {hint.step.verb for hint in session.hint()}
    assert wanting <= {"read", "inspect"}, "the roof braces are in by then"
    assert session.site.permanent


def test_a_piece_of_bracing_is_chosen_by_a_press_on_it_and_none_is_before() -> None:
    session = by_hints("strike")
    tool = Toolbox(session).use("unbrace")
    assert isinstance(tool, UnbraceTool)
    said: list[str] = []
    screen = cast(Screen, SimpleNamespace(say=said.append))
    assert tool.bracing is None and tool.row == "" and isinstance(tool.actions(), str)
    run = next(s for s in struts(session.site, Stander(session.site.layout).solids(session.site)) if s.run == "solid")
    (ax, ay), (bx, by) = run.a[:2], run.b[:2]
    tool.point_at((0.0, 0.0), None, 5.0)
    tool.press(screen, (ax + (bx - ax) * 0.6, ay + (by - ay) * 0.6), "")
    assert tool.bracing is not None and (tool.bracing.kind, tool.bracing.tags) == ("solid", run.of)
    (off,) = tool.actions()
    assert session.do(off).refused is None
    tool.after(off)
    assert pieces_on(session.site) and tool.bracing is None
    tool.press(screen, (-9000.0, -9000.0), "")
    assert tool.bracing is None and "no bracing there" in said[-1]


@pytest.mark.parametrize("house", [HOUSE, "wren"])
def test_a_brace_to_the_floor_is_drawn_to_a_floor_that_is_there(house: str) -> None:
    layout = layout_of(house)
    for member in (one for one in layout.members if one.ends[0].on_plate and one.ends[1].on_plate):
        session = Session(level_of(house), 1, layout=layout)
        session.do(Stand(tag=member.tag, start=member.start, finish=member.finish))
        session.do(Brace(kind="solid", tags=(member.tag,)))
        (strut,) = struts(session.site, Stander(layout).solids(session.site))
        assert inside(layout.house.plan.outline, *strut.b[:2]), f"{member.tag} is braced {strut.to} out of the house"


def test_a_tape_says_where_a_mark_stopped_it() -> None:
    session = Session(level_of(HOUSE), 1)
    tools = Toolbox(session)
    session.do_in_one_go(run_on(session.site, "A", 3600, 900, back=False, from_last=False)[:1])
    run = run_on(session.site, "A", 900, 900, back=False, from_last=False)
    assert "a mark is at 3600 from corner DA already" in came_of(session.do_in_one_go(run), tools)
    free = run_on(session.site, "C", 900, 900, back=False, from_last=False)
    assert "stopped" not in came_of(session.do_in_one_go(free), tools)


@pytest.mark.parametrize("form", ABOUT_RULES)
def test_a_question_on_a_rule_of_the_first_house_speaks_of_nothing_later_nor_says_itself_again(form: str) -> None:
    for rule in level_of(HOUSE).lesson.teaches:
        asked = about_rule(form, rule, 4)
        assert asked is not None and isinstance(asked.task, OneOf)
        assert not any(block.text == "Why" or block.text in asked.text for block in reason_blocks(asked))
        right = asked.task.choices[asked.task.right]
        own = words_of(f"{asked.text} {right}")
        for choice in asked.task.choices:
            assert not words_of(choice) & words_of(LATER) - own, (rule, choice)


def test_the_best_mark_is_none_of_chalk() -> None:
    assert not words_in("Done, best mark 100")
    assert [term.name for _a, _b, term in words_in("Make a mark")] == ["mark"]


def test_what_lies_before_the_first_house_is_in_the_picture_whole() -> None:
    session, turn = Session(level_of(HOUSE), 1), Turn()
    scene = scene_of(session.site, Stander(session.site.layout).solids(session.site))
    left, low, right, high = box_with_yard(scene, turn)
    items = [item for _far, pack in yard(session.site, scene.packs, turn) for item in pack]
    places = [at for item in items if isinstance(item, Polygon) for at in item.points]
    assert places and all(left <= x <= right and low <= y <= high for x, y in places)
    wide = box_round(scene.layout, turn)
    assert high - low <= (1 + YARD_SHARE) * (wide[3] - wide[1])


def test_a_lesson_is_not_counted_as_a_drill(tmp_path: Path) -> None:
    seat, first = seat_in(tmp_path), course().steps[0]
    house = first.finish[0]
    drill = finish(first, 1, level_of(house), 1)
    keep_drill(seat, drill, drill.session())
    path = LearningPath(cast(Records, SimpleNamespace(seat=lambda: seat, trouble="")))
    path.look()
    assert path.lessons == {house: 1} and not any(path.drills.values())
    said = path.in_words(read_entry(find_level(house)))
    assert "1 lesson done" in said and "drill" not in said


def test_most_wrong_choices_about_a_rule_come_from_its_own_stage_or_the_next() -> None:
    """A few from further off share more words with what is asked: else the right choice would be known by its words."""
    stages = [rule.stage for rule in all_rules()]
    order = sorted(set(stages), key=stages.index)
    apart = [
        abs(order.index(each.stage) - order.index(rule.stage))
        for rule in all_rules()
        for each in distractors(rule.why, rule.name, 3, 1, rule.name)
    ]
    assert len(apart) == 3 * len(stages)
    assert sum(gap <= 1 for gap in apart) > 0.8 * len(apart)


def test_after_the_last_straightening_and_the_last_strap_it_is_said_what_comes_next() -> None:
    session = Session(level_of("pardalote"), 1)
    said: dict[str, list[str]] = {"plumb": [], "restrain": []}
    while (hint := session.hint()[0]).step.verb != "strike":
        outcome = session.do(hint.action)
        said.setdefault(hint.action.do, []).append(came_of((outcome,), Toolbox(session)))
    for verb, tool in (("plumb", "Restrain"), ("restrain", "Fit")):
        assert f". That is all of it for now. Next: {tool}. " in said[verb][-1], said[verb][-1]
        assert not any("for now" in each for each in said[verb][:-1])


def test_while_braces_are_to_come_out_it_is_said_how_many() -> None:
    session = Session(level_of("thornbill"), 1)
    while (hint := session.hint()[0]).step.verb != "strike":
        session.do(hint.action)
    left = len(needed_no_more(session.site))
    assert left > 1
    for n in range(left - 1, 0, -1):
        out = session.do(session.hint()[0].action)
        assert came_of((out,), Toolbox(session)).endswith(f"{n} more brace{'s' * (n > 1)} can come out.")


def test_a_measure_is_said_as_the_tape_shows_it() -> None:
    """Typed 4500 from the other corner, it is 4500 that a learner reads again, and the corner is named."""
    session = Session(level_of(HOUSE), 1)
    tools = Toolbox(session)
    tools.hand.tape_from, tools.hand.tape_on = OTHER_CORNER, "C"
    made = Mark(wall="C", at=900.0)  # wall C is 5400 long
    said = came_of((session.do(made),), tools)
    assert "Marked wall C, at 4500 from corner CD. It reads 4" in said and "900" not in said
    assert to_do(made, tools) == "Mark wall C, at 4500 from corner CD"
    assert done(made, session.site) == ("Marked wall C", "at 900 from corner BC"), "a diary runs from the first corner"
    stand = Stand(tag="ST3", start=(4500.0, 3900.0), finish=(4500.0, 0.0))
    assert tools["stand"].detail_now(stand) == "wall C at 4500 from corner CD"
    past = came_of((session.do(Mark(wall="C", at=-1482.5)),), tools)
    assert past == "That can't be done. That is 1482.5 mm past the end of C, which is 5400 mm long."
