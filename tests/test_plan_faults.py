"""What can be wrong with a plate plan, held against a general geometry library."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, box, union_all

from trainer.plan import PlatePlan, plan_faults, wall_name

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
    assert faults == [
        (("plates", "outline", 0), "starts wall A, which runs at an angle to [8000, 10]; walls run along x or along y")
    ]


def test_an_outline_that_crosses_itself_names_both_walls_and_the_place() -> None:
    crossed = [(0, 0), (6000, 0), (6000, 4000), (2000, 4000), (2000, -2000), (0, -2000)]
    assert (
        ("plates", "outline", 3),
        "starts wall D, which meets wall A at [2000, 0]; walls meet only at corners",
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
        (["D"], "inside corner, [5000, 6000]"),
        (["E"], "inside corner, [5000, 6000]"),
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
def test_a_gable_is_legal_exactly_where_both_its_corners_point_out(
    rectangles: list[tuple[int, int, int, int]], data: st.DataObject
) -> None:
    outline = outline_of(rectangles)
    wall = data.draw(st.integers(0, len(outline) - 1))
    points_out = []  # a corner points out where a small square on it is covered by a quarter only
    for x, y in (outline[wall], outline[(wall + 1) % len(outline)]):
        square = box(x - 0.1, y - 0.1, x + 0.1, y + 0.1)
        points_out.append(Polygon(outline).intersection(square).area < 0.02)
    assert (told(outline, [wall_name(wall)]) == []) == all(points_out)
    plan = PlatePlan(tuple(outline), 1)
    assert [plan.convex(wall), plan.convex((wall + 1) % len(outline))] == points_out


def test_five_hundred_corners_are_judged_and_one_bad_corner_found() -> None:
    comb = [(0, 0), (1000 * 249, 0)]
    for i in range(248, -1, -1):
        comb += [(1000 * (i + 1), 5000 + 1000 * (i % 2)), (1000 * i, 5000 + 1000 * (i % 2))]
    assert len(comb) == 500
    assert told(comb) == []
    bad = [*comb[:100], (comb[100][0], comb[100][1] + 1), *comb[101:]]
    assert told(bad)
