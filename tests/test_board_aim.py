"""Measures and places: every truss of every shipped house can be told by a tape, and is caught where it nearly is."""

import math
import random
from dataclasses import replace
from unittest.mock import Mock

import pytest
from attempts import SHIPPED, layout_of, level_of, right

from trainer.board.aim import LIES, Aim, bears_on_a_wall, ends, first_aim, foot, on_wall
from trainer.board.snap import BEYOND, REACH, Caught, aim_for, catch, drop_in_places, whole_step
from trainer.board.tools.hand import OTHER_CORNER
from trainer.board.tools.registry import Toolbox
from trainer.board.widgets import NumberEntry
from trainer.layout import Member
from trainer.session import Session
from trainer.site import Mark, Site, Stand

NEAR = 1.0
"""Typed measures are whole or half millimetres; a slanting truss may come this far off, mm."""


def told(member: Member, walls: tuple[str, ...], plan_of: str) -> list[Aim]:
    """Every aim in halves of a millimetre that puts a truss where it belongs."""
    plan = layout_of(plan_of).house.plan
    found = []
    for name in walls:
        for turned in (False, True):
            along, off = on_wall(plan.by_name[name], member.finish if turned else member.start)
            for lies in LIES:
                aim = Aim(name, round(along * 2) / 2, round(off * 2) / 2, lies, turned)
                start_, finish = ends(plan, member, aim)
                if math.dist(start_, member.start) <= NEAR and math.dist(finish, member.finish) <= NEAR:
                    found.append(aim)
    return found


@pytest.mark.parametrize("house", SHIPPED)
def test_every_truss_can_be_told_by_typed_measures(house: str) -> None:
    layout = layout_of(house)
    walls = tuple(wall.name for wall in layout.house.plan.walls)
    for member in layout.members:
        aims = told(member, walls, house)
        assert aims, f"{member.tag} can't be told"
        if bears_on_a_wall(member):
            plan = layout.house.plan
            assert any(aim.off == 0 and -BEYOND <= aim.at <= plan.by_name[aim.wall].length + BEYOND for aim in aims), (
                member.tag
            )


def fully_marked(house: str) -> Site:
    """A site with every right mark on its walls."""
    marks = [a for a in right(house, 1) if isinstance(a, Mark) and a.wall]
    return Session(level_of(house)).replay(marks).site


@pytest.mark.parametrize("house", SHIPPED)
def test_a_truss_held_near_its_marks_is_caught_by_them(house: str) -> None:
    """Held up to 60 mm off at 10 mm to the px, a truss with an end on a plate is set within the station tolerance."""
    site = fully_marked(house)
    dice = random.Random(house)
    plan = site.layout.house.plan
    tried = 0
    for member in site.layout.members:
        for number, end in enumerate(member.ends):
            if not end.on_plate or member.kind == "hip":
                continue
            wall = plan.by_name[end.bears_on.removeprefix("plate ")]
            along, off = on_wall(wall, end.at)
            if abs(off) > 1 or not 0 < along < wall.length:
                continue  # an end past a corner is told from another wall
            held = replace(first_aim(plan, member, wall.name), turned=number == 1)
            pointed = wall.at(along + dice.uniform(-60, 60))
            aim, by = aim_for(site, member, pointed, held, 10.0)
            assert (aim.wall, by) == (wall.name, "on the mark"), member.tag
            assert abs(aim.at - along) <= site.job.station_tolerance, member.tag
            tried += 1
    assert tried > 10


def test_a_hip_is_caught_at_its_corner_and_points_into_the_house() -> None:
    site = Session(level_of("wren")).site
    plan = site.layout.house.plan
    hip = site.layout.by_tag["H1"]
    aim, by = aim_for(site, hip, (40.0, -30.0), first_aim(plan, hip, "C"), 10.0)
    assert ends(plan, hip, aim)[0] == (0.0, 0.0)
    assert math.dist(ends(plan, hip, aim)[1], (1800.0, 1800.0)) <= NEAR
    assert by == "at the corner"
    other = site.layout.by_tag["H3"]
    aim, _by = aim_for(site, other, (13190.0, 20.0), first_aim(plan, other, "A"), 10.0)
    assert math.dist(ends(plan, other, aim)[1], (11400.0, 1800.0)) <= NEAR


@pytest.mark.parametrize("house", ["wren", "lorikeet"])
def test_what_hangs_at_both_ends_is_caught_where_both_bear(house: str) -> None:
    """In a right order, before each truss that no plate carries, its place is among those that catch."""
    session = Session(level_of(house), 3)
    caught = 0
    for action in right(house, 3):
        if isinstance(action, Stand):
            member = session.site.layout.by_tag[action.tag]
            if not bears_on_a_wall(member):
                plan = session.site.layout.house.plan
                walls = tuple(wall.name for wall in plan.walls)
                aims = told(member, walls, house)
                places = [(a, p) for a in aims for p in drop_in_places(session.site, member, a)]
                assert any(math.dist(foot(plan, a), p) <= 2 for a, p in places), member.tag
                caught += 1
        session.do(action)
    assert caught >= 3


