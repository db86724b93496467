"""Hands not quite there: beside marks, on labels, past corners, at re-entrant corners, with each way a truss lies."""

import math
import random

import pytest
from attempts import SHIPPED, layout_of, level_of, right
from board_person import Person

from trainer.board.aim import LIES, Aim, aims_of, bears_on_a_wall, ends, first_aim, foot, from_wall, on_wall
from trainer.board.snap import BEYOND, REACH, aim_for, lands, whole_step
from trainer.board.tools.registry import Toolbox
from trainer.layout import Layout
from trainer.picture.lettering import text_box
from trainer.picture.model import Text
from trainer.picture.placing import letter
from trainer.plan import Point, Wall
from trainer.session import Session
from trainer.site import HandOver, Mark, Site
from trainer.site.marking import ROUND_THE_CORNER

MM_PER_PX = 10.0
"""A whole house in a window, more or less."""
CATCHES = REACH * MM_PER_PX
STEP = whole_step(MM_PER_PX)
MARKS = (1200.0, 1560.0, 3000.0)
"""On wall A; the first two lie so close that a hand between them is near to both."""


def marked() -> Session:
    return Session(level_of("wren")).replay([Mark(wall="A", at=at) for at in MARKS])


def made(site: Site) -> tuple[float, ...]:
    """Where the marks are: nobody reads a tape to the millimetre."""
    found = tuple(sorted(site.marks["A"]))
    assert all(abs(a - b) <= 2 for a, b in zip(found, MARKS, strict=True))
    return found


def inside_corners(layout: Layout) -> list[tuple[Wall, Wall]]:
    """The walls before and after each re-entrant corner."""
    plan = layout.house.plan
    return [(plan.walls[i - 1], plan.walls[i]) for i in range(len(plan.walls)) if not plan.convex(i)]


def along_and_out(wall: Wall, along: float, out: float) -> Point:
    """A place ``along`` a wall and ``out`` from its outside face, mm."""
    (x, y), (nx, ny) = wall.at(along), wall.inward
    return (x - nx * out, y - ny * out)


# beside marks


@pytest.mark.parametrize("out", [-400.0, 0.0, 400.0])
@pytest.mark.parametrize("number", range(len(MARKS)))
def test_a_press_beside_a_mark_is_caught_by_it_and_by_no_other(number: int, out: float) -> None:
    """Whether the hand is on the plate, inside the house or out on the ground, where the measures are written."""
    session = marked()
    site, tools = session.site, Toolbox(session)
    wall, truss, mark = site.layout.house.plan.by_name["A"], site.layout.by_tag["ST1"], made(site)[number]
    held = first_aim(site.layout.house.plan, truss, "A")
    for beside in (-CATCHES + 1, -20.0, 0.0, 20.0, CATCHES - 1):
        place = along_and_out(wall, mark + beside, out)
        aim, by = aim_for(site, truss, place, held, MM_PER_PX)
        assert (aim.wall, aim.at, aim.off, by) == ("A", mark, 0.0, "on the mark"), beside
        tools["mark"].point_at(place, None, MM_PER_PX)
        assert tools["mark"].actions() == [Mark(wall="A", at=mark)], beside


@pytest.mark.parametrize("at", [MARKS[0] - CATCHES - 10, MARKS[0] + CATCHES + 10, MARKS[1] + CATCHES + 10, 2400.0])
def test_a_press_too_far_from_every_mark_is_a_whole_measure_and_says_so(at: float) -> None:
    site = marked().site
    wall = site.layout.house.plan.by_name["A"]
    truss = site.layout.by_tag["ST1"]
    held = first_aim(site.layout.house.plan, truss, "A")
    aim, by = aim_for(site, truss, wall.at(at), held, MM_PER_PX)
    assert aim.at % STEP == 0 and abs(aim.at - at) <= STEP / 2 and aim.at not in made(site)
    assert by == ""


def test_between_two_marks_the_nearer_one_catches() -> None:
    """Looked at from so far that both are in reach."""
    site = marked().site
    wall, truss = site.layout.house.plan.by_name["A"], site.layout.by_tag["ST1"]
    held, far = first_aim(site.layout.house.plan, truss, "A"), 30.0
    first, second, _third = made(site)
    for at, wanted in (((first + second) / 2 - 5, first), ((first + second) / 2 + 5, second)):
        assert aim_for(site, truss, wall.at(at), held, far)[0].at == wanted


