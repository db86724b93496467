"""The roof against a compiled straight-skeleton library (pysfcgal), on 300 random plans of hips and gables.

Needs the extra ``reference``: ``pip install '.[test,reference]'`` (Linux wheels), then ``pytest tests/reference``.
"""

from __future__ import annotations

import math

import pytest
from plans import house_like_plan, random_plan
from shapely import Point, Polygon
from skeleton_library import Skeleton, crease_lengths
from test_gables_inside import drawn as gabled_inside
from test_round_corners import drawn as round_corner

from trainer.plan import PlatePlan, Wall, roof_parts
from trainer.roof import Face, RoofSpec, distance, solve

PLAIN = RoofSpec(45)
"""At 45 degrees and without eaves, height is distance."""
SAME = 1e-3
"""mm; the library reckons a gable as a very steep plane, good to about 1e-5."""
HIPPED = [random_plan(seed, 4 + 2 * (seed % 24)) for seed in range(100)]
GABLED = [random_plan(seed, 4 + 2 * (seed % 28), gables=True) for seed in range(100)]
PARTED = [*(gabled_inside(seed) for seed in range(100)), *(round_corner(seed) for seed in range(100))]
HOUSES = [house_like_plan(seed) for seed in range(100)]


def places(face: Face) -> list[tuple[float, float]]:
    """The face's middle, and a place by each corner that is in sight of it."""
    shape = Polygon([place[:2] for place in face.polygon])
    middle = shape.representative_point()
    near = [(middle.x + 0.9 * (x - middle.x), middle.y + 0.9 * (y - middle.y)) for x, y, _ in face.polygon]
    return [(middle.x, middle.y), *(place for place in near if shape.contains(Point(place)))]


@pytest.mark.parametrize("plan", HIPPED + GABLED + HOUSES, ids=range(300))
def test_heights_agree(plan: PlatePlan) -> None:
    library = Skeleton(plan)
    compared = 0
    for face in solve(plan, PLAIN).faces:
        wall = plan.by_name[face.wall]
        for x, y in places(face):
            height = library.height(x, y)
            if height is not None:
                compared += 1
                on_face = (x - wall.a[0]) * wall.inward[0] + (y - wall.a[1]) * wall.inward[1]
                assert on_face == pytest.approx(height, abs=SAME)
                assert distance(plan, x, y) == pytest.approx(height, abs=SAME)
    assert compared >= len(plan.outline) - len(plan.gables)


@pytest.mark.parametrize("plan", PARTED, ids=range(200))
def test_heights_agree_in_each_part_of_a_roof(plan: PlatePlan) -> None:
    """A gable that ends at an inside corner, or the corner of a higher wall: each part as the library has it."""
    parts = [(Polygon(part.outline), Skeleton(part)) for part in roof_parts(plan)]
    compared = 0
    for face in solve(plan, PLAIN).faces:
        wall = plan.by_name[face.wall]
        for x, y in places(face):
            library = next((library for shape, library in parts if shape.contains(Point(x, y))), None)
            height = library.height(x, y) if library else None
            if height is not None:
                compared += 1
                on_face = (x - wall.a[0]) * wall.inward[0] + (y - wall.a[1]) * wall.inward[1]
                assert on_face == pytest.approx(height, abs=SAME)
                assert distance(plan, x, y) == pytest.approx(height, abs=SAME)
    assert len(parts) > 1 and compared >= len(plan.outline) - len(plan.gables) - len(plan.against)


@pytest.mark.parametrize("plan", HIPPED, ids=range(100))
def test_creases_are_as_long(plan: PlatePlan) -> None:
    roof = solve(plan, PLAIN)
    ridges = sum(math.dist(a[:2], b[:2]) for a, b in roof.ridges)
    aslant = sum(math.dist(a[:2], b[:2]) for a, b in (*roof.hips, *roof.valleys))
    assert (ridges, aslant) == pytest.approx(crease_lengths(plan), abs=SAME)


def test_the_plans_hold_what_is_hard() -> None:
    gables = [(plan, plan.by_name[name]) for plan in GABLED + HOUSES for name in plan.gables]
    assert len(gables) > 200
    assert sum(not _free(plan, wall) for plan, wall in gables) >= 3, "gables that look at another wing close by"


def _free(plan: PlatePlan, wall: Wall) -> bool:
    """Whether nothing stands within half a gable's width before it."""
    half = wall.length / 2
    (ax, ay), (bx, by), (dx, dy) = wall.a, wall.b, wall.inward
    strip = Polygon([(ax, ay), (ax - dx * half, ay - dy * half), (bx - dx * half, by - dy * half), (bx, by)])
    return bool(strip.intersection(Polygon(plan.outline)).length <= wall.length)
