"""What can be wrong with a plate plan, held against a general geometry library."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, box, union_all

from trainer.plan import PlatePlan, plan_faults, roof_parts, wall_name

STEPPED = [(0, 0), (12000, 0), (12000, 2000), (16000, 2000), (16000, 8000), (0, 8000)]
STAGGERED = [
    (0, 0), (6000, 0), (6000, 2000), (12000, 2000), (12000, 10000), (6000, 10000), (6000, 8000), (0, 8000)
]  # fmt: skip
L = [(0, 0), (8000, 0), (8000, 9000), (5000, 9000), (5000, 6000), (0, 6000)]
"""Walls A to F; the corner between D and E, at (5000, 6000), is an inside one."""


def told(outline: object = L, gables: object = (), internal: object = ()) -> list[tuple[tuple[str | int, ...], str]]:
    return [(fault.path, fault.what) for fault in plan_faults(outline, gables, internal)]  # type: ignore[arg-type]


def outline_fault(outline: object) -> tuple[tuple[str | int, ...], str]:
    ((path, what),) = told(outline)
    assert path[:2] == ("plates", "outline")
    return path[2:], what


def test_a_sound_plan_has_no_fault() -> None:
    assert told(L, ["C"], [[(0, 3000), (8000, 3000)], [(1000, 1000), (6000, 1500), (5000, 9000)]]) == []


def test_wall_names_run_on_after_z() -> None:
    assert [wall_name(i) for i in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


@pytest.mark.parametrize(
    ("outline", "path", "says"),
    [
        ([*L, L[0]], (6,), "first corner again"),
        ([*L[:2], L[1], *L[2:]], (2,), "same as the corner before"),
        ([*L[:1], (4000, 0), *L[1:]], (1,), "no corner; leave it out"),
        ([(4000, 0), *L[1:], L[0]], (0,), "no corner; leave it out"),
        (L[::-1], (), "clockwise"),
        ([(0, 0), (0, 6000), (8000, 6000), (8000, 0)], (), "clockwise"),
        ([(0, 0), (8000, 0), (8000, 8000)], (), "3 corners"),
        ([], (), "0 corners"),
    ],
)
def test_outline_faults(outline: object, path: tuple[int, ...], says: str) -> None:
    at, what = outline_fault(outline)
    assert at == path
    assert says in what


def test_a_wall_aslant_is_named_with_its_corner() -> None:
    faults = told([(0, 0), (8000, 10), (8000, 6000), (0, 6000)])
    assert faults == [(("plates", "outline", 0), "wall A runs at an angle to [8000, 10]; walls run along x or along y")]


def test_an_outline_that_crosses_itself_names_both_walls_and_the_place() -> None:
    crossed = [(0, 0), (6000, 0), (6000, 4000), (2000, 4000), (2000, -2000), (0, -2000)]
    assert (
        ("plates", "outline", 3),
        "wall D meets wall A at [2000, 0]; walls meet only at corners",
    ) in told(crossed)


def test_an_outline_that_touches_itself_is_a_fault() -> None:
    touching = [(0, 0), (6000, 0), (6000, 3000), (3000, 3000), (3000, 0), (3000, 6000), (0, 6000)]
    assert told(touching)


def test_a_wall_that_turns_straight_back() -> None:
    back = [(0, 0), (9000, 0), (8000, 0), (8000, 6000), (0, 6000)]
    assert any("straight back" in what for _, what in told(back))


def test_several_faults_come_at_once() -> None:
    paths = [path for path, _ in told([(0, 0), (0, 0), (8000, 0), (8000, 6000), (3000, 6100), (0, 0)], ["Q", "a"])]
    assert paths == [
        ("plates", "outline", 5), ("plates", "outline", 1), ("plates", "outline", 3), ("plates", "outline", 4),
        ("gables", 0), ("gables", 1),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("gables", "says"),
    [
        (["G"], "its walls are A to F"),
        (["c"], "did you mean 'C'?"),
        (["C", "C"], "twice"),
        (["B", "C"], "both gables"),
        (["F", "A"], "both gables"),
    ],
)
def test_gable_faults(gables: list[str], says: str) -> None:
    (path, what) = told(L, gables)[-1]
    assert path[0] == "gables"
    assert says in what


@pytest.mark.parametrize(
    ("wall", "path", "says"),
    [
        ([(0, 3000), (9000, 3000)], (0, 1), "[9000, 3000] is outside"),
        ([(1000, 6000), (8000, 9000)], (0, 1), "leaves the house"),
        ([(0, 6000), (5000, 9000)], (0, 1), "leaves the house"),
        ([(1000, 1000), (1000, 1000)], (0, 1), "same as the point before"),
        ([(1000, 1000)], (0,), "fewer than two"),
    ],
)
def test_internal_wall_faults(wall: object, path: tuple[int, ...], says: str) -> None:
    ((at, what),) = told(L, [], [wall])
    assert at == ("internal_walls", *path)
    assert says in what


@given(st.lists(st.tuples(st.integers(-3, 3), st.integers(-3, 3)), min_size=2, max_size=7))
def test_outlines_are_judged_as_the_geometry_library_judges_them(turns: list[tuple[int, int]]) -> None:
    corners = [(0, 0)]
    for dx, dy in turns:
        corners += [(corners[-1][0] + dx, corners[-1][1]), (corners[-1][0] + dx, corners[-1][1] + dy)]
    corners = [*corners, (0, corners[-1][1])]
    ring = Polygon(corners)
    sound = ring.is_valid and ring.exterior.is_ccw and len(ring.simplify(0).exterior.coords) - 1 == len(corners)
    # simplify() keeps the ring's start even where it lies on a straight wall
    sound = sound and LineString([corners[-1], corners[1]]).distance(Point(corners[0])) > 0
    assert (told(corners) == []) == sound


rects = st.tuples(st.integers(0, 8), st.integers(0, 8), st.integers(1, 8), st.integers(1, 8))
points = st.tuples(st.integers(-1, 17), st.integers(-1, 17))


def outline_of(rectangles: list[tuple[int, int, int, int]]) -> list[tuple[int, int]]:
    """The outline of rectangles joined, anticlockwise, where it is one house without a court."""
    shape = union_all([box(x, y, x + w, y + h) for x, y, w, h in rectangles])
    assume(isinstance(shape, Polygon) and not shape.interiors)
    ring = [(round(x), round(y)) for x, y in shape.simplify(0).normalize().exterior.coords[:-1]]
    return ring if Polygon(ring).exterior.is_ccw else ring[::-1]


@given(st.lists(rects, min_size=1, max_size=4), points, points)
def test_internal_walls_are_judged_as_the_geometry_library_judges_them(
    rectangles: list[tuple[int, int, int, int]], a: tuple[int, int], b: tuple[int, int]
) -> None:
    assume(a != b)
    outline = outline_of(rectangles)
    assert told(outline) == []
    assert (told(outline, [], [[a, b]]) == []) == Polygon(outline).covers(LineString([a, b]))


@given(st.lists(rects, min_size=1, max_size=4), st.data())
def test_a_gable_parts_a_plan_where_a_corner_of_it_points_in(
    rectangles: list[tuple[int, int, int, int]], data: st.DataObject
) -> None:
    outline = outline_of(rectangles)
    wall = data.draw(st.integers(0, len(outline) - 1))
    points_out = []  # a corner points out where a small square on it is covered by a quarter only
    for x, y in (outline[wall], outline[(wall + 1) % len(outline)]):
        square = box(x - 0.1, y - 0.1, x + 0.1, y + 0.1)
        points_out.append(Polygon(outline).intersection(square).area < 0.02)
    plan = PlatePlan(tuple(outline), 1, frozenset([wall_name(wall)]))
    assert [plan.convex(wall), plan.convex((wall + 1) % len(outline))] == points_out
    faulty = told(outline, [wall_name(wall)])
    if faulty:
        assert not all(points_out) and all("in line with wall" in what for _path, what in faulty)
        return
    parts = roof_parts(plan)
    shapes = [Polygon(part.outline) for part in parts]
    assert len(parts) == 3 - sum(points_out)
    assert union_all(shapes).equals(Polygon(outline)) and sum(shape.area for shape in shapes) == Polygon(outline).area
    for part in parts:  # each is a plan by itself, open where it is a gable's or ends under one
        names = [wall_name(i) for i, each in enumerate(part.walls) if not each.eave]
        assert all(each.eave for i, each in enumerate(part.walls) if part.walls[i - 1].step)
        assert told(part.outline, names) == []


@pytest.mark.parametrize(
    ("outline", "gables", "says"),
    [
        (STAGGERED, ["B"], "in line with wall F"),
        (STAGGERED, ["F"], "in line with wall B"),
        (STEPPED, ["B", "E"], "comes to another gable at [12000, 8000]"),
        (STEPPED, ["B", "C"], "both gables"),
    ],
)
def test_a_gable_that_goes_on_may_meet_no_eave_in_line_and_no_other_gable(outline, gables, says) -> None:
    faulty = told(outline, gables)
    assert any(path[0] == "gables" and says in what for path, what in faulty)


def test_a_gable_that_goes_on_needs_an_eave_beside_it() -> None:
    (fault,) = (f for f in plan_faults(STEPPED, ["B"], [], ["C", "E"]) if f.path[0] == "gables")
    assert "higher wall on both sides" in fault.what


@pytest.mark.parametrize(
    ("outline", "gables"), [(STAGGERED, "BF"), (STEPPED, "B"), (STEPPED, "BDF"), (L, "D"), (L, "E")]
)
def test_a_gable_at_an_inside_corner_is_sound(outline, gables) -> None:
    assert told(outline, list(gables)) == []


def test_five_hundred_corners_are_judged_and_one_bad_corner_found() -> None:
    comb = [(0, 0), (1000 * 249, 0)]
    for i in range(248, -1, -1):
        comb += [(1000 * (i + 1), 5000 + 1000 * (i % 2)), (1000 * i, 5000 + 1000 * (i % 2))]
    assert len(comb) == 500
    assert told(comb) == []
    bad = [*comb[:100], (comb[100][0], comb[100][1] + 1), *comb[101:]]
    assert told(bad)
