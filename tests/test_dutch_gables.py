"""Dutch gables: the roof against closed forms, and layouts over generated plans. Common practice, no source."""

import math
from itertools import pairwise

import pytest
from dutch import hip_ends, with_dutch
from houses import grown_house
from layout_checks import HABITS, faults, laid_right
from plans import turned
from sizes import by_size

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out, loads
from trainer.layout.as_json import layout_json
from trainer.layout.marks import mark_run
from trainer.layout.stations import end_wall_stations
from trainer.level import parse_level, write_level
from trainer.order import Step
from trainer.order.verge import FRAMED, WALING
from trainer.plan import DutchGable, PlatePlan, dutch_faults
from trainer.read import Faulty
from trainer.rehearse import rehearse
from trainer.roof import RoofSpec, distance, solve
from trainer.rules.whole import WHOLE
from trainer.session import Session, job_of
from trainer.site import Fit

SEEDS = range(by_size(48, 110, 160))
EXACT = 1e-6
RECTANGLE = ((0, 0), (14950, 0), (14950, 8170), (0, 8170))


def plan_of(dutch, outline=RECTANGLE, gables=()):
    ends = tuple(DutchGable(wall, at, verge) for wall, (at, verge) in dutch.items())
    return PlatePlan(outline, 90, frozenset(gables), dutch_gables=ends)


def laid(plan, spacing=600, setback=1800, overhang=450):
    return lay_out(House(plan, RoofSpec(22.5, overhang, 90), TrussSpec(spacing, setback)))


def generated():
    for seed in SEEDS:
        plan = with_dutch(grown_house(seed, gables=seed % 3 > 0), HABITS[seed % 4][1], seed)
        if plan is not None:
            yield seed, plan


def overlap(plan):
    """What lies twice: from the verge to the girder, between the hips; a trapezium each."""
    ends = ((plan.by_name[gable.wall].length, gable.at, gable.verge) for gable in plan.dutch_gables)
    return sum(verge * (width - at - (at - verge)) for width, at, verge in ends) / 1e6


@pytest.mark.parametrize(("at", "verge"), [(1800, 300), (1800, 0), (2970, 300), (4084, 450)])
def test_planes_and_areas_of_a_rectangle(at, verge):
    """The end's plane is a trapezium up to the girder; a side's has the strip over the end's tip."""
    length, width, eave, pitch = 14950, 8170, 450, 22.5
    roof = solve(plan_of({"B": (at, verge)}), RoofSpec(pitch, eave, 90))
    area = {face.wall: plane_area(face.polygon) for face in roof.faces}
    half = width / 2
    end = (at + eave) * (width + 2 * eave + width - 2 * at) / 2
    # From a trapezium with two hips: the triangle past the girder's end added, out to the small verge.
    side = (half + eave) * (length + 2 * eave + length - width) / 2 + (half - (at - verge)) ** 2 / 2
    hip = (half + eave) ** 2
    assert area == pytest.approx({"A": side, "B": end, "C": side, "D": hip}, abs=EXACT)
    twice = verge * (width - 2 * at + verge)
    assert roof.plan_area_m2 == pytest.approx(((length + 2 * eave) * (width + 2 * eave) + twice) / 1e6, abs=EXACT)
    assert roof.area_m2 == pytest.approx(roof.plan_area_m2 / math.cos(math.radians(pitch)), abs=EXACT)
    ((low, high),) = roof.ridges
    assert (low[:2], high[:2]) == ((half, half), (length - at + verge, half))
    tips = sorted(hip[1][:2] for hip in roof.hips)
    foot = at - verge
    assert tips == [(half, half), (half, half), (length - foot, foot), (length - foot, width - foot)]
    assert [(a[:2], b[:2]) for a, b in roof.verges] == [
        ((length - foot, t), (length - foot, half)) for t in (foot, width - foot)
    ]


def plane_area(polygon):
    ring = [*polygon, polygon[0]]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring)) / 2


def test_heights_fall_to_the_hip_end_at_the_girder():
    plan = plan_of({"B": (1800, 300)})
    assert distance(plan, 14950 - 1799, 4085) == 1799
    assert distance(plan, 14950 - 1800, 4085) == 4085
    assert distance(plan, 14950 - 1000, 300) == 300


def test_a_dutch_gable_at_each_end_of_a_square_leaves_a_ridge_between_them():
    square = ((0, 0), (8000, 0), (8000, 8000), (0, 8000))
    roof = solve(plan_of({"A": (1800, 300), "C": (2000, 200)}, square), RoofSpec(22.5, 450, 90))
    ((low, high),) = roof.ridges
    assert (low[:2], high[:2]) == ((4000, 1500), (4000, 6200))
    assert {member.wing for member in laid(plan_of({"A": (1800, 300), "C": (2000, 200)}, square)).members} == {"W1"}


