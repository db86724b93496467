"""What any right layout obeys, over generated plans, mirrored, turned and shifted.

The generator and every check here are written apart from the layout room. The rules are common practice,
no source; geometry is checked with shapely and with closed forms.
"""

import itertools
import math
from graphlib import TopologicalSorter

import pytest
from houses import grown_house
from plans import turned
from shapely import LineString, Polygon

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out, loads
from trainer.roof import RoofSpec, distance

PITCH, HEEL, OVERHANG, PLATE = 22.5, 50, 600, 90
TAN = math.tan(math.radians(PITCH))
HABITS = ((600, 1800), (900, 2400), (600, 2400), (450, 1500))
SEEDS = range(400)
MILLIMETRE = 1.0


def spec_for(seed):
    spacing, setback = HABITS[seed % 4]
    return TrussSpec(spacing, setback)


def lay(plan, seed):
    return lay_out(House(plan, RoofSpec(PITCH, OVERHANG, HEEL), spec_for(seed)))


@pytest.fixture(scope="module")
def laid_out():
    """(seed, layout) of every generated plan that is not refused."""
    found = []
    for seed in SEEDS:
        try:
            found.append((seed, lay(grown_house(seed, gables=seed % 3 > 0), seed)))
        except LayoutRefused:
            continue
    return found


def along(member):
    """Plan points and heights along a truss's roof line, every tenth of each straight piece."""
    dx, dy = member.direction
    for (run0, z0), (run1, z1) in itertools.pairwise(member.top):
        for part in range(11):
            run = run0 + (run1 - run0) * part / 10
            yield member.start[0] + dx * run, member.start[1] + dy * run, z0 + (z1 - z0) * part / 10


def own_distance(layout, member, x, y):
    """Distance to the sides of the truss's own wing, gables infinitely far."""
    wing = next(w for w in layout.wings if w.id == member.wing)
    x0, y0, x1, y1 = wing.rect
    sides = {"W": x - x0, "S": y - y0, "E": x1 - x, "N": y1 - y}
    for wall in layout.house.plan.walls:
        if not wall.gable:
            continue
        way = {(1, 0): "W", (0, 1): "S", (-1, 0): "E", (0, -1): "N"}[wall.inward]
        line = {"W": x0, "S": y0, "E": x1, "N": y1}[way]
        across = 0 if way in "WE" else 1
        low, high = sorted((wall.a[1 - across], wall.b[1 - across]))
        if wall.a[across] == line and low <= wing.rect[1 - across] and wing.rect[3 - across] <= high:
            sides.pop(way, None)
    return min(sides.values())


def test_few_plans_are_refused_and_each_with_a_place_and_a_reason():
    refused = 0
    for seed in SEEDS:
        plan = grown_house(seed)
        try:
            lay(plan, seed)
        except LayoutRefused as no:
            refused += 1
            assert all(reason.place and reason.why for reason in no.reasons)
            xs, ys = zip(*plan.outline, strict=True)
            assert all(min(xs) <= r.at[0] <= max(xs) and min(ys) <= r.at[1] <= max(ys) for r in no.reasons)
    assert refused <= len(SEEDS) * 2 / 100


def test_every_roof_line_lies_on_its_own_wing_and_never_above_the_roof(laid_out):
    for seed, layout in laid_out:
        plan, drop = layout.house.plan, layout.house.trusses.outrigger_depth / math.cos(math.radians(PITCH))
        for member in layout.members:
            for x, y, z in along(member):
                d = (z + (drop if member.kind == "gable" else 0.0) - HEEL) / TAN
                if member.kind == "gable" and d > 0:
                    assert abs(distance(plan, x, y) - d) * TAN <= MILLIMETRE, (seed, member.tag)
                elif member.kind != "girder":
                    assert abs(own_distance(layout, member, x, y) - d) * TAN <= MILLIMETRE, (seed, member.tag)
                    assert d <= max(distance(plan, x, y), 0) + MILLIMETRE or d <= 0, (seed, member.tag)


def test_girders_on_the_plate_line_and_saddles_lie_on_the_whole_roof(laid_out):
    for seed, layout in laid_out:
        plan = layout.house.plan
        for member in layout.members:
            if member.kind not in ("girder", "saddle"):
                continue
            for x, y, z in along(member):
                d = (z - HEEL) / TAN
                if d < 0:
                    continue
                places = [(x, y)]
                if member.kind == "girder":
                    half = member.width / 2
                    places = (
                        [(x + half, y), (x - half, y)] if member.direction[0] == 0 else [(x, y + half), (x, y - half)]
                    )
                assert any(abs(distance(plan, *p) - d) * TAN <= MILLIMETRE for p in places), (seed, member.tag)


