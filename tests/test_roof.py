"""The roof against published values, and against roofs small enough to work out by hand."""

from __future__ import annotations

import itertools
import math

import pytest

from trainer.plan import PlatePlan
from trainer.roof import Roof, RoofSpec, distance, solve

FOOT = 1200
"""Old books are in feet and inches: these plans are in hundredths of an inch."""
INCH = 100


def plan(*outline: tuple[int, int], gables: str = "") -> PlatePlan:
    return PlatePlan(outline, 90, frozenset(gables))


def rectangle(length: int, width: int, gables: str = "") -> PlatePlan:
    return plan((0, 0), (length, 0), (length, width), (0, width), gables=gables)


def rise_in_12(rise: float) -> float:
    """Pitch in degrees of so many inches up in twelve along."""
    return math.degrees(math.atan2(rise, 12))


def length(crease: tuple[tuple[float, ...], tuple[float, ...]]) -> float:
    return math.dist(*crease)


def standard_rafter(roof: Roof) -> float:
    """True length from plate to ridge of a hipped rectangle whose first wall is its long one."""
    (a, _, _, ridge_end) = roof.faces[0].polygon
    return math.hypot(ridge_end[1] - a[1], ridge_end[2] - a[2])


def test_griffith_25_foot_span_at_half_pitch() -> None:
    # Griffith, Carpentry, appendix IV: standard rafter 17 ft 8 1/8 in; hip 12 1/2 times 20.78 in.
    roof = solve(rectangle(40 * FOOT, 25 * FOOT), RoofSpec(rise_in_12(12)))
    assert standard_rafter(roof) == pytest.approx(17 * FOOT + 8.125 * INCH, abs=INCH / 16)
    assert len(roof.hips) == 4
    for hip in roof.hips:
        assert length(hip) == pytest.approx(12.5 * 20.78 * INCH, abs=12.5 * 0.005 * INCH)


def test_navedtra_bridge_measure_of_a_hip_at_8_in_12() -> None:
    # NAVEDTRA 14044, chapter on roof framing: 18.76 in per foot of standard run; a hip of run 21.21 ft is 23.45 ft.
    roof = solve(rectangle(40 * FOOT, 30 * FOOT), RoofSpec(rise_in_12(8)))
    assert len(roof.hips) == 4
    for hip in roof.hips:
        assert math.dist(hip[0][:2], hip[1][:2]) == pytest.approx(21.21 * FOOT, abs=0.005 * FOOT)
        assert length(hip) / 15 == pytest.approx(18.76 * INCH, abs=0.005 * INCH)
        assert length(hip) == pytest.approx(23.45 * FOOT, abs=0.005 * FOOT)


def jack(roof: Roof, along: float) -> float:
    """True length of a jack so far along the first wall from its first corner, from plate to hip."""
    (corner, top) = min(roof.hips, key=lambda hip: hip[0])
    part = along / (top[0] - corner[0])
    return math.hypot((top[1] - corner[1]) * part, (top[2] - corner[2]) * part)


@pytest.mark.parametrize(("spacing", "difference"), [(16, 20.83), (20, 26.0)])
def test_audel_jacks_at_a_rise_of_10_in_12(spacing: int, difference: float) -> None:
    # Audel, Carpenters and Builders Guide vol. 3, p. 975: 20.83 in at 16 in; 26 in (to the half inch) at 20 in.
    roof = solve(rectangle(40 * FOOT, 30 * FOOT), RoofSpec(rise_in_12(10)))
    lengths = [jack(roof, k * spacing * INCH) for k in range(1, 8)]
    rounding = 0.005 * INCH if spacing == 16 else 0.05 * INCH
    for shorter, longer in itertools.pairwise(lengths):
        assert longer - shorter == pytest.approx(difference * INCH, abs=rounding)


@pytest.mark.parametrize(
    ("rise", "standard", "hip"),
    [(9, 15.0, 19.25), (10, 15.625, 19.75), (12, 16.97, 20.78), (13, 17.69, None), (16, 20.00, None)],
)
def test_hodgson_lengths_for_a_foot_of_run(rise: int, standard: float, hip: float | None) -> None:
    # Hodgson, ABC of the Steel Square; US Army subcourse EN0069A; Griffith. Hips printed to the quarter inch.
    roof = solve(rectangle(40 * FOOT, 24 * FOOT), RoofSpec(rise_in_12(rise)))
    assert standard_rafter(roof) / 12 == pytest.approx(standard * INCH, abs=0.005 * INCH)
    if hip is not None:
        rounding = 0.125 if hip % 1 in {0.25, 0.75} else 0.005
        assert length(roof.hips[0]) / 12 == pytest.approx(hip * INCH, abs=rounding * INCH)


