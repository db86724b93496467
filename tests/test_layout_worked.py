"""Four invented houses worked by hand from the layout rules (common practice, no source).

Their counts, stations and heights were worked out apart from the program, with closed forms; heights are
``distance x tan 22.5 degrees``.
"""

import math

import pytest
from layout_checks import faults

from trainer.layout import House, Layout, TrussSpec, lay_out, loads
from trainer.plan import PlatePlan
from trainer.roof import RoofSpec

TAN = math.tan(math.radians(22.5))
FLUSH_L = ((0, 0), (12600, 0), (12600, 11400), (7800, 11400), (7800, 7800), (0, 7800))
HIP_AND_GABLE = ((0, 0), (13200, 0), (13200, 6600), (0, 6600))
U_PLAN = ((0, 0), (18000, 0), (18000, 12600), (12600, 12600), (12600, 7200), (6000, 7200), (6000, 12600), (0, 12600))
STUB = ((0, 0), (13800, 0), (13800, 7800), (9000, 7800), (9000, 9300), (4200, 9300), (4200, 7800), (0, 7800))


def house(outline, gables="", spacing=600, setback=1800, **more) -> Layout:
    trusses = TrussSpec(spacing, setback, **more)
    return lay_out(House(PlatePlan(outline, 90, frozenset(gables)), RoofSpec(22.5, 600, 0), trusses))


def at(layout, kind, axis, wing=None):
    """Sorted coordinates along ``axis`` (0 x, 1 y) of the trusses of a kind."""
    return sorted(m.start[axis] for m in layout.members if m.kind == kind and wing in (None, m.wing))


def peak(member):
    return max(z for _, z in member.top)


@pytest.mark.parametrize(
    ("outline", "gables", "spacing", "setback", "counts"),
    [
        (FLUSH_L, "C", 600, 1800, {"TG": 2, "T": 6, "ST": 13, "H": 4, "J": 16, "C": 16, "G": 1, "GT": 1, "S": 3}),
        (HIP_AND_GABLE, "B", 900, 2400, {"TG": 1, "ST": 11, "GT": 1, "H": 2, "J": 3, "C": 8}),
        (U_PLAN, "C", 600, 1800, {"TG": 3, "T": 5, "ST": 31, "H": 6, "J": 19, "C": 24, "G": 2, "GT": 1, "S": 8}),
        (STUB, "", 600, 1800, {"TG": 2, "T": 6, "ST": 10, "H": 6, "J": 19, "C": 24, "G": 1, "S": 3}),
    ],
)
def test_every_truss_of_the_worked_houses_is_counted(outline, gables, spacing, setback, counts):
    found = {}
    for member in house(outline, gables, spacing, setback).members:
        letters = member.tag.rstrip("0123456789")
        found[letters] = found.get(letters, 0) + 1
    assert found == counts


def test_flush_l_stations_and_heights():
    layout = house(FLUSH_L, "C")
    assert at(layout, "truncated_girder", 0) == [1800, 10800]
    assert at(layout, "truncated", 0) == [2400, 3000, 3600, 9000, 9600, 10200]
    assert at(layout, "standard", 0, "W1") == [*range(4200, 7201, 600), 7782.5, 8400]  # clear of the girder's end
    assert at(layout, "standard", 1, "W2") == [8400, 9000, 9600, 10200, 10800]
    assert sorted(m.start[1] for m in layout.members if m.kind == "jack" and m.start[0] == 0) == [
        1800, 2400, 3000, 3600, 4200, 4800, 5400, 6000,
    ]  # fmt: skip
    heights = {m.tag: round(peak(m), 1) for m in layout.members if m.kind in ("truncated", "truncated_girder")}
    assert sorted(heights.values()) == [745.6, 745.6, 994.1, 994.1, 1242.6, 1242.6, 1491.2, 1491.2]
    assert round(peak(layout.by_tag["ST1"]), 1) == 1615.4
    assert round(peak(layout.by_tag["G1"]), 1) == 994.1


