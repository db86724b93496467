"""Looking back on the board: from moment to moment, from finding to finding, and into a drill on what went wrong."""

import math

import pytest
from board_person import Person
from board_screens import _half_built, _open, looking_back, poor_result
from board_site import fallen

from trainer.board.scenes.result import ResultScreen
from trainer.board.scenes.work import Work
from trainer.board.section_line import LEAST
from trainer.board.section_view import SectionView, first_line
from trainer.board.snap import tape_places
from trainer.picture.cut import SectionLine
from trainer.site import Brace, Stand
from trainer.site.actions import Clear, Report


def result(person: Person) -> ResultScreen:
    assert isinstance(person.app.scene, ResultScreen)
    return person.app.scene


def moment(person: Person) -> int:
    return int(person.see("slider").value.split(" / ")[0])


def test_the_line_goes_to_any_moment_by_keys_and_by_mouse() -> None:
    person = Person()
    poor_result(person)
    last = moment(person)
    person.tab_to("slider", "Moment")
    person.key("home")
    assert moment(person) == 0 and not result(person).back.site.stood
    person.key("right", times=3)
    assert moment(person) == 3
    line = person.see("slider").rect
    person.click((line.centerx, line.bottom - 16))
    assert moment(person) == pytest.approx(last / 2, abs=2)
    person.key("end")
    assert moment(person) == last


def test_findings_are_marks_on_the_line_and_next_finding_goes_through_them() -> None:
    person = Person()
    looking_back(person)
    scene = result(person)
    seen = {scene.back.at}
    for _ in range(len(scene.findings)):
        person.key("enter")
        seen.add(scene.back.at)
        assert scene.back.found
    assert seen == set(scene.back.of_finding.values())


def test_it_plays_on_by_itself_faster_at_a_higher_speed_and_stops_at_the_end() -> None:
    person = Person()
    poor_result(person)
    person.tab_to("button", "Play")
    person.key("enter")
    went = []
    for _speed in range(2):
        before = moment(person)
        person.wait_long(2000)
        went.append(moment(person) - before)
        person.tab_to("choice", "Speed")
        person.key("right")
    assert 0 < went[0] < went[1]
    result(person).back.go(result(person).back.last - 2)
    person.wait_long(3000)
    assert not result(person).back.playing and moment(person) == result(person).back.last


def test_a_finding_that_is_opened_is_shown_at_its_own_moment() -> None:
    person = Person()
    poor_result(person)
    person.key("enter")
    scene = result(person)
    finding = scene.findings[int(scene.chosen)]
    assert scene.back.found and finding in scene.back.found
    person.key("esc")
    assert scene.back.at == scene.back.last


def test_practise_what_went_wrong_opens_a_drill_on_it() -> None:
    person = Person()
    poor_result(person)
    person.tab_to("button", "Practise what went wrong")
    person.key("enter")
    assert isinstance(person.app.scene, Work) and person.app.asking
    person.key("esc")
    assert not person.app.asking and person.work.site.stood


def lying(person: Person) -> dict[str, float]:
    """How far off flat what is drawn as fallen is, in degrees."""
    return {t: round(90 - math.degrees(abs(s.over))) for t, s in person.work.views.look().solids.items() if s.over}


def test_a_row_is_seen_falling_and_lies_there_until_it_is_cleared() -> None:
    person = Person()
    fallen(person)
    assert person.sees("button", "Take it back")
    assert any("Report the fall" in text.value for text in person.tree().all("text"))
    down = lying(person)
    assert set(down) == {"ST12", "ST13", "ST14", "ST15", "ST16"} and max(down.values()) < 5
    person.read_note()
    person.wait(2)
    assert lying(person) == down, "it lies there once what was found has been read"
    person.work.do([Report(fault="a fall"), Clear()])
    person.wait(2)
    assert lying(person) == {} and not person.work.site.stood


def test_with_movement_off_a_row_lies_at_once() -> None:
    frames = []
    for still in (False, True):
        person = Person()
        person.app.comfort.remember(still=still)
        fallen(person)
        down = lying(person)
        person.work.close_note()
        person.wait(1)
        person.work.undo()
        person.wait(1)
        person.work.do([a for a in person.work.session.diary().actions if a.do == "unbrace"])
        person.wait(1)
        frames.append(lying(person) == down)
    assert frames == [False, True]


def test_the_angled_view_turns_by_keys_mouse_and_button_and_a_press_chooses() -> None:
    person = Person()
    fallen(person)
    person.read_note()
    view = person.work.views.view()
    before = view.value
    person.tab_to("view", "Angled")
    person.key("left")
    turned = view.value
    assert turned != before
    middle = view.rect.center
    person.press(middle)
    person.move((middle[0] + 80, middle[1] + 20))
    person.let_go((middle[0] + 80, middle[1] + 20))
    assert view.value not in (before, turned)
    person.wait_long(500)
    person.click_on("button", "Turn")
    person.wait_long(500)
    solid = person.work.views.look().solids["ST14"]
    spot = view.to_window(view.turn.flat(solid.top(solid.member.span * 0.9)))  # type: ignore[attr-defined]
    person.click(spot)
    assert person.work.hand.truss in {"ST13", "ST14", "ST15"}