@pytest.mark.parametrize("count", [1, 4, 9])
def test_hodgson_jacks_are_equal_parts_of_the_standard_rafter(count: int) -> None:
    # Hodgson: jack k of n equally spaced is k/(n+1) of the standard rafter.
    roof = solve(rectangle(40 * FOOT, 24 * FOOT), RoofSpec(rise_in_12(9)))
    for k in range(1, count + 1):
        part = k / (count + 1)
        assert jack(roof, part * 12 * FOOT) == pytest.approx(part * standard_rafter(roof), rel=1e-12)


@pytest.mark.parametrize("pitch", [5.0, 22.5, 45.0, 60.0])
def test_a_hipped_rectangle(pitch: float) -> None:
    # Ridge L - W; a hip runs at 45 degrees and slopes tan(pitch)/sqrt 2; area is plan/cos(pitch).
    roof = solve(rectangle(12000, 7000), RoofSpec(pitch, overhang=600, heel=90))
    top = 90 + 3500 * math.tan(math.radians(pitch))
    assert roof.ridges == (((3500.0, 3500.0, top), (8500.0, 3500.0, top)),)
    for low, high in roof.hips:
        assert abs(high[0] - low[0]) == abs(high[1] - low[1]) == 3500
        run = math.dist(low[:2], high[:2])
        assert (high[2] - low[2]) / run == pytest.approx(math.tan(math.radians(pitch)) / math.sqrt(2))
    assert roof.plan_area_m2 == 108.24
    assert roof.area_m2 == pytest.approx(108.24 / math.cos(math.radians(pitch)))


def test_a_square_is_a_pyramid() -> None:
    roof = solve(rectangle(8400, 8400), RoofSpec(45))
    assert roof.ridges == roof.valleys == ()
    assert [hip[1] for hip in roof.hips] == [(4200.0, 4200.0, pytest.approx(4200))] * 4
    assert [len(face.polygon) for face in roof.faces] == [3, 3, 3, 3]


def test_a_plus_of_equal_arms_meets_in_one_point() -> None:
    a, b, c = 4000, 10000, 14000
    arms = plan((a, 0), (b, 0), (b, a), (c, a), (c, b), (b, b), (b, c), (a, c), (a, b), (0, b), (0, a), (a, a))
    roof = solve(arms, RoofSpec(45))
    assert len(roof.valleys) == 4
    assert {valley[1][:2] for valley in roof.valleys} == {(7000.0, 7000.0)}
    # Each arm has a ridge from its own hips to the middle; its end walls are as wide as it, so 3000 of hip.
    assert sorted(ridge[0][:2] + ridge[1][:2] for ridge in roof.ridges) == [
        (3000.0, 7000.0, 7000.0, 7000.0),
        (7000.0, 3000.0, 7000.0, 7000.0),
        (7000.0, 7000.0, 7000.0, 11000.0),
        (7000.0, 7000.0, 11000.0, 7000.0),
    ]
    assert len(roof.hips) == 8
    assert len(roof.faces) == 12


def test_equal_spans_that_meet_part_the_ridge_where_valleys_end_on_it() -> None:
    # A wing as wide as the house: its ridge and both valleys end on the ridge of the house, between two faces there.
    tee = plan((0, 0), (16000, 0), (16000, 6000), (11000, 6000), (11000, 12000), (5000, 12000), (5000, 6000), (0, 6000))
    roof = solve(tee, RoofSpec(45))
    assert [tuple(place[:2] for place in ridge) for ridge in roof.ridges] == [
        ((3000.0, 3000.0), (8000.0, 3000.0)),
        ((8000.0, 3000.0), (8000.0, 9000.0)),
        ((8000.0, 3000.0), (13000.0, 3000.0)),
    ]
    assert {valley[1][:2] for valley in roof.valleys} == {(8000.0, 3000.0)}
    # The back walls either side of the wing touch in that point only: two faces.
    assert [face.walls for face in roof.faces] == [(wall,) for wall in "ABCDEFGH"]


def test_walls_in_line_share_one_face_where_a_narrower_wing_stands_between() -> None:
    tee = plan((0, 0), (16000, 0), (16000, 8000), (10000, 8000), (10000, 11000), (6000, 11000), (6000, 8000), (0, 8000))
    roof = solve(tee, RoofSpec(45))
    (back,) = (face for face in roof.faces if face.wall == "C")
    assert back.walls == ("C", "G")
    assert {valley[1][:2] for valley in roof.valleys} == {(8000.0, 6000.0)}
    # The wing's ridge runs from its hips, 2000 in, to where its valleys meet.
    assert ((8000.0, 6000.0), (8000.0, 9000.0)) in [tuple(place[:2] for place in ridge) for ridge in roof.ridges]


