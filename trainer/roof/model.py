"""What a roof is: its settings, its faces and its creases."""

from __future__ import annotations

import math
from dataclasses import dataclass

Point3 = tuple[float, float, float]
"""(x, y, z): plan place in mm, and height above the plate in mm."""
Crease = tuple[Point3, Point3]


@dataclass(frozen=True, slots=True)
class RoofSpec:
    """A level's roof settings: pitch in degrees, the rest in whole mm."""

    pitch: float
    overhang: int = 0
    heel: int = 0
    straight_fascia: int = 0
    """Depth of the steps in a wall that the fascia runs straight past; 0: it follows every step."""

    @property
    def slope(self) -> float:
        """Rise over run of the planes, ``tan(pitch)``."""
        return math.tan(math.radians(self.pitch))


@dataclass(frozen=True, slots=True)
class Face:
    """One plane of the roof, out to the eave: ``polygon`` is anticlockwise in plan.

    ``wall`` is the first of ``walls``, the same-facing walls in one line that it rises from.
    """

    wall: str
    walls: tuple[str, ...]
    polygon: tuple[Point3, ...]


@dataclass(frozen=True, slots=True)
class Roof:
    """A solved roof. Creases are cut at the outside of the plates; faces and areas include eaves.

    ``verges`` are the sloping edges of the small verges of dutch gables, each from its lower end. ``steps`` are the
    vertical faces where one part of the roof stands above another: polygons that go anticlockwise to one who looks at
    them over the lower part. They are no faces, and in none of the areas but ``step_area_m2``.
    """

    faces: tuple[Face, ...]
    ridges: tuple[Crease, ...]
    hips: tuple[Crease, ...]
    valleys: tuple[Crease, ...]
    plan_area_m2: float
    area_m2: float
    verges: tuple[Crease, ...] = ()
    steps: tuple[tuple[Point3, ...], ...] = ()
    step_area_m2: float = 0.0
