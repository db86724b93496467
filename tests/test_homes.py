"""Ordinary homes: the worked cases, and plans drawn by seed. Common practice, no source."""

from collections import Counter

import pytest
from homes import DEEPEST, FEWEST, MOST, NARROWEST, SHALLOWEST, home_plan, worked_homes

from trainer.plan import plan_faults

HOMES = list(worked_homes())
KINDS = (
    "alfresco_corner", "brick_sizes", "courtyards", "garage_forward", "jog_in_side", "l_shape", "narrow_lots",
    "porch_between", "staggered_front", "straight_fascia", "stub", "t_shape", "u_shape", "z_shape",
)  # fmt: skip


def sizes(plan):
    return [wall.length for wall in plan.walls]


def test_there_are_sixty_worked_homes_and_four_or_more_of_each_kind():
    assert len(HOMES) >= 60
    counts = Counter(home.kind for home in HOMES)
    assert set(counts) == set(KINDS)
    assert min(counts.values()) >= 4
    assert all(home.do for home in HOMES)


@pytest.mark.parametrize("home", HOMES, ids=lambda home: home.name)
def test_a_worked_home_is_a_sound_plan_of_odd_sizes(home):
    assert not plan_faults(home.plan.outline, sorted(home.plan.gables), ())
    assert all(size % home.spacing for size in sizes(home.plan))


def test_drawn_homes_are_as_said():
    plans = [home_plan(seed) for seed in range(200)]
    assert all(not plan_faults(plan.outline, sorted(plan.gables), ()) for plan in plans)
    assert {len(plan.outline) for plan in plans} == set(range(FEWEST, MOST + 1, 2))
    assert 0.4 < sum(bool(plan.gables) for plan in plans) / len(plans) < 0.6
    assert min(min(sizes(plan)) for plan in plans) >= SHALLOWEST
    assert any(SHALLOWEST <= min(sizes(plan)) <= DEEPEST / 6 for plan in plans)
    assert all(plan.by_name[gable].length >= NARROWEST for plan in plans for gable in plan.gables)
    assert home_plan(7) == home_plan(7)
