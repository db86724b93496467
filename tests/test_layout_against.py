"""A lower roof against a higher wall: its planes, its areas and its layout, both ways. Common practice, no source."""

import math
import random
from dataclasses import replace

import pytest
from attempts import attempt, right
from layout_checks import HABITS, faults, laid_right
from plans import TURNS, turned
from sizes import by_size

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out
from trainer.plan import DutchGable, PlatePlan, dutch_faults, plan_faults, wall_name
from trainer.roof import RoofSpec, distance, solve

DRAWN = range(by_size(50, 250, 400))
REFUSED = 1
"""Of a hundred drawn plans, at most so many are refused: wings too short for their hip ends."""


def rectangle(length, depth, gables="", against=""):
    outline = ((0, 0), (length, 0), (length, depth), (0, depth))
    return PlatePlan(outline, 90, frozenset(gables), against=frozenset(against))


def laid(plan, spacing=600, setback=1800, overhang=450):
    return lay_out(House(plan, RoofSpec(22.5, overhang, 90, 600), TrussSpec(spacing, setback)))


def drawn(seed):
    """A rectangle or an L with some walls against higher ones and some gables; None where it is no sound plan."""
    dice = random.Random(seed)
    length, depth = dice.randrange(200, 1400) * 10, dice.randrange(120, 1000) * 10
    outline = [(0, 0), (length, 0), (length, depth), (0, depth)]
    if dice.random() < 0.5 and (wide := dice.randrange(250, 900) * 10) < length - 900:
        top = depth + dice.randrange(60, 600) * 10
        outline[2:] = [(length, top), (length - wide, top), (length - wide, depth), (0, depth)]
    names = "ABCDEF"[: len(outline)]
    against = [name for name in names if dice.random() < 0.3]
    gables = [name for name in names if dice.random() < 0.25 and name not in against]
    if not against or plan_faults(outline, gables, (), against):
        return None
    return PlatePlan(tuple(outline), 90, frozenset(gables), against=frozenset(against))