# on labels


@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("house", ["wren", "kookaburra"])
def test_a_hand_on_the_lettering_of_a_truss_means_that_truss(house: str, scale: float) -> None:
    """Tags give way to each other on a crowded plan: wherever one is written, it is its truss that is pressed there."""
    person = Person((1280, 800), scale=scale)
    person.app.open(house)
    person.wait(3)
    person.build(action for action in right(house, 4) if not isinstance(action, HandOver))
    person.key("p")
    person.wait()
    px = person.plan.camera.view.scale
    lettered = letter(person.plan.still(px), px, scale, within=person.plan.reach())
    tags = [item for item in lettered.items if isinstance(item, Text)]
    tags = [text for text in tags if text.text in person.work.site.stood]
    assert len(tags) > 10
    for text in tags:
        x0, y0, x1, y1 = text_box(text, px)
        person.move(person.plan.to_window(((x0 + x1) / 2, (y0 + y1) / 2)))
        assert person.work.hovered == text.text


# past corners


@pytest.mark.parametrize("house", SHIPPED)
def test_a_hand_past_a_corner_holds_the_truss_by_a_wall_of_that_corner(house: str) -> None:
    site = Session(level_of(house)).site
    plan = site.layout.house.plan
    truss = next(m for m in site.layout.members if m.kind in ("standard", "half") and bears_on_a_wall(m))
    for number, (x, y) in enumerate(plan.outline):
        if not plan.convex(number):
            continue
        corner = {plan.walls[number - 1].name, plan.walls[number].name}
        ((dx, dy),) = {(-(a[0] + b[0]), -(a[1] + b[1])) for a, b in [[plan.by_name[n].inward for n in sorted(corner)]]}
        for out in (30.0, 120.0, 700.0):
            place = (x + dx * out, y + dy * out)
            aim, _by = aim_for(site, truss, place, first_aim(plan, truss, plan.walls[0].name), MM_PER_PX)
            assert aim.wall in corner, (number, out)
            assert -BEYOND <= aim.at <= plan.by_name[aim.wall].length + BEYOND
            assert aim.off == 0


@pytest.mark.parametrize("house", ["pardalote", "wren"])
def test_a_mark_goes_no_further_past_a_corner_than_a_tape_goes_round_it(house: str) -> None:
    session = Session(level_of(house))
    tools = Toolbox(session)
    for wall in tools.hand.plan.walls:
        for past in (100.0, 299.0, 2000.0):
            for along in (-past, wall.length + past):
                tool = tools["mark"]
                tool.on = wall.name
                tool.point_at(wall.at(along), None, MM_PER_PX)
                (mark,) = tool.actions()
                assert isinstance(mark, Mark)
                length = tools.hand.plan.by_name[mark.wall or ""].length
                assert -ROUND_THE_CORNER <= mark.at <= length + ROUND_THE_CORNER
                assert session.do(mark).refused is None
                session.undo()


# at re-entrant corners


@pytest.mark.parametrize("house", ["wren", "lorikeet", "kookaburra"])
def test_beside_a_re_entrant_corner_the_wall_under_the_hand_is_meant(house: str) -> None:
    """Both walls meet there at no distance at all: along either, on the plate or just outside it, that one is meant."""
    layout = layout_of(house)
    corners = inside_corners(layout)
    assert corners
    tools = Toolbox(Session(level_of(house)))
    for before, after in corners:
        for wall, along in ((before, before.length - 300), (after, 300.0)):
            for out in (-60.0, -20.0, 0.0, 20.0):
                place = along_and_out(wall, along, out)
                for held in (before.name, after.name):
                    tools["mark"].on = held
                    tools["mark"].point_at(place, None, MM_PER_PX)
                    assert tools["mark"].actions() == [Mark(wall=wall.name, at=round(along / STEP) * STEP)], (held, out)


@pytest.mark.parametrize("house", ["wren", "lorikeet", "kookaburra"])
def test_in_a_re_entrant_corner_itself_the_wall_that_is_held_stays_held(house: str) -> None:
    tools = Toolbox(Session(level_of(house)))
    for before, after in inside_corners(layout_of(house)):
        for wall, at in ((before, before.length), (after, 0.0)):
            tools["mark"].on = wall.name
            tools["mark"].point_at(after.a, None, MM_PER_PX)
            assert tools["mark"].actions() == [Mark(wall=wall.name, at=at)]


