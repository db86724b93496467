"""Four invented houses worked by hand from the layout rules (common practice, no source).

Their counts, stations and heights were worked out apart from the program, with closed forms; heights are
``distance x tan 22.5 degrees``.
"""

import math

import pytest

from trainer.layout import House, Layout, TrussSpec, lay_out
from trainer.plan import Plan
from trainer.roof import RoofSpec

TAN = math.tan(math.radians(22.5))
FLUSH_L = ((0, 0), (12600, 0), (12600, 11400), (7800, 11400), (7800, 7800), (0, 7800))
HIP_AND_GABLE = ((0, 0), (13200, 0), (13200, 6600), (0, 6600))
U_PLAN = ((0, 0), (18000, 0), (18000, 12600), (12600, 12600), (12600, 7200), (6000, 7200), (6000, 12600), (0, 12600))
STUB = ((0, 0), (13800, 0), (13800, 7800), (9000, 7800), (9000, 9300), (4200, 9300), (4200, 7800), (0, 7800))


def house(outline, gables="", spacing=600, setback=1800, **more) -> Layout:
    trusses = TrussSpec(spacing, setback, **more)
    return lay_out(House(Plan(outline, 90, frozenset(gables)), RoofSpec(22.5, 600, 0), trusses))


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
    assert at(layout, "standard", 0, "W1") == list(range(4200, 8401, 600))
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
    assert at(layout, "standard", 0) == list(range(4200, 9601, 600))


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