def test_flush_l_hangs_the_through_wing_on_the_girder():
    layout = house(FLUSH_L, "C")
    hung = [layout.by_tag[tag] for tag in layout.carries["G1"]]
    assert sorted(m.start[0] for m in hung if m.wing == "W1" and m.kind != "hip") == [
        8400, 9000, 9600, 10200, 10800, 11400, 12000,
    ]  # fmt: skip
    girder_bracket = [m.kind for m in hung for end in m.ends if end.fixing == "heavy girder bracket"]
    assert girder_bracket == ["truncated_girder"]
    assert all(end.tail == 0 for m in hung for end in m.ends if end.bears_on == "G1")
    broken = [m for m in hung if m.kind == "hip"]
    assert [m.ends[0].bears_on for m in broken] == ["G1"]


def test_flush_l_girder_bears_on_the_wings_own_walls():
    girder = house(FLUSH_L, "C").by_tag["G1"]
    assert [(end.bears_on, end.tail) for end in girder.ends] == [("plate D", 0), ("plate B", 600)]
    assert girder.start == (7800, 7765)
    assert girder.plies == 2


def test_flush_l_saddles():
    layout = house(FLUSH_L, "C")
    saddles = [m for m in layout.members if m.kind == "saddle"]
    assert [(7800 - m.start[1], m.span) for m in saddles] == [(600, 3600), (1200, 2400), (1800, 1200)]
    for m in saddles:
        assert m.top[0][1] == pytest.approx((7800 - m.start[1]) * TAN)
        assert peak(m) == pytest.approx(2400 * TAN)


def test_hip_and_gable_in_wide_bays():
    layout = house(HIP_AND_GABLE, "B", 900, 2400)
    assert at(layout, "truncated_girder", 0) == [2400]
    assert at(layout, "standard", 0) == list(range(3300, 12301, 900))
    assert at(layout, "jack", 1) == [2700, 3300, 3900]
    gable = next(m for m in layout.members if m.kind == "gable")
    assert gable.start[0] == 13200 - 90 - 17.5
    assert peak(gable) == pytest.approx(3300 * TAN - 90 / math.cos(math.radians(22.5)))


def test_u_plan_wings():
    layout = house(U_PLAN, "C")
    wings = {(w.span, w.axis) for w in layout.wings}
    assert wings == {(7200, "x"), (6000, "y"), (5400, "y")}
    main = next(w.id for w in layout.wings if w.span == 7200)
    stations = [4200 + 600 * k for k in range(16)]
    moved = [{6000: 6017.5, 12600: 12582.5}.get(s, s) for s in stations]
    assert at(layout, "standard", 0, main) == [3600, *moved, 13800, 14400]
    left = next(w.id for w in layout.wings if w.span == 6000)
    right = next(w.id for w in layout.wings if w.span == 5400)
    assert at(layout, "truncated_girder", 1, left) == [10800]
    assert at(layout, "truncated", 1, left) == [10200]
    assert at(layout, "standard", 1, left) == [7800, 8400, 9000, 9600]
    assert at(layout, "standard", 1, right) == list(range(7800, 12001, 600))
    assert sorted(m.span for m in layout.members if m.kind == "saddle" and m.wing == left) == [1200, 2400, 3600, 4800]
    assert sorted(m.span for m in layout.members if m.kind == "saddle" and m.wing == right) == [600, 1800, 3000, 4200]


def test_stub_wing_hangs_its_hip_end_on_a_flat_topped_girder():
    layout = house(STUB)
    girder = next(m for m in layout.members if m.kind == "girder")
    assert peak(girder) == pytest.approx(1500 * TAN)
    assert [round(run) for run, z in girder.top if z == pytest.approx(1500 * TAN)] == [1500, 3300]
    own = [layout.by_tag[tag] for tag in layout.carries[girder.tag] if layout.by_tag[tag].wing == girder.wing]
    assert sorted(m.kind for m in own) == ["hip", "hip", "jack", "jack", "jack"]
    assert sorted(m.start[0] for m in own if m.kind == "jack") == [6000, 6600, 7200]
    assert sorted(m.span for m in layout.members if m.kind == "saddle") == [1200, 2400, 3600]
    creepers = [m for m in layout.members if m.kind == "creeper" and m.wing == girder.wing]
    assert sorted(m.start for m in creepers) == [
        (4200, 8100), (4200, 8700), (4800, 9300), (5400, 9300), (7800, 9300), (8400, 9300), (9000, 8100), (9000, 8700),
    ]  # fmt: skip
    assert at(layout, "standard", 0) == [4182.5, *range(4800, 8401, 600), 9017.5, 9600]