# with each way a truss lies


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("lies", LIES)
def test_whichever_way_a_truss_lies_what_is_aimed_is_said_back_by_the_same_tape(lies: str, turned: bool) -> None:
    dice = random.Random(f"{lies} {turned}")
    for house in SHIPPED[:4]:
        layout = layout_of(house)
        plan = layout.house.plan
        for member in dice.sample(layout.members, 6):
            wall = dice.choice(plan.walls)
            aim = Aim(wall.name, dice.randrange(0, int(wall.length)) / 1.0, dice.choice([0.0, 1800.0]), lies, turned)
            said = aims_of(plan, member, *ends(plan, member, aim))
            assert aim in said, (house, member.tag, aim)
            start, finish = ends(plan, member, aim)
            assert abs(math.dist(start, finish) - member.span) <= 1
            assert math.dist(foot(plan, aim), finish if turned else start) <= 1


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("lies", LIES)
def test_a_truss_is_held_where_the_hand_is_and_lies_as_it_lay(lies: str, turned: bool) -> None:
    """One for a plate has its end put on the wall at hand; any other is held by its middle. Neither turns by itself."""
    dice = random.Random(f"held {lies} {turned}")
    for house in SHIPPED[:4]:
        site = Session(level_of(house)).site
        plan = site.layout.house.plan
        (left, low), (right, high) = (tuple(f(axis) for axis in zip(*plan.outline, strict=True)) for f in (min, max))
        for member in dice.sample(site.layout.members, 6):
            held = Aim(dice.choice(plan.walls).name, 0.0, 0.0, lies, turned)
            place = (dice.uniform(left, right), dice.uniform(low, high))
            aim, _by = aim_for(site, member, place, held, MM_PER_PX)
            assert aim.turned == turned
            if bears_on_a_wall(member):
                wall = plan.by_name[aim.wall]
                landing = [w for w in plan.walls if lies == "square" and lands(site, member, w, on_wall(w, place)[0])]
                over = [w for w in landing if 0 <= on_wall(w, place)[1] <= member.span] or plan.walls
                same = aim.wall == held.wall and over is not plan.walls
                assert wall in over and (same or from_wall(wall, place) == min(from_wall(w, place) for w in over))
                assert aim.off == 0
                along = min(max(on_wall(wall, place)[0], 0.0), wall.length)
                assert abs(aim.at - along) <= CATCHES + BEYOND
                assert aim.lies == lies or member.kind == "hip"
            else:
                start, finish = ends(plan, member, aim)
                middle = ((start[0] + finish[0]) / 2, (start[1] + finish[1]) / 2)
                assert math.dist(middle, place) <= math.hypot(CATCHES, STEP)
                assert (aim.wall, aim.lies) == (held.wall, lies)


def test_a_hip_points_into_the_house_from_whichever_half_of_a_wall_it_is_held_at() -> None:
    site = Session(level_of("wren")).site
    plan, hip = site.layout.house.plan, site.layout.by_tag["H1"]
    for wall in plan.walls:
        for part, lies in ((0.1, "on"), (0.4, "on"), (0.6, "back"), (0.9, "back")):
            aim, _by = aim_for(site, hip, wall.at(wall.length * part), first_aim(plan, hip, wall.name), MM_PER_PX)
            assert (aim.wall, aim.lies) == (wall.name, lies), part


@pytest.mark.parametrize("mm_per_px", [MM_PER_PX, 20.0])
@pytest.mark.parametrize("house", ["thornbill", "wren", "kookaburra"])
def test_a_press_near_a_gable_truss_s_station_is_caught_by_it(house: str, mm_per_px: float) -> None:
    """And not by the place where a girder of two plies would lie, which no house has inside an end wall."""
    tools = Toolbox(Session(level_of(house)))
    site = tools.hand.site
    gables = {member.tag for member in site.layout.members if member.kind == "gable"}
    places = [(w, one.run) for w, all_of_it in site.job.stations.items() for one in all_of_it if one.tag in gables]
    assert places
    for name, run in places:
        wall = site.layout.house.plan.by_name[name]
        inward = 1 if run < wall.length / 2 else -1
        for along in (0.0, mm_per_px / 2, mm_per_px):
            tools["mark"].point_at(wall.at(run + inward * along), None, mm_per_px)
            assert tools["mark"].actions() == [Mark(wall=name, at=run)], (name, run, along)