def test_every_end_bears_on_what_it_names_and_carriers_make_no_circle(laid_out):
    for seed, layout in laid_out:
        for member in layout.members:
            for end in member.ends:
                if end.on_plate:
                    wall = layout.house.plan.by_name[end.bears_on.removeprefix("plate ")]
                    reach = member.width / 2 + layout.house.trusses.girder_plies * layout.house.trusses.thickness
                    for axis in (0, 1):
                        low, high = sorted((wall.a[axis], wall.b[axis]))
                        assert low - reach <= end.at[axis] <= high + reach, (seed, member.tag)
                elif end.bears_on in layout.by_tag and member.kind != "saddle":
                    carrier = layout.by_tag[end.bears_on]
                    assert carrier.kind in ("girder", "truncated_girder", "hip"), (seed, member.tag)
                    (ax, ay), (dx, dy) = carrier.start, carrier.direction
                    px, py = end.at[0] - ax, end.at[1] - ay
                    assert abs(px * dy - py * dx) <= MILLIMETRE, (seed, member.tag)
                    assert -MILLIMETRE <= px * dx + py * dy <= carrier.span + MILLIMETRE, (seed, member.tag)
                    assert end.tail == 0
                else:
                    assert member.kind == "saddle"
        tuple(TopologicalSorter({m.tag: set(m.carried_by) for m in layout.members}).static_order())


def test_no_two_trusses_cross_between_their_bearings_or_stand_inside_each_other(laid_out):
    for seed, layout in laid_out:
        trusses = [m for m in layout.members if m.kind != "saddle"]
        for a, b in itertools.combinations(trusses, 2):
            if b.tag in a.carried_by or a.tag in b.carried_by:
                continue
            cross = a.direction[0] * b.direction[1] - a.direction[1] * b.direction[0]
            px, py = b.start[0] - a.start[0], b.start[1] - a.start[1]
            if abs(cross) > 1e-6:
                on_a = (px * b.direction[1] - py * b.direction[0]) / cross
                on_b = (px * a.direction[1] - py * a.direction[0]) / cross
                inside = MILLIMETRE < on_a < a.span - MILLIMETRE and MILLIMETRE < on_b < b.span - MILLIMETRE
                assert not inside, (seed, a.tag, b.tag)
                continue
            apart = abs(px * a.direction[1] - py * a.direction[0])
            first = px * a.direction[0] + py * a.direction[1]
            last = first + b.span * (a.direction[0] * b.direction[0] + a.direction[1] * b.direction[1])
            shared = min(max(first, last), a.span) - max(min(first, last), 0)
            assert shared <= PLATE or apart >= (a.width + b.width) / 2 - 0.5, (seed, a.tag, b.tag)


def test_one_girder_an_opening_two_hips_a_hip_end_and_at_most_one_truncated_girder(laid_out):
    for seed, layout in laid_out:
        openings = 0
        bodies = [body for wing in layout.wings for body in wing.bodies]
        for a, b in itertools.combinations(bodies, 2):
            for axis in (0, 1):
                touch = a[axis] == b[axis + 2] or a[axis + 2] == b[axis]
                openings += touch and min(a[3 - axis], b[3 - axis]) > max(a[1 - axis], b[1 - axis])
        assert layout.counts.get("girder", 0) == openings, seed
        ends = {}
        for member in layout.members:
            if member.kind in ("hip", "jack", "creeper"):
                ends.setdefault(member.row, []).append(member)
        for members in ends.values():
            assert sum(m.kind == "hip" for m in members) == 2, seed
            carriers = {tag for m in members for tag in m.carried_by if layout.by_tag[tag].kind == "truncated_girder"}
            assert len(carriers) <= 1, seed


def test_extensions_that_come_to_one_point_are_fixed_to_each_other_there_in_one_piece(laid_out):
    """Trade brief, Geometry 4 and 5: they are fixed there to each other, also where no full-height truss stands."""
    stubs = 0
    for seed, layout in laid_out:
        tips = {}
        for member in layout.members:
            run = member.top[-1][0]
            if member.kind in ("hip", "jack") and run > member.span + MILLIMETRE:
                tip = tuple(round(a + run * d) for a, d in zip(member.start, member.direction, strict=True))
                tips.setdefault(tip, set()).add(member.tag)
        for tip, meeting in tips.items():
            here = [c for c in layout.crossings if c.what == "extension" and math.dist(c.at, tip) <= MILLIMETRE]
            joined, left = {min(meeting)}, len(meeting) + 1
            while left:
                left -= 1
                joined |= {tag for c in here if {c.over, c.under} & joined for tag in (c.over, c.under)}
            assert len(meeting) == 1 or meeting <= joined, (seed, tip, meeting)
            stubs += any(not c.bears for c in here)
    assert stubs