def fronted(seed):
    """A roof along a higher wall, and in front of it another part, wider or narrower, in the middle or flush."""
    dice = random.Random(f"front {seed}")
    depth, length = dice.randrange(180, 420) * 10, dice.randrange(900, 1800) * 10
    width = min(dice.randrange(240, 900) * 10, length - 1010)
    low = dice.choice([0, length - width, dice.randrange(50, (length - width - 490) // 10) * 10])
    high, out = low + width, -dice.randrange(90, 500) * 10
    left = [(0, 0), (low, 0)] if low else []
    right = [(high, 0), (length, 0)] if high < length else []
    outline = (*left, (low, out), (high, out), *right, (length, depth), (0, depth))
    front = wall_name(len(left))
    gables = frozenset([front]) if dice.random() < 0.4 else frozenset()
    return PlatePlan(outline, 90, gables, against=frozenset([wall_name(len(outline) - 2)]))


PLANS = [(seed, plan) for seed in DRAWN if (plan := drawn(seed))]


def test_layouts_over_drawn_plans_obey_what_any_right_layout_obeys():
    assert len(PLANS) > len(DRAWN) * 0.35
    laid_right(PLANS, laid, REFUSED)


@pytest.mark.parametrize(
    "turn",
    [lambda x, y: (-x, y), lambda x, y: (-y, x), lambda x, y: (y, x)],
    ids=["mirrored", "turned", "on the diagonal"],
)
def test_they_do_turned_and_mirrored(turn):
    for seed, plan in PLANS[::3]:
        try:
            layout = laid(turned(plan, turn, (1230, -770)), *HABITS[seed % 4])
        except LayoutRefused:
            with pytest.raises(LayoutRefused):
                laid(plan, *HABITS[seed % 4])
            continue
        assert faults(layout) == [], seed


@pytest.mark.parametrize("turn", TURNS.values(), ids=TURNS)
def test_half_wings_frame_into_what_stands_in_front_of_them_however_they_are_turned(turn):
    for seed in range(8):
        plan = fronted(seed)
        assert not plan_faults(plan.outline, sorted(plan.gables), (), sorted(plan.against))
        assert faults(laid(turned(plan, turn, (1230, -770)), *HABITS[seed % 4])) == [], seed


def test_half_wings_that_frame_in_are_laid_out_as_worked_by_hand():
    """A part 8000 wide and 6000 deep runs into the wall; beside it the roof along the wall is 3000 deep.

    At the line where they meet the roof is as high as it is deep, 2000 at most beside a hip end 2000 long. A girder
    follows it, from the plate at the inside corner to the ledger. Saddles lie 600, 1200, 1800 and 2400 in from it; in
    the whole wing, 6000 wide, their bases would be 6000 less twice that, and half of each is there.
    """
    outline = (
        (0, 0), (2000, 0), (2000, -3000), (10_000, -3000), (10_000, 0), (12_000, 0), (12_000, 3000), (0, 3000),
    )  # fmt: skip
    layout = laid(PlatePlan(outline, 90, against=frozenset("G")))
    girders = [m for m in layout.members if m.kind == "girder"]
    assert [[end.bears_on for end in m.ends] for m in girders] == [["plate A", "ledger G"], ["plate E", "ledger G"]]
    slope, heel = layout.house.roof.slope, layout.house.roof.heel
    line = ((0, heel), (2000, heel + 2000 * slope), (3000, heel + 2000 * slope))
    assert [pytest.approx(spot) for spot in girders[0].top] == list(line)
    saddles = [m for m in layout.members if m.kind == "saddle"]
    assert sorted(m.span for m in saddles) == [600, 600, 1200, 1200, 1800, 1800, 2400, 2400]
    assert {m.start[0] for m in saddles} == {2600, 3200, 3800, 4400, 9400, 8800, 8200, 7600}
    hung = [m.start[1] for m in layout.members if m.kind == "standard" and m.ends[0].bears_on in ("G1", "G2")]
    assert sorted(hung) == [1200, 1800, 2400, 2982.5]


def test_a_house_with_half_wings_that_frame_in_is_built_right_from_end_to_end():
    for seed in (1, 2):
        assert not attempt("two-fronts", right("two-fronts", seed), seed=seed).findings


@pytest.mark.parametrize("gables", ["", "B", "BD"])
@pytest.mark.parametrize(("length", "depth"), [(8400, 3000), (11310, 2730), (6230, 2990)])
def test_half_a_wing_is_half_of_the_wing_doubled_by_its_mirror_image(length, depth, gables):
    """The doubled wing is laid out as a house of its own; no code for higher walls takes part in that."""
    half, whole = laid(rectangle(length, depth, gables, "C")), laid(rectangle(length, 2 * depth, gables))
    of_half = {m.start[0]: m for m in half.members if m.kind in ("half", "truncated_girder", "gable")}
    of_whole = {
        m.start[0]: m for m in whole.members if m.kind in ("standard", "truncated", "truncated_girder", "gable")
    }
    assert set(of_half) == set(of_whole)
    for at, member in of_half.items():
        double = of_whole[at]
        assert member.half_of in (None, double.kind)
        assert member.start == double.start
        assert member.finish == (at, depth)
        assert member.ends[1].bears_on == "ledger C"
        kept = [point for point in double.top if point[0] < depth]
        assert list(member.top[:-1]) == kept
        assert member.top[-1][1] == pytest.approx(max(z for _, z in double.top))
    hips = [(m.start, m.finish) for m in whole.members if m.kind == "hip" and m.start[1] < depth]
    assert [(m.start, m.finish) for m in half.members if m.kind == "hip"] == hips


def test_the_roof_is_that_of_the_doubled_wing_on_this_side_of_the_wall():
    half, whole = rectangle(8400, 3000, "B", "C"), rectangle(8400, 6000, "B")
    dice = random.Random(1)
    for _ in range(300):
        x, y = dice.uniform(-400, 8400), dice.uniform(-400, 3000)
        assert distance(half, x, y) == pytest.approx(distance(whole, x, y))


def test_its_areas_by_closed_forms():
    """Plan area of a rectangle, eaves included, over the cosine of the pitch: the roof ends at the face of the wall."""
    spec = RoofSpec(22.5, 450, 90)
    for plan, wide, deep in (
        (rectangle(8400, 3000, "", "C"), 8400 + 900, 3000 + 450),
        (rectangle(8400, 3000, "BD", "C"), 8400 + 900, 3000 + 450),
        (rectangle(6000, 6900, "", "C"), 6000 + 900, 6900 + 450),
        (rectangle(8400, 3000, "", "BC"), 8400 + 450, 3000 + 450),
        (rectangle(8400, 3000, "", "BCD"), 8400, 3000 + 450),
        (rectangle(8400, 5000, "", "BD"), 8400, 5000 + 900),
    ):
        roof = solve(plan, spec)
        assert roof.plan_area_m2 == pytest.approx(wide * deep / 1e6)
        assert roof.area_m2 == pytest.approx(wide * deep / 1e6 / math.cos(math.radians(22.5)))


def test_eaves_over_a_narrow_recess_stop_at_the_wall_too():
    outline = ((0, 0), (9000, 0), (9000, 6000), (5400, 6000), (5400, 4500), (4700, 4500), (4700, 6000), (0, 6000))
    roof = solve(PlatePlan(outline, 90, against=frozenset("B")), RoofSpec(22.5, 600, 90))
    assert max(x for face in roof.faces for x, _y, _z in face.polygon) == 9000


def test_a_ridge_that_runs_into_the_wall_ends_with_a_truss_whose_face_is_against_it():
    layout = laid(rectangle(6000, 6900, "", "C"))
    last = max(layout.members, key=lambda m: min(m.start[1], m.finish[1]))
    assert (last.kind, last.start, last.finish) == ("standard", (0, 6882.5), (6000, 6882.5))
    assert [end.tail for end in last.ends] == [450, 450]
    assert layout.at_wall == {last.tag: "C"}
    assert not layout.parts


@pytest.mark.parametrize(
    ("depth", "kinds"),
    [(3000, {"half"}), (3590, {"half"}), (3600, {"standard", "truncated"}), (6900, {"standard", "truncated"})],
)
def test_a_ridge_into_the_wall_shorter_than_a_bay_runs_along_it(depth, kinds):
    """A wing 6000 wide rises for 3000; what is deeper than that is ridge, and 600 of it is worth a truss."""
    layout = laid(rectangle(6000, depth, "", "C"))
    assert {m.kind for m in layout.members} & {"half", "standard", "truncated"} == kinds


@pytest.mark.parametrize(
    ("against", "gables", "says"),
    [
        ("E", "", "its walls are A to D"),
        ("CC", "", "named twice"),
        ("c", "", "did you mean 'C'"),
        ("C", "C", "is a gable too"),
        ("ABCD", "", "no eave to rise from"),
        ("AC", "B", "on both sides"),
    ],
)
def test_what_can_be_wrong_with_walls_named_so(against, gables, says):
    found = plan_faults(((0, 0), (8000, 0), (8000, 4000), (0, 4000)), list(gables), (), list(against))
    assert says in found[0].what
    assert found[0].path[0] == "against"


def test_a_higher_wall_runs_between_outside_corners():
    outline = ((0, 0), (12600, 0), (12600, 11400), (7800, 11400), (7800, 7800), (0, 7800))
    (fault,) = plan_faults(outline, (), (), ["D"])
    assert fault.path == ("against", 0)
    assert "[7800, 7800]" in fault.what


@pytest.mark.parametrize("at", [1800, 2400])
def test_a_dutch_gable_stands_at_the_end_away_from_the_wall_only(at):
    plain = rectangle(12000, 7200, against="B")
    for wall, says in (("A", "no hip end"), ("B", "higher wall"), ("C", "no hip end")):
        (fault,) = dutch_faults(plain, 600, 1800, {wall: (at, 300)})
        assert says in fault.what
    assert dutch_faults(plain, 600, 1800, {"D": (at, 300)}) == []
    layout = laid(replace(plain, dutch_gables=(DutchGable("D", at, 300),)))
    assert faults(layout) == []
    assert layout.roof.plan_area_m2 == pytest.approx((12450 * 8100 + 300 * (7200 - 2 * at + 300)) / 1e6)


@pytest.mark.parametrize(
    ("outline", "gables", "against", "parts"),
    [
        (
            ((0, 0), (9000, 0), (9000, 5000), (6000, 5000), (6000, 3000), (0, 3000)), "", "DE",
            [(((0, 0), (9000, 0), (9000, 3000), (0, 3000)), "", "C"),
             (((6000, 3000), (9000, 3000), (9000, 5000), (6000, 5000)), "", "D")],
        ),
    ],
    ids=["round the corner of a higher house"],
)  # fmt: skip
def test_what_is_refused_at_an_inside_corner_can_be_drawn_as_the_refusal_says(outline, gables, against, parts):
    faulty = plan_faults(outline, list(gables), (), list(against))
    assert all("house of its own" in fault.what and "inside corner" in fault.what for fault in faulty)
    assert len(faulty) == len(gables + against)
    for part, ends, walls in parts:
        assert not plan_faults(part, list(ends), (), list(walls))
        assert faults(laid(PlatePlan(part, 90, frozenset(ends), against=frozenset(walls)))) == []
