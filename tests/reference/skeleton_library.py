"""The roof over a plan by a compiled straight-skeleton library: the second opinion, in a test extra of its own."""

from __future__ import annotations

import math
from itertools import pairwise

import pysfcgal.geometry as sfcgal
from shapely import Point as Place
from shapely import Polygon, STRtree

from trainer.plan import PlatePlan

Corner = tuple[float, float, float]
_HIGHER_THAN_ANY_ROOF = 1e6
_SLIVER = 1.0
"""Plan area in mm² under which a patch stands upright."""


def _polygon(plan: PlatePlan) -> sfcgal.Polygon:
    return sfcgal.Polygon([(float(x), float(y)) for x, y in plan.outline])


class Skeleton:
    """The roof at 45 degrees without eaves, as the library has it: there, height is distance."""

    def __init__(self, plan: PlatePlan) -> None:
        """Extrude the plan along its skeleton; gables, and ends under another part's, are edges at 90 degrees."""
        # The library knows an edge by the corner that it ends at.
        angles = [45.0 if plan.walls[i - 1].eave else 90.0 for i in range(len(plan.outline))]
        solid = _polygon(plan).extrude_straight_skeleton_with_angles(_HIGHER_THAN_ANY_ROOF, [angles])
        assert solid is not None
        rings: list[list[Corner]] = [patch.to_coordinates()[0][:-1] for patch in solid]
        self.faces = [
            ring for ring in rings if any(corner[2] > 0 for corner in ring) and abs(_newell(ring)[2]) > 2 * _SLIVER
        ]
        self._tree = STRtree([Polygon([corner[:2] for corner in face]) for face in self.faces])

    def height(self, x: float, y: float) -> float | None:
        """Height at a place inside the plates; None on the edge of a face."""
        hits = self._tree.query(Place(x, y), predicate="within")
        if len(hits) != 1:
            return None
        face = self.faces[hits[0]]
        (nx, ny, nz), (x0, y0, z0) = _newell(face), face[0]
        return z0 - (nx * (x - x0) + ny * (y - y0)) / nz


def crease_lengths(plan: PlatePlan) -> tuple[float, float]:
    """Plan lengths of all ridges, and of all hips and valleys, of a plan with no gable, mm.

    The library also parts the plane of two walls in line, square to them; that is no crease.
    """
    level = aslant = 0.0
    for line in _polygon(plan).straight_skeleton_distance_in_m():
        for a, b in pairwise(line.to_coordinates()):
            run_x, run_y, rise = (abs(q - p) for p, q in zip((*a[:2], a[-1]), (*b[:2], b[-1]), strict=True))
            if min(run_x, run_y) > 1e-6:
                aslant += math.hypot(run_x, run_y)
            elif rise < 1e-6:
                level += run_x + run_y
    return level, aslant


def _newell(ring: list[Corner]) -> Corner:
    """Normal of a planar ring, twice its area long; from its first corner, so that large numbers cost no digits."""
    x = y = z = 0.0
    x1, y1, z1 = ring[0]
    for (ax, ay, az), (bx, by, bz) in zip(ring, ring[1:] + ring[:1], strict=True):
        x += (ay - by) * (az + bz - 2 * z1)
        y += (az - bz) * (ax + bx - 2 * x1)
        z += (ax - bx) * (ay + by - 2 * y1)
    return x, y, z