def test_roofs_over_generated_plans_add_up():
    count = 0
    for seed, plan in generated():
        hipped = solve(PlatePlan(plan.outline, 90, plan.gables), RoofSpec(22.5, 450, 90))
        roof = solve(plan, RoofSpec(22.5, 450, 90))
        assert roof.plan_area_m2 == pytest.approx(hipped.plan_area_m2 + overlap(plan), abs=EXACT), seed
        assert len(roof.hips) == len(hipped.hips), seed
        assert [face.wall for face in roof.faces] == [face.wall for face in hipped.faces], seed
        for face in roof.faces:
            assert plane_area(face.polygon) > 0, seed
        count += len(plan.dutch_gables)
    assert count > len(SEEDS) * 0.6


def test_at_the_setback_the_girder_takes_the_truncated_girders_place():
    layout = laid(plan_of({"B": (1800, 300)}))
    (girder,) = (m for m in layout.members if m.kind == "girder")
    assert girder.start == (13150, 0) and girder.plies == 2 and girder.station == 1800
    assert max(z for _run, z in girder.top) == pytest.approx(90 + 4085 * math.tan(math.radians(22.5)))
    assert layout.counts["truncated_girder"] == 1
    hung = {layout.by_tag[tag].kind for tag in layout.carries[girder.tag]}
    assert hung == {"hip", "jack"}
    landed = {c.over for c in layout.crossings if c.under == girder.tag}
    assert landed == set(layout.carries[girder.tag])
    assert not any(layout.by_tag[tag].top[-1][0] > layout.by_tag[tag].span + 1 for tag in landed)


def test_further_in_only_extensions_reach_it():
    layout = laid(plan_of({"B": (2970, 300)}))
    (girder,) = (m for m in layout.members if m.kind == "girder")
    row = {m.start[0]: m.kind for m in layout.members if m.row == girder.row and m.start[0] >= 11400}
    assert row == {13150: "truncated_girder", 12550: "truncated", 11980: "girder", 11400: "standard"}
    assert not layout.carries[girder.tag]
    landed = [layout.by_tag[c.over] for c in layout.crossings if c.under == girder.tag]
    assert {m.kind for m in landed} == {"hip", "jack"}
    for member in landed:
        per = math.sqrt(2) if member.kind == "hip" else 1
        assert member.top[-1][0] == pytest.approx(2970 * per)
    inner = {m.tag for m in layout.members if m.kind == "jack" and m.row.endswith("B") and 2970 <= m.start[1] <= 5200}
    assert inner <= {m.tag for m in landed}


def test_the_waling_plate_lies_between_the_hips_on_the_outer_face_a_plumb_depth_under_the_end_plane():
    layout = laid(plan_of({"B": (1800, 300)}))
    (plate,) = (part for part in layout.parts if part.part == "waling plate")
    face = 1800 - 35
    middle = face - 35 / 2
    assert {plate.start, plate.finish} == {(14950 - middle, middle), (14950 - middle, 8170 - middle)}
    slope, pitch = math.tan(math.radians(22.5)), math.radians(22.5)
    assert plate.top == pytest.approx(90 + face * slope - 90 / math.cos(pitch))
    ladders = [part for part in layout.parts if part.part == "verge ladder"]
    assert {part.start for part in ladders} == {(13450, 1500), (13450, 6670)}
    assert {part.finish for part in ladders} == {(13450, 4085)}
    assert not [p for p in laid(plan_of({"B": (1800, 0)})).parts if p.part == "verge ladder"]


def test_generated_layouts_obey_what_any_right_layout_obeys():
    seen = 0
    for layout in laid_right([*generated()], laid, refused=5):
        girders = [m for m in layout.members if m.is_dutch]
        assert len(girders) == len(layout.house.plan.dutch_gables), layout.house
        for girder in girders:
            seen += 1
            row = [layout.by_tag[t] for t in layout.rows[girder.row]]
            axis = 0 if girder.start[0] == girder.finish[0] else 1
            gaps = [abs(m.start[axis] - girder.start[axis]) for m in row if m is not girder]
            assert min(gaps, default=math.inf) >= girder.width / 2 + 17.5, layout.house
            assert [p.part for p in layout.parts if p.on == girder.tag].count("waling plate") == 1, layout.house
        borne = loads(layout)
        plates = sum(
            area for m in layout.members for end, area in zip(m.ends, borne[m.tag].ends_m2, strict=True) if end.on_plate
        )
        assert plates == pytest.approx(layout.roof.plan_area_m2, abs=1e-4), layout.house
    assert seen > len(SEEDS) * 0.6


