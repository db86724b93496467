"""The roof beside the compiled reference library, at four sizes. By hand: ``pytest tests/bench --benchmark-only``.

Needs the extra ``reference``; nothing here asserts a time.
"""

import pysfcgal.geometry as sfcgal
import pytest
from plans import random_plan

from trainer.roof import RoofSpec, solve

SIZES = (8, 20, 100, 500)


@pytest.mark.parametrize("corners", SIZES)
def test_ours(benchmark, corners):
    plan = random_plan(3, corners)
    benchmark.group = f"roof of {corners} corners"
    roof = benchmark(solve, plan, RoofSpec(22.5))  # without eaves, which the library does not know either
    assert len(roof.valleys) == (corners - 4) // 2


@pytest.mark.parametrize("corners", SIZES)
def test_the_compiled_library(benchmark, corners):
    plan = random_plan(3, corners)
    benchmark.group = f"roof of {corners} corners"
    polygon = sfcgal.Polygon([(float(x), float(y)) for x, y in plan.outline])
    assert benchmark(polygon.straight_skeleton_distance_in_m) is not None