def test_near_face_setback_moves_the_girder_by_half_its_thickness():
    layout = house(HIP_AND_GABLE, "B", 900, 2400, stations_to="near face")
    assert at(layout, "truncated_girder", 0) == [2400 + 35]


def test_a_square_gets_one_full_height_truss_in_the_centre():
    layout = house(((0, 0), (7800, 0), (7800, 7800), (0, 7800)))
    assert at(layout, "standard", 0) == [3900]
    assert at(layout, "truncated", 0) == [2400, 3000, 3600, 4200, 4800, 5400]


def test_one_girder_carries_both_sides_of_a_z():
    outline = ((0, 0), (8000, 0), (8000, 6000), (13000, 6000), (13000, 11000), (5000, 11000), (5000, 6000), (0, 6000))
    layout = house(outline)
    (girder,) = [m for m in layout.members if m.kind == "girder"]
    assert girder.span == 3000
    assert [end.tail for end in girder.ends] == [0, 0]
    sides = {m.wing for m in (layout.by_tag[tag] for tag in layout.carries[girder.tag])}
    assert sides == {"W1", "W2"}
    ys = sorted(m.start[1] for m in layout.members if m.kind == "saddle")
    assert ys == [4800, 5400, 6600, 7200]


def test_a_narrow_wing_has_its_truncated_girder_at_half_its_span():
    layout = house(((0, 0), (9000, 0), (9000, 3900), (0, 3900)), setback=2400)
    assert at(layout, "truncated_girder", 0) == [1950, 7050]
    assert all(peak(m) == pytest.approx(1950 * TAN) for m in layout.members if m.kind == "truncated_girder")


STAGGERED = ((0, 0), (6000, 0), (6000, 1200), (9600, 1200), (9600, 2400), (12600, 2400), (12600, 18000), (0, 18000))


def on_line(layout, y, *kinds):
    """The trusses of these kinds that run along x on the line ``y``, a girder by its outside face."""
    off = {"girder": 35.0}
    return [
        m for m in layout.members
        if m.kind in kinds and m.start[1] == m.finish[1] and abs(m.start[1] - off.get(m.kind, 0.0) - y) < 1
    ]  # fmt: skip


def test_ridges_that_run_the_same_way_step_into_girder_and_truncated_trusses():
    """The trade brief's own example, rule 12: heights are distances times the slope."""
    layout = house(STAGGERED)
    (wide,), (narrow,) = (on_line(layout, y, "girder") for y in (2400, 1200))
    assert (peak(wide), peak(narrow)) == (pytest.approx(2400 * TAN), pytest.approx(1200 * TAN))
    assert round(peak(wide)) == 994
    (stepped,) = on_line(layout, 4200, "truncated_girder")
    levels = [(a, z) for (a, z), (b, w) in zip(stepped.top, stepped.top[1:], strict=False) if z == w]
    assert [round(z) for _run, z in levels] == [1243, 746]
    assert (stepped.start[0], stepped.finish[0]) == (0, 12600)
    saddles = sorted((m.start[1], m.span) for m in layout.members if m.kind == "saddle")
    assert saddles == [(1800, 4800), (3000, 8400), (3600, 7200)]
    assert faults(layout) == []


def test_where_the_higher_hip_end_comes_out_over_a_lower_ridge_it_stands_on_rafters():
    layout = house(STAGGERED)
    rafters = [part for part in layout.parts if part.part == "loose rafter"]
    assert rafters
    assert {layout.by_tag[part.on].kind for part in rafters} <= {"truncated", "truncated_girder", "saddle"}


@pytest.mark.parametrize(
    ("length", "last"),
    [
        (12000, [9000, 9600, 10200]),  # 10200 stands 600 from the girder: nothing to share
        (12470, [10800, 11400, 12000]),  # 362.5 to the gable truss is over half the spacing
        (12200, [10800, 11400, 11746]),  # 92.5 would be left: the last two bays are 346 and 346.5
    ],
)
def test_a_very_short_closing_bay_is_shared_with_the_bay_before_it(length, last):
    """Rule 8: under half the spacing, or under 250, the last two bays are made equal in whole millimetres."""
    gables = "" if length == 12000 else "B"
    layout = house(((0, 0), (length, 0), (length, 6600), (0, 6600)), gables)
    found = at(layout, "standard", 0)
    if gables:
        assert found[-3:] == last
    else:
        assert max(found) <= length - 3300