def test_what_nothing_holds_has_a_ring_in_practice_and_none_in_an_assessment() -> None:
    notes = []
    for mode in "pa":
        person = Person()
        _open(person, mode)
        member = person.work.site.layout.by_tag["ST14"]
        person.work.do([Stand(tag="ST14", start=member.start, finish=member.finish)])
        person.work.close_note()
        person.key("f4")
        notes.append("ring" in person.see("view").value)
        person.work.do([Brace(kind="solid", tags=("ST14",))])
        assert "ring" not in person.see("view").value
    assert notes == [True, False]


def test_all_views_are_reached_and_used_by_mouse_alone() -> None:
    person = Person()
    fallen(person)
    person.read_note(by_mouse=True)
    seen = {}
    for tab in ("Angled", "Section", "Truss", "Plan"):
        person.click_on("tab", tab)
        seen[tab] = person.see("plan" if tab == "Plan" else "view").value
    person.click_on("tab", "Angled")
    for button in ("Turn", "Tilt", "Roof planes", "Lean × 8"):
        before = person.see("view").value, person.work.views.look(), person.see("button", button).value
        person.click_on("button", button)
        person.wait_long(500)
        assert before != (person.see("view").value, person.work.views.look(), person.see("button", button).value)
    view = person.work.views.view()
    before = view.camera.view
    person.wheel(view.rect.center, 2)
    nearer = view.camera.view
    assert nearer.scale > before.scale
    person.press(view.rect.center, 3)
    person.move((view.rect.centerx + 60, view.rect.centery))
    person.let_go((view.rect.centerx + 60, view.rect.centery), 3)
    assert view.camera.view.left == pytest.approx(nearer.left - 60 / nearer.scale)


def drawing_a_line() -> Person:
    person = Person()
    _half_built(person)
    person.key("f5")
    person.tab_to("button", "Draw the line")
    person.key("enter")
    assert person.work.views.which == "plan" and person.focused.role == "plan"
    return person


def line_shown(person: Person) -> SectionLine:
    view = person.work.views.view()
    assert isinstance(view, SectionView) and person.work.views.which == "section"
    return view.line


ENDS = ((1500.0, -600.0), (12_000.0, 9000.0))


@pytest.mark.parametrize("way", ["dragged", "clicked", "arrows", "typed"])
def test_a_section_runs_on_whatever_line_is_drawn(way: str) -> None:
    """By mouse pressed and dragged or clicked twice, by arrows, or typed: the same line, and the section shows it."""
    person = drawing_a_line()
    begin, end = (person.plan.to_window(place) for place in ENDS)
    if way == "dragged":
        person.press(begin)
        person.move(((begin[0] + end[0]) // 2, begin[1]))
        person.move(end)
        person.let_go(end)
    elif way == "clicked":
        person.click(begin)
        person.move(end)
        person.click(end)
    elif way == "typed":
        for place, names in zip(ENDS, (("Begins: across", "Begins: up"), ("Ends: across", "Ends: up")), strict=True):
            for name, number in zip(names, place, strict=True):
                person.tab_to("entry", name)
                person.type(number)
            person.key("enter")
    else:
        for place in ENDS:
            x, y = person.plan.drawer.ends[person.plan.drawer.end]  # type: ignore[union-attr]
            for back, on, off in (("left", "right", place[0] - x), ("down", "up", place[1] - y)):
                person.key(on if off > 0 else back, times=int(abs(off) // 50))
                person.key(on if off > 0 else back, times=round(abs(off) % 50), shift=True)
            person.key("enter")
    cut = line_shown(person)
    for at, place in zip((cut.a, cut.b), ENDS, strict=True):
        assert at == pytest.approx(place, abs=1 if way in {"typed", "arrows"} else 60)
    assert person.see("view").value == cut.words


def test_a_line_that_is_being_drawn_can_be_left_and_nothing_else_happens() -> None:
    person = drawing_a_line()
    before = person.work.site.done
    person.click(person.plan.to_window((3000, 3000)))
    person.key("esc")
    assert person.plan.drawer is None and person.work.site.done == before
    person.key("f5")
    assert isinstance(view := person.work.views.view(), SectionView)
    assert view.across == first_line(person.work.site.layout.house.plan)


def test_a_line_moves_away_and_nearer_by_keys() -> None:
    person = Person()
    _half_built(person)
    person.work.choose("")
    person.key("f5")
    person.tab_to("view", "Section")
    first = line_shown(person)
    person.key("up", times=3)
    person.key("down", times=1)
    moved = line_shown(person)
    assert first.place(moved.a) == pytest.approx((0.0, 200.0)) and first.place(moved.b)[1] == pytest.approx(200.0)


def test_a_line_is_found_by_name_and_goes_from_corner_to_corner() -> None:
    person = Person()
    _half_built(person)
    person.key("f", ctrl=True)
    person.write("line of a section")
    person.key("enter")
    assert person.plan.drawer is not None and person.focused.role == "plan"
    spots = {spot for spot, _by in tape_places(person.work.site)}
    person.key("n")
    person.key("enter")
    person.work.plan.drawer.put(1, person.work.plan.drawer.ends[0])  # type: ignore[union-attr, attr-defined]
    person.key("enter")
    assert "too short" in person.work.message and person.plan.drawer is not None
    person.key("n", times=20)
    person.key("enter")
    cut = line_shown(person)
    assert {cut.a, cut.b} <= spots and cut.length >= LEAST
