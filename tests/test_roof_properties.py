"""What holds of any roof, over random plans of hips and gables, and against erosion by a geometry library."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import combinations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from plans import TURNS, house_like_plan, may_be_gable, random_plan, turned
from shapely import LineString, Point, Polygon, STRtree, box, union_all

from trainer.plan import PlatePlan
from trainer.roof import Face, Roof, RoofSpec, distance, solve
from trainer.roof.model import Crease, Point3

NOUGHT = 1e-6
"""mm, or mm² on plans of metres: above what shapely rounds, far below any length that could be wrong."""

seeds = st.integers(0, 10**6)
corners = st.integers(2, 24).map(lambda half: 2 * half)
plans = st.one_of(
    st.builds(random_plan, seeds, corners, st.booleans()),
    st.builds(random_plan, seeds, corners, st.just(True), st.just(1), st.just(40)),  # small, so that events coincide
    st.builds(house_like_plan, seeds, st.booleans()),
)
specs = st.builds(RoofSpec, st.sampled_from([5.0, 22.5, 45.0, 60.0]), st.integers(0, 1500), st.integers(0, 600))
plain = RoofSpec(45)


def shape(face: Face) -> Polygon:
    return Polygon([place[:2] for place in face.polygon])


def flat(crease: Crease) -> LineString:
    return LineString([place[:2] for place in crease])


def creases(roof: Roof) -> list[Crease]:
    return [*roof.ridges, *roof.hips, *roof.valleys]


def plane_distance(plan: PlatePlan, face: Face, x: float, y: float) -> float:
    """Distance inward from the line of a face's wall."""
    wall = plan.by_name[face.wall]
    return (x - wall.a[0]) * wall.inward[0] + (y - wall.a[1]) * wall.inward[1]


@given(plans, specs)
def test_faces_share_out_the_plan_with_its_eaves(plan: PlatePlan, spec: RoofSpec) -> None:
    roof = solve(plan, spec)
    grown = grown_by(plan, spec.overhang)
    faces = [shape(face) for face in roof.faces]
    assert sum(face.area for face in faces) == pytest.approx(grown.area, abs=NOUGHT * grown.length)
    assert union_all(faces).symmetric_difference(grown).area == pytest.approx(0, abs=NOUGHT * grown.length)
    assert roof.plan_area_m2 * 1e6 == pytest.approx(grown.area, rel=1e-12)
    assert roof.area_m2 == pytest.approx(roof.plan_area_m2 / math.cos(math.radians(spec.pitch)), rel=1e-12)


@given(plans, specs)
def test_polygons_are_simple_anticlockwise_and_bare(plan: PlatePlan, spec: RoofSpec) -> None:
    for face in solve(plan, spec).faces:
        ring = [place[:2] for place in face.polygon]
        assert shape(face).is_valid
        assert shape(face).exterior.is_ccw
        for (ax, ay), (bx, by), (cx, cy) in zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True):
            assert (bx - ax) * (cy - by) != (by - ay) * (cx - bx), "a corner repeated or on a straight line"


@given(plans, specs)
def test_faces_lie_in_planes_of_the_pitch_over_their_walls(plan: PlatePlan, spec: RoofSpec) -> None:
    roof = solve(plan, spec)
    own = [wall for face in roof.faces for wall in face.walls]
    assert sorted(own) == sorted(wall.name for wall in plan.walls if not wall.gable), "each eave has one face"
    for face in roof.faces:
        assert face.wall == face.walls[0]
        for x, y, z in face.polygon:
            slope = math.tan(math.radians(spec.pitch))
            assert z == pytest.approx(spec.heel + plane_distance(plan, face, x, y) * slope, abs=NOUGHT)
            assert x * 16 == int(x * 16) and y * 16 == int(y * 16), "exact: a whole number of sixteenths"