def test_three_bays_are_shared_where_two_would_not_be_full_height():
    """Garage forward, off the corner: 610 between 12000 and the truncated truss at 12610, full height up to 12275."""
    layout = house(((0, 0), (16810, 0), (16810, 9070), (0, 9070)))
    assert [x for x in at(layout, "standard", 0) if x > 11000] == [11400, 11803, 12207]
    assert at(layout, "truncated", 0)[4] == 12610


STEPPED = ((0, 0), (5570, 0), (5570, 590), (12910, 590), (12910, 8330), (0, 8330))


def straight(outline, limit=600, gables="") -> Layout:
    return lay_out(House(PlatePlan(outline, 90, frozenset(gables)), RoofSpec(22.5, 450, 90, limit), TrussSpec()))


def test_a_straight_fascia_runs_past_a_step_and_trusses_bear_further_in():
    """Rule 10: the roof line keeps its place; where the wall stands back it is depth times the slope higher there."""
    layout = straight(STEPPED)
    assert layout.counts.get("girder", 0) == 0
    assert {face.wall for face in layout.roof.faces} == {"A", "D", "E", "F"}
    back = next(m for m in layout.members if m.kind == "standard" and m.start[0] == 7800)
    assert back.start == (7800, 590)
    assert (back.ends[0].bears_on, back.ends[0].tail) == ("plate C", 450 + 590)
    assert back.top[0] == (-1040, pytest.approx(90 - 450 * TAN))
    heel = 90 + 590 * TAN
    slope = (back.top[1][1] - back.top[0][1]) / (back.top[1][0] - back.top[0][0])
    assert back.top[0][1] + 1040 * slope == pytest.approx(heel)
    front = next(m for m in layout.members if m.kind == "standard" and m.start[0] == 4800)
    assert (front.start, front.ends[0].tail) == ((4800, 0), 450)
    assert back.like != front.like
    hip = next(m for m in layout.members if m.kind == "hip" and m.start == (12910 - 590, 590))
    assert hip.ends[0].bears_on == "plate C"
    assert faults(layout) == []


def test_what_is_left_of_a_creeper_under_a_wide_eave_is_a_loose_rafter_or_nothing():
    outline = ((0, 0), (5570, 0), (5570, 550), (12910, 550), (12910, 8330), (0, 8330))
    (rafter,) = [part for part in straight(outline).parts if part.part == "loose rafter"]
    assert (rafter.start, rafter.finish) == ((12310, 550), (12310, 600))
    assert straight(STEPPED).house.straightened.plates["A"][1].depth == 590


def test_the_whole_roof_is_borne_under_a_widened_eave():
    layout = straight(STEPPED)
    assert layout.roof.plan_area_m2 == pytest.approx((12.91 + 0.9) * (8.33 + 0.9))
    assert sum(load.direct_m2 for load in loads(layout).values()) == pytest.approx(layout.roof.plan_area_m2)


def test_the_fascia_follows_a_step_that_is_too_deep_or_where_it_is_turned_off():
    assert straight(STEPPED, limit=0).counts["girder"] == 1
    assert straight(STEPPED, limit=589).counts["girder"] == 1
    assert straight(STEPPED, limit=590).counts.get("girder", 0) == 0


def test_no_truss_stands_on_a_return_wall():
    """It moves clear to the side that stands back; the return's plate runs from 5480 to 5570."""
    layout = straight(STEPPED)
    stands = [m.start[0] for m in layout.members if m.start[0] == m.finish[0]]
    assert all(not 5480 - 17.5 < x < 5570 + 17.5 for x in stands)


def test_eaves_meet_halfway_in_a_recess_narrower_than_two_overhangs():
    recess = ((0, 0), (6290, 0), (6290, 2170), (7070, 2170), (7070, 0), (12590, 0), (12590, 10520), (0, 10520))
    layout = straight(recess, limit=0)
    ends = [end for m in layout.members for end in m.ends if end.bears_on == "plate B" and m.kind != "hip"]
    assert {end.tail for end in ends if end.tail} == {390}
    assert faults(layout) == []
