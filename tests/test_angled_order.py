"""What is near is painted over what is far, whichever way the angled view is turned.

The truth comes of rays: the faces of every timber are set up in space here, anew, and cut with the line of sight; a
geometry library says which faces a place of the paper lies in.
"""

import math
import random
from collections.abc import Iterator
from itertools import pairwise

import pytest
from attempts import level_of
from shapely import STRtree
from shapely.geometry import Point as Spot
from shapely.geometry import Polygon as Shape2
from sizes import some

from trainer.layout import Layout
from trainer.picture.angled import Scene3, angled
from trainer.picture.model import Polygon
from trainer.picture.solids import Solid, Stander
from trainer.picture.space import Turn
from trainer.roof.model import Point3
from trainer.session import Session
from trainer.site.shape import StandingShape

NEAR = 250.0
"""Timbers that meet run into each other by half a girder; looking nearly level, that is so much along the sight, mm."""
CUT = 25.0
"""Where a timber is cut, its drawn end may be off by so much, mm."""
TURNS = some([(yaw, tilt) for yaw in range(7, 360, 30) for tilt in (14.0, 32.0, 62.0)], 4)


def standing(level: str, lean: float = 0.0) -> tuple[Layout, dict[str, Solid]]:
    """Every truss of a house in its place; each leans its own way, by up to ``lean`` mm."""
    layout = Session(level_of(level), 1).site.layout
    stander, chance = Stander(layout), random.Random(level)
    return layout, {
        m.tag: Solid(m.tag, stander.framed(m), m.start, m.finish, StandingShape(chance.uniform(-lean, lean), 0.0, 0.0))
        for m in layout.members
    }


def faces(solid: Solid, turn: Turn) -> Iterator[tuple[Point3, ...]]:
    """The nearer side of every timber, and the upper edge of its chords: what a drawing shows of it."""
    half = solid.member.width / 2
    side = min((half, -half), key=lambda aside: turn.depth(solid.at(0.0, 0.0, aside)))
    for timber in solid.framed.timbers:
        yield tuple(solid.at(run, z, side) for run, z in timber.outline)
        if timber.part != "web":
            (a, az), (b, bz) = timber.upper
            edge = ((a, az, half), (b, bz, half), (b, bz, -half), (a, az, -half))
            yield tuple(solid.at(run, z, aside) for run, z, aside in edge)


def depth_at(face: tuple[Point3, ...], turn: Turn, at: tuple[float, float]) -> float | None:
    """How far away a face is where the line of sight through a place of the paper meets it."""
    turned = [(*turn.flat(p), turn.depth(p)) for p in face]
    (ax, ay, ad), *rest = turned
    for (bx, by, bd), (cx, cy, cd) in pairwise(rest):
        ux, uy, ud, vx, vy, vd = bx - ax, by - ay, bd - ad, cx - ax, cy - ay, cd - ad
        whole = ux * vy - uy * vx
        if abs(whole) > 1e-3 * math.hypot(ux, uy) * math.hypot(vx, vy):
            s = ((at[0] - ax) * vy - (at[1] - ay) * vx) / whole
            t = (ux * (at[1] - ay) - uy * (at[0] - ax)) / whole
            return ad + s * ud + t * vd
    return None


def wrongly_painted(layout: Layout, solids: dict[str, Solid], turn: Turn, count: int) -> list[tuple[float, float]]:
    """Places of the paper where something is painted over what is nearer by far."""
    fills = {"timber", "hip_timber", "girder", "saddle"}
    painted = [
        item
        for item in angled(Scene3(layout, solids, ()), turn, 0.1)
        if isinstance(item, Polygon) and (item.fill or "").split(" ")[0] in fills | {"paper"}
    ]
    shapes = [Shape2(item.points) for item in painted]
    real = [face for solid in solids.values() for face in faces(solid, turn)]
    flat = [Shape2(turn.all_flat(face)) for face in real]
    shape_tree, flat_tree = STRtree(shapes), STRtree(flat)
    chance = random.Random(f"{turn}")
    wrong, checked = [], 0
    while checked < count:
        face = chance.choice(flat)
        at = face.representative_point() if chance.random() < 0.5 else face.centroid
        spot = Spot(at.x + chance.uniform(-400, 400), at.y + chance.uniform(-200, 200))
        over = [int(i) for i in shape_tree.query(spot, predicate="intersects")]
        hit = [int(i) for i in flat_tree.query(spot, predicate="intersects")]
        depths = {i: d for i in hit if (d := depth_at(real[i], turn, (spot.x, spot.y))) is not None}
        if not over or not depths:
            continue
        checked += 1
        mine = [i for i in depths if flat[i].buffer(CUT).contains(shapes[max(over)])]
        nearest = min(depths.values())
        if not any(depths[i] < nearest + NEAR for i in mine):
            wrong.append((spot.x, spot.y))
    return wrong


@pytest.mark.parametrize("lean", [0.0, 120.0])
@pytest.mark.parametrize("level", ["wren", "avocet"])
def test_nothing_far_is_painted_over_what_is_near(level: str, lean: float) -> None:
    layout, solids = standing(level, lean)
    wrong = {}
    for yaw, tilt in TURNS:
        found = wrongly_painted(layout, solids, Turn(yaw, tilt), 30)
        if found:
            wrong[yaw, tilt] = found
    assert not wrong
