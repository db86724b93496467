"""The roof against a compiled straight-skeleton library (pysfcgal), on 300 random plans of hips and gables.

Needs the extra ``reference``: ``pip install '.[test,reference]'`` (Linux wheels), then ``pytest tests/reference``.
"""

import math

import pytest
from plans import house_like_plan, random_plan
from shapely import Polygon
from skeleton_library import Skeleton, crease_lengths

from trainer.roof import RoofSpec, distance, solve

PLAIN = RoofSpec(45)
"""At 45 degrees and without eaves, height is distance."""
SAME = 1e-3
"""mm: the library reckons in floating point."""
HIPPED = [random_plan(seed, 4 + 2 * (seed % 20)) for seed in range(150)]
WITH_GABLES = [house_like_plan(seed, gables=seed < 100) for seed in range(150)]


@pytest.mark.parametrize("plan", HIPPED + WITH_GABLES, ids=range(300))
def test_heights_agree(plan):
    if any(wall.gable and not _free(plan, wall) for wall in plan.walls):
        plan = type(plan)(plan.outline, plan.plate_width)  # the library knows no gable that faces another wing
    library = Skeleton(plan)
    compared = 0
    for face in solve(plan, PLAIN).faces:
        middle = Polygon([place[:2] for place in face.polygon]).representative_point()
        for x, y, _ in face.polygon:
            place = (middle.x + 0.9 * (x - middle.x), middle.y + 0.9 * (y - middle.y))
            height = library.height(*place)
            if height is not None:
                compared += 1
                assert distance(plan, *place) == pytest.approx(height, abs=SAME)
    assert compared >= len(plan.outline)


@pytest.mark.parametrize("plan", HIPPED, ids=range(150))
def test_creases_are_as_long(plan):
    roof = solve(plan, PLAIN)
    ridges = sum(math.dist(a[:2], b[:2]) for a, b in roof.ridges)
    aslant = sum(math.dist(a[:2], b[:2]) for a, b in (*roof.hips, *roof.valleys))
    assert (ridges, aslant) == pytest.approx(crease_lengths(plan), abs=1.0)


def _free(plan, wall):
    """Whether nothing stands within half a gable's width before it."""
    half = wall.length / 2
    (ax, ay), (bx, by), (dx, dy) = wall.a, wall.b, wall.inward
    strip = Polygon([(ax, ay), (ax - dx * half, ay - dy * half), (bx - dx * half, by - dy * half), (bx, by)])
    return strip.intersection(Polygon(plan.outline)).length <= wall.length + 1e-6