@given(plans, specs)
def test_faces_of_one_plane_meet_at_most_in_points(plan: PlatePlan, spec: RoofSpec) -> None:
    roof = solve(plan, spec)
    planes: dict[tuple[object, ...], list[Face]] = {}
    for face in roof.faces:
        wall = plan.by_name[face.wall]
        planes.setdefault((wall.inward, wall.a[0] * wall.inward[0] + wall.a[1] * wall.inward[1]), []).append(face)
    for faces in planes.values():
        for one, other in combinations(map(shape, faces), 2):
            assert one.intersection(other).length == 0


@given(plans, specs)
def test_every_crease_borders_exactly_two_faces_and_is_what_it_is_called(plan: PlatePlan, spec: RoofSpec) -> None:
    roof = solve(plan, spec)
    faces = [shape(face) for face in roof.faces]
    tree = STRtree(faces)
    for kind, found in (("ridge", roof.ridges), ("hip", roof.hips), ("valley", roof.valleys)):
        for crease in found:
            line = flat(crease)
            assert line.length > 0
            sides = [i for i in tree.query(line) if faces[i].exterior.intersection(line).length > NOUGHT]
            assert len(sides) == 2
            assert all(faces[i].exterior.buffer(NOUGHT).covers(line) for i in sides)
            assert _kind(plan, crease, [roof.faces[i] for i in sides]) == kind


def _kind(plan: PlatePlan, crease: Crease, faces: list[Face]) -> str:
    """Level is a ridge; else the roof beside it is the lower of both planes at a hip, the higher at a valley."""
    (ax, ay, az), (bx, by, bz) = crease
    if az == bz:
        return "ridge"
    run = math.hypot(bx - ax, by - ay)
    assert abs(bx - ax) == abs(by - ay)
    x, y = (ax + bx) / 2 - (by - ay) / run / 64, (ay + by) / 2 + (bx - ax) / run / 64
    heights = sorted(plane_distance(plan, face, x, y) for face in faces)
    here = distance(plan, x, y)
    return "hip" if here == pytest.approx(heights[0], abs=NOUGHT) else "valley"


@given(plans)
def test_creases_are_all_that_lies_between_faces(plan: PlatePlan) -> None:
    roof = solve(plan, plain)
    edges = sum(shape(face).length for face in roof.faces)
    between = sum(flat(crease).length for crease in creases(roof))
    assert edges == pytest.approx(Polygon(plan.outline).length + 2 * between, rel=1e-12)


@given(plans, specs)
def test_a_valley_rises_from_each_inside_corner(plan: PlatePlan, spec: RoofSpec) -> None:
    inside = [corner for i, corner in enumerate(plan.outline) if not plan.convex(i)]
    valleys = solve(plan, spec).valleys
    assert sorted(valley[0][:2] for valley in valleys) == sorted(inside)


@given(plans, specs, st.integers(0, 1500))
def test_an_overhang_or_heel_changes_nothing_inside_the_plates(plan: PlatePlan, spec: RoofSpec, overhang: int) -> None:
    roof, other = solve(plan, spec), solve(plan, RoofSpec(spec.pitch, overhang, spec.heel))
    assert (roof.ridges, roof.hips, roof.valleys) == (other.ridges, other.hips, other.valleys)


def inner_places(faces: Iterable[Face]) -> Iterable[tuple[Face, Point]]:
    """A few places inside each face: off its middle, towards its corners."""
    for face in faces:
        middle = shape(face).representative_point()
        yield face, middle
        for x, y, _ in face.polygon:
            place = Point(middle.x + 0.9 * (x - middle.x), middle.y + 0.9 * (y - middle.y))
            if shape(face).contains(place):
                yield face, place


@given(plans, specs)
def test_distance_agrees_with_the_faces_also_over_the_eaves(plan: PlatePlan, spec: RoofSpec) -> None:
    for face, place in inner_places(solve(plan, spec).faces):
        expected = plane_distance(plan, face, place.x, place.y)
        assert distance(plan, place.x, place.y) == pytest.approx(expected, abs=NOUGHT)


