"""The eave and the roof line, as every drawing shows them on the forms that ordinary houses have."""

import math

import pytest
from attempts import layout_of, level_of

from trainer.picture.angled import Scene3, angled
from trainer.picture.as_built import ground
from trainer.picture.cut import SectionLine
from trainer.picture.finished import covered
from trainer.picture.house import grown
from trainer.picture.measures import measures
from trainer.picture.model import Line, Polygon, flat
from trainer.picture.section import section
from trainer.picture.space import Turn
from trainer.picture.still_site import StillSite
from trainer.session import Session


def outlines(items):
    return [item.points for item in items if isinstance(item, Polygon) and item.edge == "faint"]


def test_the_eave_on_plan_runs_straight_past_a_shallow_step():
    """Trade brief, layout rule 10: eaves use the straightened outline, so the eave is wider over the set-back wall."""
    layout = layout_of("sandpiper")
    straight = ((-600, -600), (12_600, -600), (12_600, 7800), (-600, 7800))
    on_ground = [set(points) for points in outlines(ground(layout))]
    assert set(straight) in on_ground
    on_board = StillSite(layout).items(Session(level_of("sandpiper"), 1, layout=layout).site, 0.1)
    assert set(straight) in [set(points) for points in outlines(on_board)]


def test_the_tape_of_a_set_back_wall_lies_outside_the_widened_eave():
    tape = next(group for group in measures(layout_of("sandpiper"), 150.0).items if group.of == "C")
    assert all(y < -600 for item in flat(tape) if isinstance(item, Line) and item.width == 0.9 for _x, y in item.points)


@pytest.mark.parametrize(("name", "eaves"), [("sandpiper", 4), ("robin", 3), ("swallow", 3), ("martin", 3)])
def test_the_angled_view_has_an_eave_at_each_wall_that_has_one(name, eaves):
    layout, turn = layout_of(name), Turn(30.0, 32.0)
    spec, plan = layout.house.roof, layout.house.roof_plan
    low = spec.heel - spec.overhang * spec.slope
    drawn = [i.points for i in angled(Scene3(layout, {}, ()), turn, 0.1) if isinstance(i, Line) and i.width == 0.8]
    corners = {turn.flat((x, y, low)) for x, y in grown(plan, spec.overhang)}
    assert len(drawn) == eaves
    assert all(math.dist(end, min(corners, key=lambda c: math.dist(c, end))) < 1 for line in drawn for end in line)


def test_the_roof_line_of_a_section_shows_the_small_verge_of_a_dutch_gable():
    """By hand: ridge at 3600, girder 1800 in with a verge of 300 at one end; the end's plane runs on under it."""
    layout = layout_of("robin")
    spec, plan = layout.house.roof, layout.house.plan
    x0, y0, x1, y1 = plan.bounds
    middle = (y0 + y1) / 2
    (gable,) = plan.dutch_gables
    cut = SectionLine((x0 - 900.0, middle + 10), (x1 + 900.0, middle + 10))
    lines = [i.points for i in section(Scene3(layout, {}, ()), cut) if isinstance(i, Line) and i.role == "roof"]
    assert len(lines) == 2
    upper, lower = sorted(lines, key=lambda line: line[0][0])
    assert upper[-1][0] == pytest.approx(x1 - gable.at + gable.verge - cut.a[0])
    assert {round(z) for _x, z in upper} == {round(spec.heel + (middle - 10) * spec.slope)}
    ends = [(x1 - gable.at - cut.a[0], gable.at), (x1 + spec.overhang - cut.a[0], -spec.overhang)]
    assert [lower[0], lower[-1]] == [pytest.approx((x, spec.heel + d * spec.slope)) for x, d in ends]


def closes(layout, corners):
    """Whether one of the faces that close gables has all these corners, looked at from the right."""
    turn = Turn(-30.0, 32.0)
    faces = [i.points for i in covered(layout.house, layout.roof, turn) if isinstance(i, Polygon)]
    wanted = [turn.flat(corner) for corner in corners]
    return any(all(min(math.dist(p, q) for q in points) < 1 for p in wanted) for points in faces)


def test_the_gable_of_a_lean_to_is_closed_up_to_the_higher_wall():
    high = 90 + 2930 * math.tan(math.radians(15))
    assert closes(layout_of("woodswallow"), ((8290, 0, 0), (8290, 2930, 0), (8290, 2930, high)))


def test_a_dutch_gable_is_closed_on_its_girder_from_the_end_s_plane_to_the_ridge():
    layout = layout_of("robin")
    (gable,), spec, wall = layout.house.roof_plan.dutch_gables, layout.house.roof, layout.house.roof_plan.by_name["B"]
    runs = ((gable.at, gable.at), (wall.length - gable.at, gable.at), (wall.length / 2, wall.length / 2))
    assert closes(layout, [(wall.a[0] - gable.at, wall.a[1] + run, spec.heel + up * spec.slope) for run, up in runs])
