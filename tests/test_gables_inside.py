"""A gable that ends at an inside corner: the parts of the roof, the faces between them, and the layout of each.

Areas are checked with shapely and closed forms; the rest is common practice, no source.
"""

import io
import math
import random
from dataclasses import replace
from itertools import combinations, pairwise

import ezdxf
import pytest
from layout_checks import HABITS, faults, laid_right
from plans import TURNS, turned
from shapely import Polygon, union_all
from sizes import by_size

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out
from trainer.picture.angled import Scene3
from trainer.picture.cut import SectionLine
from trainer.picture.finished import covered
from trainer.picture.house import roof_lines
from trainer.picture.legend import legend
from trainer.picture.model import Line, flat
from trainer.picture.model import Polygon as Drawn
from trainer.picture.section import section
from trainer.picture.space import Turn
from trainer.plan import DutchGable, PlatePlan, dutch_faults, plan_faults, roof_parts, round_corners
from trainer.report.dxf import to_dxf
from trainer.roof import RoofSpec, distance, solve

DRAWN = range(by_size(14, 80, 300))
REFUSED = 3
"""Of a hundred drawn plans, at most so many are refused: ends too short for a hip beside a gable."""


def drawn(seed):
    """A gabled main house and a lower end: flush or not, in the middle of the gable, or set forward with its own."""
    dice = random.Random(f"stepped {seed}")
    long, wide, out = (dice.randrange(a, b) * 10 for a, b in ((700, 1500), (600, 1100), (250, 700)))
    low = dice.randrange(90, (wide - 3000) // 10) * 10
    far = dice.choice(
        [wide, dice.randrange((low + 2400) // 10, (wide - 600) // 10) * 10, wide + dice.randrange(90, 300) * 10]
    )
    if far == wide:
        outline = [(0, 0), (long, 0), (long, low), (long + out, low), (long + out, wide), (0, wide)]
        gables = "B"
    else:
        outline = [
            (0, 0),
            (long, 0),
            (long, low),
            (long + out, low),
            (long + out, far),
            (long, far),
            (long, wide),
            (0, wide),
        ]
        gables = "BF"
    ends = "D" if dice.random() < 0.4 else ""
    first = chr(ord("A") + len(outline) - 1) if dice.random() < 0.5 else ""
    return PlatePlan(tuple(outline), 90, frozenset(gables + ends + first))


PLANS = [(seed, drawn(seed)) for seed in DRAWN]


def laid(plan, spacing=600, setback=1800, overhang=450, straight_fascia=600):
    return lay_out(House(plan, RoofSpec(22.5, overhang, 90, straight_fascia), TrussSpec(spacing, setback)))


def test_layouts_over_drawn_plans_obey_what_any_right_layout_obeys():
    for _seed, plan in PLANS:
        assert not plan_faults(plan.outline, sorted(plan.gables), ())
        assert len(roof_parts(plan)) == 2
    for layout in laid_right(PLANS, laid, REFUSED):
        assert {m.kind for m in layout.members}.isdisjoint({"girder", "saddle"})


@pytest.mark.parametrize("turn", TURNS.values(), ids=TURNS)
def test_a_gable_whose_line_comes_to_a_higher_wall_needs_no_girder_there(turn):
    """Each part ends with a truss of its own at the line: the gable truss, and a half truss on the ledger under it."""
    outline = ((0, 0), (12_640, 0), (12_640, 10_840), (5640, 10_840), (5640, 5550), (0, 5550))
    plan = turned(PlatePlan(outline, 90, frozenset("E"), against=frozenset("AB")), turn, (1230, -770))
    assert not plan_faults(plan.outline, sorted(plan.gables), (), sorted(plan.against))
    assert len(roof_parts(plan)) == 2
    assert round_corners(plan) == ()
    layout = laid(plan)
    assert faults(layout) == []
    assert {m.kind for m in layout.members}.isdisjoint({"girder", "saddle"})


@pytest.mark.parametrize("turn", TURNS.values(), ids=TURNS)
def test_a_turned_or_mirrored_plan_has_the_same_roof_and_as_many_trusses(turn):
    for seed, plan in PLANS[:2]:
        other = turned(plan, turn, (1230, -770))
        assert not plan_faults(other.outline, sorted(other.gables), ())
        spec = RoofSpec(22.5, 450, 90)
        one, two = solve(plan, spec), solve(other, spec)
        assert one.plan_area_m2 == pytest.approx(two.plan_area_m2, abs=1e-9)
        assert one.step_area_m2 == pytest.approx(two.step_area_m2, abs=1e-9)
        try:
            layout = laid(plan, *HABITS[seed % 4])
        except LayoutRefused:
            continue
        mirrored = laid(other, *HABITS[seed % 4])
        assert faults(mirrored) == []
        kinds = ("truncated_girder", "hip", "gable")
        assert [layout.counts.get(k, 0) for k in kinds] == [mirrored.counts.get(k, 0) for k in kinds]


def test_the_planes_of_the_parts_cover_the_plan_once_and_no_more():
    for seed, plan in PLANS:
        roof = solve(plan, RoofSpec(22.5, 0, 90))
        shapes = [Polygon([place[:2] for place in face.polygon]) for face in roof.faces]
        assert union_all(shapes).area == pytest.approx(Polygon(plan.outline).area, abs=1), seed
        assert roof.plan_area_m2 * 1e6 == pytest.approx(Polygon(plan.outline).area, abs=1), seed
        assert roof.area_m2 == pytest.approx(roof.plan_area_m2 / math.cos(math.radians(22.5)))


def test_every_face_lies_on_the_distance_to_the_outside_of_its_own_part():
    for _seed, plan in PLANS[:12]:
        spec = RoofSpec(30, 0, 0)
        for face in solve(plan, spec).faces:
            x, y = (sum(p[i] for p in face.polygon) / len(face.polygon) for i in (0, 1))
            inside = Polygon([p[:2] for p in face.polygon]).representative_point()
            wall = plan.by_name[face.wall]
            d = (inside.x - wall.a[0]) * wall.inward[0] + (inside.y - wall.a[1]) * wall.inward[1]
            assert distance(plan, inside.x, inside.y) == pytest.approx(d, abs=1e-6), (x, y)


ABOVE = PlatePlan(((0, 0), (8350, 0), (8350, 1950), (12250, 1950), (12250, 7150), (0, 7150)), 90, frozenset("BF"))


def test_the_face_between_two_parts_is_what_the_upper_gable_shows_above_the_lower_roof():
    """A gable of 7150 over a roof of 5200, flush at the back: two triangles' difference in closed form."""
    roof, t = solve(ABOVE, RoofSpec(22.5, 0, 90)), math.tan(math.radians(22.5))
    upper, hidden, lower = 7150**2 / 4, 1950**2 / 2, 5200**2 / 4
    assert roof.step_area_m2 == pytest.approx((upper - hidden - lower) * t / 1e6)
    (ring,) = roof.steps
    assert {place[0] for place in ring} == {8350.0}
    assert [round(z - 90, 3) for z in sorted({place[2] for place in ring})] == [
        0, round(1625 * t, 3), round(1950 * t, 3), round(2600 * t, 3), round(3575 * t, 3)
    ]  # fmt: skip
    # Looked at over the lower roof, from the right, the back of the house is on the right.
    assert sum(a[1] * b[2] - b[1] * a[2] for a, b in pairwise([*ring, ring[0]])) > 0


def test_two_roofs_side_by_side_each_stand_above_the_other_once():
    plan = PlatePlan(
        ((0, 0), (6000, 0), (6000, 2000), (12000, 2000), (12000, 10000), (6000, 10000), (6000, 8000), (0, 8000)),
        90, frozenset("BF"),
    )  # fmt: skip
    roof, t = solve(plan, RoofSpec(22.5, 0, 0)), math.tan(math.radians(22.5))
    # Each gable is 8000 wide and 4000 t high, set 2000 off the other: they cross midway, 3000 t up.
    assert len(roof.steps) == 2
    each = (4000**2 - 2000**2 / 2 - 3000**2) * t / 1e6
    assert roof.step_area_m2 == pytest.approx(2 * each)


def test_a_verge_ends_at_the_inside_corner_and_the_eave_runs_up_to_the_gables_face():
    roof = solve(ABOVE, RoofSpec(22.5, 450, 90))
    # The outline moved out by the eaves, and the corner of the verge over the end of the lower eave once more.
    whole = (12250 + 900) * (7150 + 900) - 3900 * 1950
    overlap = 450 * 450
    assert roof.plan_area_m2 == pytest.approx((whole + overlap) / 1e6)
    ends = {place[:2] for face in roof.faces if face.wall in "AC" for place in face.polygon}
    assert {(8800.0, -450.0), (8800.0, 1950.0), (8350.0, 1950.0), (8350.0, 1500.0)} <= ends


def test_outriggers_carry_a_verge_at_the_gables_own_wall_and_end_flush_over_the_lower_roof():
    layout = laid(ABOVE)
    gable = next(m for m in layout.members if m.kind == "gable" and m.start[0] > 4000)
    own = [part for part in layout.parts if part.on == gable.tag]
    for part in (part for part in own if part.part == "outrigger"):
        assert part.start[0] == (8800 if part.start[1] <= 1950 else 8350)
    (rafter,) = (part for part in own if part.part == "verge rafter")
    assert sorted((rafter.start[1], rafter.finish[1])) == [-450, 1950]
    # No stud where the roofs are one slope: above the lower ridge's back slope, from 4550 on.
    studs = [part.start[1] for part in own if part.part == "gable stud"]
    assert studs and max(studs) < 4550


RECESSES = range(by_size(6, 20, 300))


def recess(seed):
    """A gabled end across a recess, 100 to 900 wide, from the side of a forward wing; or the wing gabled, or both."""
    dice = random.Random(f"recess {seed}")
    long, wide, out = (dice.randrange(a, b) * 10 for a, b in ((700, 1300), (700, 1100), (300, 700)))
    low, narrow = dice.randrange(120, (wide - 3000) // 10) * 10, dice.randrange(10, 90) * 10
    fore, far = low - dice.randrange(30, 500) * 10, long + narrow + out
    outline = [
        *((0, 0), (long, 0), (long, low), (long + narrow, low)),
        *((long + narrow, fore), (far, fore), (far, wide), (0, wide)),
    ]
    gables = dice.choice(["B", "D", "BD", "BH", "DF", "BF"])
    return PlatePlan(tuple(outline), 90, frozenset(gables)), narrow


def test_over_a_recess_narrower_than_two_overhangs_each_part_ends_half_way():
    """The planes reach as far as the outline set out by the overhang, which shapely finds; they lie one over another
    only where an eave runs on under a verge, up to the face of its gable.
    """
    refused = 0
    for seed in RECESSES:
        straight, narrow = recess(seed)
        plan = turned(straight, random.Random(seed).choice([*TURNS.values()]), (1230, -770))
        faces = [Polygon([place[:2] for place in face.polygon]) for face in solve(plan, RoofSpec(22.5, 450, 90)).faces]
        whole = union_all(faces)
        assert whole.symmetric_difference(Polygon(plan.outline).buffer(450, join_style="mitre")).area < 1, seed
        twice = [shared for a, b in combinations(faces, 2) if (shared := a & b).area > 1]
        assert sum(shared.area for shared in twice) <= narrow / 2 * 450 * len(straight.gables & set("BD")) + 1, seed
        assert not [shared for shared in twice if (shared & Polygon(plan.outline)).area > 1], seed
        try:
            assert faults(laid(plan, *HABITS[seed % 4], straight_fascia=0)) == [], seed
        except LayoutRefused:
            refused += 1
    assert refused <= len(RECESSES) * REFUSED / 100


def test_a_stub_shorter_than_the_eave_between_a_gable_and_an_inside_corner_is_refused_and_still_drawn():
    outline = ((0, 0), (9000, 0), (9000, -2000), (14000, -2000), (14000, 6000), (8970, 6000), (8970, 9000), (0, 9000))
    plan = PlatePlan(outline, 90, frozenset("B"))
    with pytest.raises(LayoutRefused) as no:
        laid(plan)
    assert "shorter here than its overhang" in no.value.reasons[0].why
    assert solve(plan, RoofSpec(22.5, 450, 90)).faces
    assert solve(plan, RoofSpec(22.5, 0, 90)).plan_area_m2 * 1e6 == pytest.approx(Polygon(outline).area, abs=1)


@pytest.mark.parametrize(("gables", "against"), [("B", ""), ("C", ""), ("B", "C"), ("C", "B")])
def test_what_is_said_of_neighbouring_gables_can_be_done(gables, against):
    """Walls B and C share a corner: let one be an eave, or have a higher house behind it."""
    outline = ((0, 0), (9410, 0), (9410, 6070), (0, 6070))
    (fault, *_rest) = plan_faults(outline, ["B", "C"], ())
    assert "both gables" in fault.what and "be an eave" in fault.what and "against it" in fault.what
    assert not plan_faults(outline, list(gables), (), list(against))
    assert faults(laid(PlatePlan(outline, 90, frozenset(gables), against=frozenset(against)))) == []


def test_the_face_above_the_lower_roof_is_drawn_in_plan_section_and_space():
    layout = laid(ABOVE)
    lines = [item for item in flat(roof_lines(layout.roof)) if {x for x, _y in item.points} == {8350.0}]
    assert len(lines) == 1
    assert any(words == "gable's face above a lower roof" for words, _sample in legend(layout))
    cut = SectionLine((0.0, 3000.0), (12250.0, 3000.0))  # 3000 up the gable, 1050 up the lower roof
    upright = [item for item in section(Scene3(layout, {}, ()), cut) if isinstance(item, Line)]
    (ends,) = (item.points for item in upright if {round(x, 3) for x, _z in item.points} == {8350.0})
    t = math.tan(math.radians(22.5))
    assert sorted(z for _x, z in ends) == pytest.approx([90 + 1050 * t, 90 + 3000 * t])
    sides = []
    for yaw in (35.0, 215.0):
        turn = Turn(yaw, 30.0, (6000.0, 3500.0))
        seen = covered(layout.house, layout.roof, turn)
        sides.append(sum(isinstance(item, Drawn) and str(item.fill).startswith("wall") for item in seen))
    assert sorted(sides) == [1, 2]  # the one gable from its side; the other, and the face above the lower roof


def test_a_dutch_gable_stands_on_the_lower_roof_s_end_and_on_no_wall_that_a_gable_comes_to():
    outline = ((0, 0), (11830, 0), (11830, 2070), (18210, 2070), (18210, 8110), (0, 8110))
    plan = PlatePlan(outline, 90, frozenset("BF"))
    assert not dutch_faults(plan, 600, 1800, {"D": (1800, 300)})
    (fault,) = dutch_faults(plan, 600, 1800, {"E": (1800, 300)})
    assert "no hip end" in fault.what
    layout = laid(replace(plan, dutch_gables=(DutchGable("D", 1800, 300),)))
    assert faults(layout) == []
    assert [m.kind for m in layout.members if m.is_dutch] == ["girder"]


def test_the_face_is_in_a_drawing_for_drafting_programs_on_a_layer_of_its_own():
    drawn = ezdxf.read(io.StringIO(to_dxf(laid(ABOVE), "A house")))
    (line,) = (item for item in drawn.modelspace() if item.dxf.layer == "GABLE_FACES")
    assert (tuple(line.dxf.start)[:2], tuple(line.dxf.end)[:2]) == ((8350, 1950), (8350, 4550))