def test_gables_lift_nothing() -> None:
    roof = solve(rectangle(9000, 6000, gables="BD"), RoofSpec(45, overhang=450, heel=100))
    assert [face.wall for face in roof.faces] == ["A", "C"]
    assert roof.hips == roof.valleys == ()
    top = pytest.approx(3100)
    assert roof.ridges == (((0.0, 3000.0, top), (9000.0, 3000.0, top)),), "cut at the outside of the plates"
    assert [place[:2] for place in roof.faces[0].polygon] == [
        (-450.0, -450.0), (9450.0, -450.0), (9450.0, 3000.0), (-450.0, 3000.0),
    ], "eave and verge overhang alike"  # fmt: skip
    assert {round(place[2], 6) for place in roof.faces[0].polygon} == {100 - 450, 3100}


def test_a_gable_on_the_long_side_is_cut_off_under_its_peak() -> None:
    # Gable wall C, 14 m, faces wall A over 6 m: the roof rises from A to the gable, where it is 6 m up.
    roof = solve(rectangle(14000, 6000, gables="C"), RoofSpec(45))
    (front,) = (face for face in roof.faces if face.wall == "A")
    assert [place[:2] for place in front.polygon] == [(0.0, 0.0), (14000.0, 0.0), (8000.0, 6000.0), (6000.0, 6000.0)]
    assert roof.ridges == ()
    assert len(roof.hips) == 2


ARM = ((4000, 3500), (4000, 5500), (8000, 5500), (8000, 9500), (4000, 9500), (4000, 12000), (0, 12000))
"""From a block 4000 wide on the left, an arm as wide reaches right and ends at x = 8000."""
FACING = ((0, 0), (14000, 0), (14000, 12000), (9000, 12000), (9000, 3500))
"""A block on the right looks at the arm's end over 1000."""


def test_a_gable_that_would_run_into_another_wing_if_pushed_out() -> None:
    # Pushed out by half its width the gable would stand at x = 10000, inside the other block.
    gabled = solve(plan(*FACING, *ARM, gables="H"), RoofSpec(45))
    hipped = solve(plan(*FACING, *ARM), RoofSpec(45))
    alone = solve(plan((0, 0), (4000, 0), *ARM[1:], gables="D"), RoofSpec(45))
    assert ((2000.0, 7500.0), (8000.0, 7500.0)) in [(a[:2], b[:2]) for a, b in gabled.ridges]
    for wall, here in (("G", "C"), ("I", "E")):  # the arm's sides, as if nothing were near
        assert polygon(gabled, wall) == polygon(alone, here)
    for wall in "BCD":  # the other block, as if the arm had a hip
        assert polygon(gabled, wall) == polygon(hipped, wall)


def polygon(roof: Roof, wall: str) -> tuple[tuple[float, float, float], ...]:
    (face,) = (face for face in roof.faces if wall in face.walls)
    return face.polygon


def test_eaves_over_a_narrow_recess_end_halfway() -> None:
    # A recess 1000 wide and 3000 deep under overhangs of 600: both sides' eaves end 500 out, the end's 600 in.
    recess = plan((0, 0), (9000, 0), (9000, 7000), (5000, 7000), (5000, 4000), (4000, 4000), (4000, 7000), (0, 7000))
    roof = solve(recess, RoofSpec(45, overhang=600))
    faces = {face.wall: [place[:2] for place in face.polygon] for face in roof.faces}
    assert roof.plan_area_m2 == 83.64
    assert (4500.0, 4500.0) in faces["E"], "the end's own eave comes to a point where the two sides' eaves meet"
    assert (4500.0, 7500.0) in faces["D"] and (4500.0, 7500.0) in faces["F"]
    inside = solve(recess, RoofSpec(45))
    assert (roof.ridges, roof.hips, roof.valleys) == (inside.ridges, inside.hips, inside.valleys)


def test_distance_runs_on_past_walls() -> None:
    house = rectangle(9000, 6000, gables="B")
    assert distance(house, 4500, 1000) == 1000
    assert distance(house, 8900, 2900) == 2900, "not 100: a gable is no outside"
    assert distance(house, 9400, 2900) == 2900, "the verge goes on level"
    assert distance(house, 9400, -300) == -300, "and so does the eave"
    assert distance(house, -300, -200) == -300, "mitred at an outside corner"
    assert distance(house, 4500, 0) == 0


def test_the_same_place_on_a_hip_has_one_height() -> None:
    roof = solve(rectangle(9000, 6000), RoofSpec(22.5, overhang=450, heel=35))
    heights: dict[tuple[float, float], set[float]] = {}
    for face in roof.faces:
        for x, y, z in face.polygon:
            heights.setdefault((x, y), set()).add(z)
    assert all(len(each) == 1 for each in heights.values())


def test_no_nought_is_negative() -> None:
    turned = plan((0, 0), (0, -9000), (6000, -9000), (6000, 0))
    numbers = [number for face in solve(turned, RoofSpec(45)).faces for place in face.polygon for number in place]
    assert all(math.copysign(1, number) == 1 for number in numbers if number == 0)