def test_areas_borne_add_up_to_the_roofs(laid_out):
    for seed, layout in laid_out:
        borne = loads(layout)
        by_trusses = sum(load.direct_m2 for load in borne.values())
        assert by_trusses == pytest.approx(layout.roof.plan_area_m2, rel=1e-9), seed
        on_plates = sum(
            area
            for member in layout.members
            for end, area in zip(member.ends, borne[member.tag].ends_m2, strict=True)
            if end.on_plate
        )
        assert on_plates == pytest.approx(layout.roof.plan_area_m2, rel=1e-9), seed
        assert all(load.direct_m2 >= 0 for load in borne.values())


def test_gaps_between_supports_along_level_lines_are_never_more_than_a_spacing(laid_out):
    for seed, layout in laid_out:
        spacing = layout.house.trusses.spacing
        walls = layout.house.plan.by_name
        for face in layout.roof.faces:
            wall = walls[face.wall]
            axis = 0 if wall.inward[1] else 1
            line, way = wall.a[1 - axis], wall.inward[1 - axis]
            plane = ("x" if axis == 0 else "y", line, way)
            outline = [(p[axis], (p[1 - axis] - line) * way) for p in face.polygon]
            legs = [leg for m in layout.members for leg in m.legs if leg.plane == plane]
            top = max(h for _, h in outline)
            for part in (0.03, 0.21, 0.5, 0.77, 0.97):
                h = top * part
                edges = sorted(
                    s0 + (s1 - s0) * (h - h0) / (h1 - h0)
                    for (s0, h0), (s1, h1) in itertools.pairwise([*outline, outline[0]])
                    if (h0 < h) != (h1 < h)
                )
                spots = [leg.spot + leg.lean * h for leg in legs if leg.low <= h <= leg.high]
                for left, right in zip(edges[::2], edges[1::2], strict=True):
                    for start, stop in inside_plates(layout.house.plan, axis, line + h * way, left, right):
                        stops = sorted([start, stop, *(s for s in spots if start < s < stop)])
                        widest = max(b - a for a, b in itertools.pairwise(stops))
                        assert widest <= spacing + 0.5, (seed, face.wall, h, stops)


def inside_plates(plan, axis, line, left, right):
    """The stretches of a level line that lie inside the plates; a verge past them is carried by outriggers."""
    ends = [(left, line), (right, line)] if axis == 0 else [(line, left), (line, right)]
    inside = LineString(ends).intersection(Polygon(plan.outline))
    for piece in getattr(inside, "geoms", [inside]):
        if isinstance(piece, LineString) and not piece.is_empty:
            places = sorted(corner[axis] for corner in piece.coords)
            yield places[0], places[-1]


@pytest.mark.parametrize(
    "turn",
    [lambda x, y: (-x, y), lambda x, y: (-y, x), lambda x, y: (x, y)],
    ids=["mirrored", "turned", "only shifted"],
)
def test_a_moved_plan_gives_a_moved_layout(turn):
    compared = 0
    for seed in SEEDS:
        plan = grown_house(seed)
        moved = turned(plan, turn, shift=(1234, -777))
        try:
            before = lay(plan, seed)
        except LayoutRefused:
            with pytest.raises(LayoutRefused):
                lay(moved, seed)
            continue
        after = lay(moved, seed)
        spans = [wing.span for wing in before.wings]
        square = any(wing.rect[2] - wing.rect[0] == wing.rect[3] - wing.rect[1] for wing in before.wings)
        if square or len(set(spans)) < len(spans):
            continue  # which of equal wings runs through, and a square's ridge, turn with the axes
        compared += 1
        # Counted from its other end, a row may close with a truss more or less.
        rows = sum(len(wing.bodies) for wing in before.wings)
        assert abs(before.counts.get("standard", 0) - after.counts.get("standard", 0)) <= rows, seed
        assert places(before, lambda p: tuple(map(sum, zip(turn(*p), (1234, -777), strict=True)))) == places(after), (
            seed
        )
    assert compared > len(SEEDS) / 2


def places(layout, move=lambda p: p):
    """Kind, ends and tails of all trusses whose stations don't depend on which end takes the closing bay."""
    return {
        (
            member.kind,
            frozenset(tuple(round(2 * c) for c in move(end.at)) for end in member.ends),
            tuple(sorted(end.tail for end in member.ends)),
        )
        for member in layout.members
        if member.kind != "standard"
    }