def hung_in(house: str) -> list[tuple[Site, Member, Aim, list[tuple[float, float]]]]:
    """Each truss that no plate carries, just before it is stood in a right order: how it is held, where it drops in."""
    session = Session(level_of(house), 3)
    found = []
    for action in right(house, 3):
        member = session.site.layout.by_tag[action.tag] if isinstance(action, Stand) else None
        if member is not None and not bears_on_a_wall(member):
            plan = session.site.layout.house.plan
            for aim in told(member, tuple(wall.name for wall in plan.walls), house):
                places = drop_in_places(session.site, member, aim)
                if any(math.dist(foot(plan, aim), place) <= 2 for place in places):
                    found.append((session.site, member, aim, places))
                    break
        session.do(action)
    return found


@pytest.mark.parametrize(("far", "drops_in"), [(0.0, True), (0.9, True), (1.5, True), (1.7, False), (3.0, False)])
def test_a_hand_half_as_far_again_as_other_places_reach_still_drops_a_truss_in(far: float, drops_in: bool) -> None:
    """Both ends on lines is rarer than one mark, and what is mostly meant: it reaches 1.6 times as far."""
    tried = 0
    for site, member, aim, places in hung_in("wren"):
        start_, finish = ends(site.layout.house.plan, member, aim)
        for turn in range(8):
            aside = (math.cos(turn * math.pi / 4), math.sin(turn * math.pi / 4))
            middle = [(a + b) / 2 + far * REACH * 10.0 * way for a, b, way in zip(start_, finish, aside, strict=True)]
            held = (middle[0] - (finish[0] - start_[0]) / 2, middle[1] - (finish[1] - start_[1]) / 2)
            if min(math.dist(held, place) for place in places) < far * REACH * 10.0 - 1:
                continue  # the hand comes nearer to another place
            _aim, by = aim_for(site, member, (middle[0], middle[1]), replace(aim, at=0.0), 10.0, places)
            assert (by == "both ends on a line or a mark") == drops_in, (member.tag, turn)
            tried += 1
    assert tried > 8


@pytest.mark.parametrize(
    ("value", "reach", "wanted"),
    [
        (1790.0, 30.0, 1800.0),
        (1760.0, 30.0, 1750.0),
        (1812.0, 5.0, 1800.0),
        (1838.0, 5.0, 1850.0),
        (2231.0, 30.0, 2234.5),
    ],
)
def test_catch_takes_the_nearest_in_reach_or_else_a_whole_step(value: float, reach: float, wanted: float) -> None:
    places = [Caught(1800.0, "on the mark"), Caught(2234.5, "flush")]
    assert catch(value, places, reach, 50.0).value == wanted


@pytest.mark.parametrize(("mm_per_px", "step"), [(0.1, 1.0), (1.0, 5.0), (2.0, 10.0), (4.9, 25.0), (30.0, 50.0)])
def test_the_step_grows_with_the_distance(mm_per_px: float, step: float) -> None:
    assert whole_step(mm_per_px) == step


def test_the_tape_reads_from_either_corner() -> None:
    tools = Toolbox(Session(level_of("wren")))
    tool = tools["mark"]
    tool.on = "A"
    tool.hold(1800.0)

    def tape() -> NumberEntry:
        controls = (widget for control in tool.panel(Mock()) for widget in control.walk())
        return next(widget for widget in controls if isinstance(widget, NumberEntry))

    assert tape().number == 1800.0
    tools.hand.tape_from = OTHER_CORNER
    length = tools.hand.plan.by_name["A"].length
    assert tape().number == length - 1800.0
    tape().take(length - 2400.0)
    assert tool.at == 2400.0


def test_on_the_line_of_a_mark_a_truss_lies_square_to_the_wall_with_the_mark() -> None:
    """Nearer to the end wall than to the marks, as the first truss of a row is."""
    session = Session(level_of("thornbill"), 1)
    for wall, at in (("A", 900.0), ("C", 4500.0)):
        assert session.do(Mark(wall=wall, at=at)).refused is None
    member = session.site.layout.by_tag["ST1"]
    held = first_aim(session.site.layout.house.plan, member, "A")
    aim, _by = aim_for(session.site, member, (905.0, 1950.0), held, 8.0)
    assert aim.wall in {"A", "C"} and aim.lies == "square" and aim.at in {900.0, 4500.0}
    aim, _by = aim_for(session.site, member, (300.0, 1950.0), held, 8.0)
    assert (aim.wall, aim.at) == ("A", 300.0), "where there is no mark it stands across, and never along a wall"
    aim, _by = aim_for(session.site, member, (300.0, 3000.0), held, 8.0)
    assert (aim.wall, aim.at) == ("A", 300.0), "measured from the wall that it was measured from"
