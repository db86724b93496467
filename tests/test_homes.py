"""Ordinary homes: the worked cases, and plans drawn by seed. Common practice, no source."""

from collections import Counter
from functools import cache
from itertools import pairwise

import pytest
from homes import DEEPEST, FEWEST, MOST, NARROWEST, SHALLOWEST, home_plan, worked_homes
from layout_checks import HABITS, faults, laid_right
from plans import TURNS, turned
from sizes import by_size, some

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out
from trainer.layout.posts import on_beam, post_areas, posts
from trainer.layout.shares import loads
from trainer.plan import plan_faults
from trainer.roof import RoofSpec

HOMES = list(worked_homes())
KINDS = (
    "against", "alfresco_corner", "beams", "brick_sizes", "courtyards", "dutch_gables", "gables_inside",
    "garage_forward", "jog_in_side", "l_shape",
    "narrow_lots", "overlap", "porch_between", "staggered_front", "straight_fascia", "stub", "t_shape", "u_shape",
    "z_shape",
)  # fmt: skip


def sizes(plan):
    return [wall.length for wall in plan.walls]


def test_there_are_sixty_worked_homes_and_four_or_more_of_each_kind():
    assert len(HOMES) >= 60
    counts = Counter(home.kind for home in HOMES)
    assert set(counts) == set(KINDS)
    assert min(counts.values()) >= 4
    assert all(home.do for home in HOMES)


def test_a_worked_home_is_a_sound_plan_of_odd_sizes():
    for home in HOMES:
        assert not plan_faults(home.plan.outline, sorted(home.plan.gables), (), sorted(home.plan.against)), home.name
        assert all(size % home.spacing for size in sizes(home.plan)), home.name


def test_drawn_homes_are_as_said():
    plans = [home_plan(seed) for seed in range(200)]
    assert all(not plan_faults(plan.outline, sorted(plan.gables), ()) for plan in plans)
    assert {len(plan.outline) for plan in plans} == set(range(FEWEST, MOST + 1, 2))
    assert 0.4 < sum(bool(plan.gables) for plan in plans) / len(plans) < 0.6
    assert min(min(sizes(plan)) for plan in plans) >= SHALLOWEST
    assert any(SHALLOWEST <= min(sizes(plan)) <= DEEPEST / 6 for plan in plans)
    assert all(plan.by_name[gable].length >= NARROWEST for plan in plans for gable in plan.gables)
    assert home_plan(7) == home_plan(7)


@cache
def laid_by_name(name):
    (home,) = (home for home in HOMES if home.name == name)
    roof = RoofSpec(22.5, home.overhang, 90, straight_fascia=600)
    return lay_out(House(home.plan, roof, TrussSpec(home.spacing, home.setback)))


def laid(home):
    return laid_by_name(home.name)


def spans(girder, start, stop):
    """Whether a girder stands along a plate line from corner to corner; a hung end is on its carrier's centre line.

    An end on a ledger is at the face of the higher wall.
    """
    along = 0 if start[1] == stop[1] else 1
    if abs(girder.start[1 - along] - start[1 - along]) != girder.width / 2:
        return False
    ends = sorted(girder.ends, key=lambda end: end.at[along])
    return all(
        abs(end.at[along] - corner[along]) == (0 if end.on_plate or end.on_ledger else girder.width / 2)
        for end, corner in zip(ends, sorted((start, stop)), strict=True)
    )


@pytest.mark.parametrize("home", some(HOMES, 16), ids=lambda home: home.name)
def test_a_worked_home_is_laid_out_as_a_fabricator_would(home):
    layout = laid(home)
    assert {kind: layout.counts.get(kind, 0) for kind in home.counts} == home.counts
    back = {p.wall: p.depth for plates in layout.house.straightened.plates.values() for p in plates if p.depth}
    assert back == home.straight
    girders = [m for m in layout.members if m.kind == "girder" and not m.is_dutch]
    assert len(girders) == len(home.girders)
    for x0, y0, x1, y1 in home.girders:
        assert any(spans(m, (x0, y0), (x1, y1)) for m in girders), (x0, y0, x1, y1)
    for axis, at in home.moved:
        i = "xy".index(axis)
        assert any(m.start[i] == m.finish[i] == at for m in layout.members), (axis, at)