@given(plans)
def test_height_is_half_the_side_of_the_largest_square_that_fits(plan: PlatePlan) -> None:
    # By a geometry library; gables pushed out by half their width where nothing stands in the way.
    pushed = pushed_out(plan)
    assume(pushed is not None)
    for face, place in list(inner_places(solve(plan, plain).faces))[:40]:
        d = plane_distance(plan, face, place.x, place.y)
        assert pushed.buffer(NOUGHT).covers(square(place, d - 0.01))
        assert not pushed.covers(square(place, d + 0.01))


def square(middle: Point, half: float) -> Polygon:
    return box(middle.x - half, middle.y - half, middle.x + half, middle.y + half)


def grown_by(plan: PlatePlan, overhang: int) -> Polygon:
    """The plan with mitred eaves: every place no further than the overhang in x and in y from it."""
    edges = [LineString([wall.a, wall.b]).bounds for wall in plan.walls]
    around = [box(x0 - overhang, y0 - overhang, x1 + overhang, y1 + overhang) for x0, y0, x1, y1 in edges]
    return union_all([Polygon(plan.outline), *around])


def pushed_out(plan: PlatePlan) -> Polygon | None:
    """The plan with a strip of half its width beyond each gable; None where a strip would meet anything else."""
    house = Polygon(plan.outline)
    strips = []
    for wall in plan.walls:
        if wall.gable:
            out = (wall.b[0] - wall.inward[0] * wall.length / 2, wall.b[1] - wall.inward[1] * wall.length / 2)
            strip = LineString([wall.a, out]).envelope
            if strip.intersection(house).length > wall.length + NOUGHT:
                return None
            strips.append(strip)
    if any(one.intersects(other) for one, other in combinations(strips, 2)):
        return None
    return union_all([house, *strips])


Looks = tuple[list[list[Point3]], dict[str, list[list[Point3]]]]
"""Corners of the faces, and ends of the creases by kind, all in order of place."""


def looks(roof: Roof, turn: str = "as it is", shift: tuple[int, int] = (0, 0)) -> Looks:
    """What a roof looks like, turned, then shifted."""

    def moved(places: Iterable[Point3]) -> list[Point3]:
        spots = [(TURNS[turn](x, y), z) for x, y, z in places]  # type: ignore[arg-type]
        return sorted((x + shift[0], y + shift[1], z) for (x, y), z in spots)

    kinds = {"ridge": roof.ridges, "hip": roof.hips, "valley": roof.valleys}
    faces = sorted(moved(face.polygon) for face in roof.faces)
    return faces, {kind: sorted(map(moved, found)) for kind, found in kinds.items()}


@pytest.mark.parametrize("turn", TURNS)
@settings(max_examples=25)
@given(plans, specs, st.tuples(st.integers(-9000, 9000), st.integers(-9000, 9000)))
def test_a_turned_mirrored_or_shifted_plan_has_that_roof(
    turn: str, plan: PlatePlan, spec: RoofSpec, shift: tuple[int, int]
) -> None:
    there = solve(turned(plan, TURNS[turn], shift), spec)
    assert looks(there) == looks(solve(plan, spec), turn, shift)


@settings(max_examples=10)
@given(seeds, st.sampled_from([100, 300, 500]), specs)
def test_plans_of_many_corners(seed: int, count: int, spec: RoofSpec) -> None:
    plan = random_plan(seed, count, gables=True)
    roof = solve(plan, spec)
    assert roof.plan_area_m2 * 1e6 == pytest.approx(grown_by(plan, spec.overhang).area, rel=1e-12)
    assert len(roof.valleys) == count / 2 - 2, "one for each inside corner"


@given(plans)
def test_any_wall_between_outside_corners_may_be_the_one_gable(plan: PlatePlan) -> None:
    outline = list(plan.outline)
    for wall in (wall for wall in plan.walls if may_be_gable(outline, wall.index)):
        gabled = PlatePlan(plan.outline, 90, frozenset({wall.name}))
        roof = solve(gabled, plain)
        assert roof.plan_area_m2 * 1e6 == pytest.approx(Polygon(outline).area, rel=1e-12)
        assert all(wall.name not in face.walls for face in roof.faces)
        assert distance(gabled, *wall.at(wall.length / 2)) > 0
