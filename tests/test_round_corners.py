"""A lower roof that goes round the corner of a higher wall: its planes and its layout.

Heights are checked against the lower envelope of the eaves' planes in closed form; the rest is common practice.
"""

import random

import pytest
from layout_checks import faults, laid_right
from plans import TURNS, turned
from shapely import Polygon
from sizes import by_size

from trainer.layout import House, TrussSpec, lay_out
from trainer.plan import PlatePlan, plan_faults, roof_parts, wall_name
from trainer.roof import RoofSpec, distance, solve

DRAWN = range(by_size(14, 80, 250))
REFUSED = 2
"""Of a hundred drawn plans, at most so many are refused."""


def drawn(seed):
    """Two legs round a corner, or three round two, each hipped or gabled at its end; turned or mirrored."""
    dice = random.Random(f"round {seed}")
    a, b = (dice.randrange(150, 450) * 10 for _ in "ab")
    long, far = (max(a, b) + dice.randrange(60, 700) * 10 for _ in "ab")
    outline = [(0, 0), (a + long, 0), (a + long, b), (a, b), (a, b + far), (0, b + far)]
    against = "CD"
    if dice.random() < 0.3:
        c = dice.randrange(150, 450) * 10
        top = b + max(b, c) + dice.randrange(60, 500) * 10
        outline[1:3] = [(a + long + c, 0), (a + long + c, top), (a + long, top), (a + long, b)]
        against = "DEF"
    ends = (wall_name(2 if len(outline) == 8 else 1), wall_name(len(outline) - 2))
    gables = frozenset(end for end in ends if dice.random() < 0.4)
    plan = PlatePlan(tuple(outline), 90, gables, against=frozenset(against))
    return turned(plan, dice.choice([*TURNS.values()]), (1230, -770))


PLANS = [(seed, drawn(seed)) for seed in DRAWN]


def laid(plan, spacing=600, setback=1800):
    return lay_out(House(plan, RoofSpec(22.5, 450, 90, 600), TrussSpec(spacing, setback)))


def test_layouts_over_drawn_plans_obey_what_any_right_layout_obeys():
    for _seed, plan in PLANS:
        assert not plan_faults(plan.outline, sorted(plan.gables), (), sorted(plan.against))
    for layout in laid_right(PLANS, laid, REFUSED):
        corners = len(layout.house.plan.against) - 1
        assert layout.counts["girder"] == corners and "saddle" not in layout.counts


def test_the_planes_cover_the_plan_and_leave_no_step():
    for seed, plan in PLANS:
        roof = solve(plan, RoofSpec(22.5, 0, 90))
        assert roof.plan_area_m2 * 1e6 == pytest.approx(Polygon(plan.outline).area, abs=1), seed
        assert roof.steps == () and roof.step_area_m2 == 0 and roof.valleys == ()


TWO_LEGS = PlatePlan(
    ((0, 0), (9000, 0), (9000, 3000), (4000, 3000), (4000, 9000), (0, 9000)), 90, against=frozenset("CD")
)


def test_the_roof_is_the_lowest_of_its_four_eaves_planes():
    for x in range(50, 9000, 370):
        for y in range(50, 9000, 370):
            if x < 4000 or y < 3000:
                lowest = min(x, y, *((9000 - x,) if y < 3000 else ()), *((9000 - y,) if x < 4000 else ()))
                assert distance(TWO_LEGS, x, y) == lowest


def test_a_plane_before_one_wall_runs_through_both_parts():
    roof = solve(TWO_LEGS, RoofSpec(22.5, 450, 90))
    assert len(roof_parts(TWO_LEGS)) == 2
    assert sorted(face.wall for face in roof.faces) == ["A", "B", "E", "F"]
    (front,) = (face for face in roof.faces if face.wall == "A")
    assert {place[:2] for place in front.polygon} == {
        (-450.0, -450.0), (9450.0, -450.0), (6000.0, 3000.0), (4000.0, 3000.0), (4000.0, 4000.0)
    }  # fmt: skip


def test_a_half_girder_from_the_corner_carries_the_deeper_legs_end():
    layout = laid(TWO_LEGS)
    (girder,) = (m for m in layout.members if m.kind == "girder")
    assert [(end.at, end.bears_on) for end in girder.ends] == [((4035, 0), "plate A"), ((4035, 3000), "ledger C")]
    hung = {m.tag for m in layout.members if girder.tag in m.carried_by}
    assert hung == {"TG1", "T1"}
    # The first half truss past the corner hangs wholly on the ledger, clear of the girder's end.
    first = min(m.start[1] for m in layout.members if m.kind == "half" and m.start[1] == m.finish[1])
    assert first == 3017.5


@pytest.mark.parametrize(
    ("against", "right", "top"),
    [("C", 9000, 9000), ("D", 9000, 9000), ("CD", 6990, 9000), ("CD", 9000, 5990)],
    ids=["one wall alone", "the other alone", "a short leg at the right", "a short leg at the top"],
)
def test_where_it_cannot_go_round_it_is_refused_with_a_remedy(against, right, top):
    """Only one wall there against the house, or a leg shorter than deep: its hip would run into the other wall."""
    outline = [(0, 0), (right, 0), (right, 3000), (4000, 3000), (4000, top), (0, top)]
    found = plan_faults(outline, [], [], list(against))
    assert found and all("inside corner" in fault.what and "house of its own" in fault.what for fault in found)


def test_a_leg_as_long_as_it_is_deep_goes_round():
    outline = ((0, 0), (7000, 0), (7000, 3000), (4000, 3000), (4000, 6000), (0, 6000))
    assert not plan_faults(outline, [], [], ["C", "D"])
    assert faults(laid(PlatePlan(outline, 90, against=frozenset("CD")))) == []


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize(("right", "top"), [(5500, 9000), (6800, 9000), (9000, 4100), (9000, 5200), (5500, 4500)])
def test_a_gabled_leg_may_be_shorter_than_it_is_deep(right, top, turn):
    """A gable has no hip that could run into the other wall (common practice, no source)."""
    outline = ((0, 0), (right, 0), (right, 3000), (4000, 3000), (4000, top), (0, top))
    plan = turned(PlatePlan(outline, 90, frozenset("BE"), against=frozenset("CD")), TURNS[turn], (0, 0))
    assert not plan_faults(plan.outline, sorted(plan.gables), (), sorted(plan.against))
    assert faults(laid(plan)) == []
    roof = solve(plan, RoofSpec(22.5, 450, 90))
    assert roof.steps == ()
    assert len(roof.faces) == 2


def test_a_wall_beyond_a_short_gabled_leg_is_no_matter_but_one_before_it_is():
    outline = [(0, 0), (5500, 0), (5500, 3000), (4000, 3000), (4000, 9000), (0, 9000)]
    assert not plan_faults(outline, ["B"], [], ["C", "D"])
    assert plan_faults(outline, ["E"], [], ["C", "D"])