@pytest.mark.parametrize("home", [h for h in HOMES if h.plan.beams], ids=lambda home: home.name)
def test_beams_stand_on_posts_under_girders_and_in_equal_bays(home):
    layout = laid(home)
    found = {beam.wall: [round(p.run) for p in posts(layout) if p.wall == beam.wall] for beam in home.plan.beams}
    assert found == home.posts
    for beam in home.plan.beams:
        borne = sum(loads(layout)[m.tag].ends_m2[end - 1] for m, end in on_beam(layout, beam))
        assert sum(area for _post, area in post_areas(layout, beam)) == pytest.approx(borne)


@pytest.mark.parametrize("home", some(HOMES, 16), ids=lambda home: home.name)
def test_a_worked_home_obeys_what_any_right_layout_obeys(home):
    assert faults(laid(home)) == []


def test_through_trusses_stand_no_closer_than_rule_8_lets_them():
    """No bay under 250 between full-height trusses of one row but where a girder's end or a return moved one."""
    for home, layout in ((home, laid(home)) for home in HOMES):
        for tags in layout.rows.values():
            row = [layout.by_tag[tag] for tag in tags if layout.by_tag[tag].kind == "standard"]
            places = sorted(m.start[0] if m.start[0] == m.finish[0] else m.start[1] for m in row)
            assert all(b - a >= 250 - layout.house.trusses.thickness for a, b in pairwise(places)), home.name


DRAWN = range(by_size(24, 100, 200))
REFUSED = 1.5
"""Of a hundred drawn homes, at most so many are refused."""


def laid_by_habit(plan, spacing, setback):
    return lay_out(House(plan, RoofSpec(22.5, 450, 90, straight_fascia=600), TrussSpec(spacing, setback)))


def test_drawn_homes_are_laid_out_right_or_refused_with_a_reason():
    laid_right([(seed, home_plan(seed)) for seed in DRAWN], laid_by_habit, REFUSED)


@pytest.mark.parametrize("seed", [144, 216, 229, 746])
@pytest.mark.parametrize("habit", HABITS)
def test_steps_that_break_the_roof_are_laid_out_right_where_no_fascia_runs_straight_past_them(seed, habit):
    """In 216 a hip comes down past the end of another part's girder, which is cut back to clear it.

    In 746 a rectangle's roof lies wholly under the others': no truss follows it.
    """
    house = House(home_plan(seed), RoofSpec(22.5, 450, 90, straight_fascia=0), TrussSpec(*habit))
    assert faults(lay_out(house)) == []


@pytest.mark.parametrize(
    "turn",
    [lambda x, y: (-x, y), lambda x, y: (-y, x), lambda x, y: (y, x)],
    ids=["mirrored", "turned", "on the diagonal"],
)
def test_drawn_homes_are_laid_out_right_turned_and_mirrored(turn):
    for seed in DRAWN[:: by_size(7, 3, 1)]:
        try:
            layout = laid_by_habit(turned(home_plan(seed), turn, (1230, -770)), *HABITS[seed % 4])
        except LayoutRefused:
            with pytest.raises(LayoutRefused):
                laid_by_habit(home_plan(seed), *HABITS[seed % 4])
            continue
        assert faults(layout) == [], seed


@pytest.mark.parametrize("turn", TURNS.values(), ids=TURNS)
def test_parts_that_overlap_at_a_corner_are_laid_out_right_however_they_are_turned(turn):
    for home in (home for home in HOMES if home.kind == "overlap"):
        plan = turned(home.plan, turn, (1230, -770))
        roof = RoofSpec(22.5, home.overhang, 90, straight_fascia=600)
        layout = lay_out(House(plan, roof, TrussSpec(home.spacing, home.setback)))
        assert faults(layout) == [], home.name
        assert {kind: layout.counts.get(kind, 0) for kind in home.counts} == home.counts, home.name


@pytest.mark.parametrize("turn", TURNS.values(), ids=TURNS)
def test_saddles_go_on_beside_a_girder_that_runs_along_them(turn):
    """A wing over two bodies: a girder before one of them stops no saddle over the other. No bay is left open."""
    plan = turned(home_plan(855), turn, (1230, -770))
    assert faults(lay_out(House(plan, RoofSpec(22.5, 450, 90), TrussSpec(600, 1800)))) == []