@pytest.mark.parametrize(
    "turn",
    [lambda x, y: (-x, y), lambda x, y: (-y, x), lambda x, y: (y, x)],
    ids=["mirrored", "turned", "on the diagonal"],
)
def test_layouts_are_right_mirrored_and_turned(turn):
    for seed, plan in list(generated())[::4]:
        moved = turned(plan, turn, (1230, -770))
        try:
            layout = laid(moved, *HABITS[seed % 4])
        except LayoutRefused:
            with pytest.raises(LayoutRefused):
                laid(plan, *HABITS[seed % 4])
            continue
        assert faults(layout) == [], seed
        here = {kind: n for kind, n in laid(plan, *HABITS[seed % 4]).counts.items() if kind != "standard"}
        assert {kind: n for kind, n in layout.counts.items() if kind != "standard"} == here, seed


def test_hip_ends_are_found_as_the_plan_has_them():
    for seed in SEEDS[::4]:
        plan = grown_house(seed, gables=seed % 3 > 0)
        ends = set(hip_ends(plan))
        for wall in plan.walls:
            found = dutch_faults(plan, 0, 100, {wall.name: (300, 100)})
            assert (found == []) == (wall.name in ends), (seed, wall.name)


@pytest.mark.parametrize(
    ("dutch", "place", "says"),
    [
        ({"B": (1700, 300)}, ("B", "at"), "nearer the wall than the setback; make it 1800 or more, and less than 4085"),
        ({"B": (4085, 300)}, ("B", "at"), "make it less than half the span"),
        ({"A": (1800, 300)}, ("A",), "no hip end"),
        ({"D": (1800, 300)}, ("D",), "a gable and a dutch gable both"),
        ({"E": (1800, 300)}, ("E",), "its walls are A to D"),
        ({"b": (1800, 300)}, ("b",), "did you mean 'B'?"),
    ],
)
def test_faults_say_what_and_what_to_do(dutch, place, says):
    (fault,) = dutch_faults(PlatePlan(RECTANGLE, 90, frozenset("D")), 600, 1800, dutch)
    assert fault.path == ("dutch_gables", *place)
    assert says in fault.what


LEVEL = """
schema: 1
id: gablet
title: A gablet
brief: Invented.
plates: {outline: [[0, 0], [9350, 0], [9350, 5950], [0, 5950]], width: 90}
gables: [D]
roof: {pitch: 22.5, overhang: 450, heel: 90}
trusses: {spacing: 600, setback: 1800}
"""


def test_two_at_one_corner_are_one_too_many():
    square = PlatePlan(((0, 0), (8000, 0), (8000, 8000), (0, 8000)), 90)
    (fault,) = dutch_faults(square, 600, 1800, {"B": (1800, 300), "C": (1800, 300)})
    assert fault.path == ("dutch_gables", "B") and "take the other one out" in fault.what


def test_a_level_file_has_all_its_faults_told_at_once_each_with_its_place():
    text = LEVEL + "dutch_gables: {A: {at: 2000}, B: {at: 1700, verge: 300}, D: {at: 1900}, Q: {at: 9, vrge: 3}}\n"
    with pytest.raises(Faulty) as caught:
        parse_level(text, "gablet.yaml")
    assert [fault.path for fault in caught.value.faults] == [
        "dutch_gables.A", "dutch_gables.B.at", "dutch_gables.D", "dutch_gables.Q", "dutch_gables.Q.at",
        "dutch_gables.Q.vrge",
    ]  # fmt: skip
    assert {fault.line for fault in caught.value.faults} == {10}


def test_a_level_measures_to_the_near_face_where_its_setback_does():
    face = LEVEL.replace("setback: 1800", "setback: 1800, stations_to: near face")
    plan = parse_level(face + "dutch_gables: {B: {at: 1800}}\n", "gablet.yaml").house().plan
    assert plan.dutch_gables == (DutchGable("B", 1835, 300),)
    layout = lay_out(parse_level(face + "dutch_gables: {B: {at: 1800}}\n", "gablet.yaml").house())
    (girder,) = (m for m in layout.members if m.is_dutch)
    assert girder.start[0] == 9350 - 1835
    assert mark_run(layout, girder, 1) == 9350 - 1800
    assert write_level(parse_level(face + "dutch_gables: {B: {at: 1800}}\n", "gablet.yaml")).count("at: 1800") == 1


def test_under_a_straight_fascia_it_counts_from_the_outermost_line():
    outline = ((0, 0), (11450, 0), (11450, 4000), (11150, 4000), (11150, 7270), (0, 7270))
    for wall in ("B", "D"):
        plan = plan_of({wall: (1800, 300)}, outline)
        assert dutch_faults(PlatePlan(outline, 90), 600, 1800, {wall: (1800, 300)}) == []
        layout = lay_out(House(plan, RoofSpec(22.5, 450, 90, 600), TrussSpec()))
        assert faults(layout) == []
        (girder,) = (m for m in layout.members if m.is_dutch)
        assert girder.start[0] == 11450 - 1800


def test_a_girder_that_would_stand_in_the_end_of_another_is_refused_with_what_to_do():
    outline = ((0, 0), (14000, 0), (14000, 8000), (7000, 8000), (7000, 11000), (1800, 11000), (1800, 8000), (0, 8000))
    with pytest.raises(LayoutRefused) as caught:
        laid(plan_of({"H": (1800, 300)}, outline))
    (reason,) = caught.value.reasons
    assert reason.place == "the girder of a dutch gable" and "a little further in or out" in reason.why
    assert faults(laid(plan_of({"H": (1900, 300)}, outline))) == []


def test_what_goes_on_its_girder_goes_nowhere_else():
    session = Session(parse_level(LEVEL + "dutch_gables: {B: {at: 1800}}\n", "gablet.yaml"), 0)
    for part in ("waling plate", "verge ladder"):
        assert "has no dutch gable on it" in session.do(Fit(part=part, on="ST1")).refused.why
    assert "not standing" in session.do(Fit(part="verge ladder", on="G1")).refused.why
    assert session.do(Fit(part="waling plate", on="G1")).refused is None


def test_a_dutch_gable_that_is_not_whole_is_never_done():
    assert {"waling-plate-missing", "verge-ladder-missing", "extension-not-fixed"} <= set(WHOLE)


def test_the_layout_says_how_high_a_waling_plate_is():
    level = parse_level(LEVEL + "dutch_gables: {B: {at: 1800}}\n", "gablet.yaml")
    told = layout_json(level.id, lay_out(level.house()))
    tops = [part["top"] for part in told["parts"] if part["part"] == "waling plate"]
    assert tops == [pytest.approx(90 + 1765 * math.tan(math.radians(22.5)) - 90 / math.cos(math.radians(22.5)))]
    assert {frozenset(part) for part in told["parts"] if part["part"] != "waling plate"} == {
        frozenset({"part", "on", "name", "from", "to"})
    }


def test_where_others_frame_the_gables_the_waling_plate_is_still_the_learners():
    level = parse_level(LEVEL + "dutch_gables: {B: {at: 1800}}\ngable_framing: false\n", "gablet.yaml")
    frames = [FRAMED[step.end - 1] for step in job_of(level, 0).order.steps if step.verb == "frame"]
    assert frames == ["waling plate"]
    session = Session(level, 0)
    session.replay(rehearse(level, 0).actions)
    assert session.findings == ()


def test_the_girder_is_held_and_its_waling_plate_on_before_the_hip_end_hangs_there():
    """Must, by the trade brief: a carrier stands, is braced and fixed; the plate is on before a top lands on it."""
    order = job_of(parse_level(LEVEL + "dutch_gables: {B: {at: 1800}}\n", "gablet.yaml"), 0).order
    held = {Step("stand", "G1"), Step("tie", "G1"), Step("fix", "G1", 1), Step("fix", "G1", 2), Step("join", "G1")}
    for tag in ("H1", "J1"):
        must = {edge.first for edge in order.into[Step("stand", tag)] if edge.strength == "must"}
        assert {*held, Step("frame", "G1", WALING)} <= must
    further = parse_level(LEVEL + "dutch_gables: {B: {at: 2600}}\n", "gablet.yaml")
    order, layout = job_of(further, 0).order, lay_out(further.house())
    (girder,) = (m.tag for m in layout.members if m.is_dutch)
    for number, crossing in enumerate(layout.crossings):
        if crossing.under == girder:
            before = order.into[Step("cross", crossing.over, number)]
            assert Step("frame", girder, WALING) in {edge.first for edge in before if edge.strength == "must"}


def test_the_short_return_of_a_step_that_the_fascia_runs_past_is_no_hip_end():
    outline = ((0, 0), (6000, 0), (6000, -300), (12000, -300), (12000, 7200), (0, 7200))
    (fault,) = dutch_faults(PlatePlan(outline, 90), 600, 1800, {"B": (1800.0, 300.0)})
    assert "no hip end" in fault.what


def test_a_part_narrower_than_a_truss_takes_no_station_along_its_end():
    assert end_wall_stations(30.0, TrussSpec()) == ()
    assert end_wall_stations(1230.0, TrussSpec()) == (597.5, 632.5)
