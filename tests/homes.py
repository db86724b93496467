"""Plate plans like those of ordinary single-storey homes, drawn by seed, and the worked cases of ``tests/cases/homes``.

Sizes are any whole 10 mm, so that hardly any is a multiple of a spacing; steps in a front or side are 90 to
3,600 deep; three wings in ten stand flush with a corner; half of the plans have a gable or more. Nothing
here knows the product's layout.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import yaml
from plans import Corners, may_be_gable
from shapely.geometry import Polygon, box
from shapely.geometry.polygon import orient

from trainer.plan import Beam, DutchGable, PlatePlan, wall_name

GRAIN = 10
"""All sizes are multiples of it, mm."""
SHALLOWEST, DEEPEST = 90, 3600
NARROWEST = 2400
"""No part of a home is narrower, mm."""
FEWEST, MOST = 6, 16
FLUSH, GABLED = 0.3, 0.5
CASES = Path(__file__).parent / "cases" / "homes"


def home_plan(seed: int) -> PlatePlan:
    """Return a main rectangle with wings, porches and steps: 6 to 16 corners, every part at least 2,400 wide."""
    draw = random.Random(f"home {seed}")
    wanted = draw.randrange(FEWEST, MOST + 1, 2)
    while True:
        shape = box(0, 0, _size(draw, 9000, 20000), _size(draw, 6000, 11000))
        for _ in range(60):
            if len(_corners(shape)) >= wanted:
                break
            grown = shape.union(_wing(draw, _corners(shape)))
            if _is_home(grown) and len(_corners(grown)) <= wanted:
                shape = grown
        outline = _corners(shape)
        if len(outline) == wanted:
            return PlatePlan(tuple(outline), 90, _gables(draw, outline))


def _size(draw: random.Random, low: int, high: int) -> int:
    return draw.randrange(low // GRAIN, high // GRAIN + 1) * GRAIN


def _wing(draw: random.Random, corners: Corners) -> Polygon:
    """A rectangle that stands out from one wall, in three of ten cases flush with a corner."""
    while True:
        index = draw.randrange(len(corners))
        a, b = corners[index], corners[(index + 1) % len(corners)]
        length = abs(a[0] - b[0]) + abs(a[1] - b[1])
        if length > NARROWEST:
            break
    width = _size(draw, NARROWEST, min(length - GRAIN, 9000))
    room = length - width
    offset = draw.choice([0, room]) if draw.random() < FLUSH else _size(draw, 0, room)
    depth = _size(draw, SHALLOWEST, DEEPEST)
    ux, uy = (b[0] - a[0]) // length, (b[1] - a[1]) // length
    p = (a[0] + ux * offset, a[1] + uy * offset)
    q = (p[0] + ux * width + uy * depth, p[1] + uy * width - ux * depth)
    return box(min(p[0], q[0]), min(p[1], q[1]), max(p[0], q[0]), max(p[1], q[1]))


def _is_home(shape: Polygon) -> bool:
    """Whether it is one outline, with no step under 90 and no part under 2,400 wide."""
    if not isinstance(shape, Polygon) or shape.interiors or min(_lengths(_corners(shape))) < SHALLOWEST:
        return False
    half = NARROWEST / 2 - 1
    opened = shape.buffer(-half, join_style="mitre").buffer(half, join_style="mitre")
    return bool(shape.difference(opened).area < 1)


def _gables(draw: random.Random, outline: Corners) -> frozenset[str]:
    if draw.random() >= GABLED:
        return frozenset()
    lengths = _lengths(outline)
    able = [i for i in range(len(outline)) if may_be_gable(outline, i) and lengths[i] >= NARROWEST]
    chosen: set[int] = set()
    for i in draw.sample(able, draw.randint(1, max(1, len(able)))) if able else ():
        if not {(i - 1) % len(outline), (i + 1) % len(outline)} & chosen:
            chosen.add(i)
    return frozenset(map(wall_name, chosen))


def _corners(shape: Polygon) -> Corners:
    points = [(round(x), round(y)) for x, y in orient(shape).exterior.coords[:-1]]
    return [
        b
        for a, b, c in zip([points[-1], *points[:-1]], points, [*points[1:], points[0]], strict=True)
        if (a[0] == b[0]) != (b[0] == c[0])
    ]


def _lengths(corners: Corners) -> list[int]:
    return [abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]


@dataclass(frozen=True)
class Home:
    """One worked case. ``girders`` are plate lines of openings, ``straight`` how far walls stand back, mm.

    ``posts`` are where posts stand under the verandah beams, or walls end, mm along each wall.
    """

    kind: str
    name: str
    plan: PlatePlan
    do: str
    spacing: int = 600
    setback: int = 1800
    overhang: int = 450
    girders: tuple[tuple[float, float, float, float], ...] = ()
    straight: dict[str, int] = field(default_factory=dict)
    moved: tuple[tuple[str, float], ...] = ()
    counts: dict[str, int] = field(default_factory=dict)
    posts: dict[str, list[int]] = field(default_factory=dict)


def worked_homes() -> Iterator[Home]:
    """Every case of ``tests/cases/homes``, kind by kind."""
    for path in sorted(CASES.glob("*.yaml")):
        for case in yaml.safe_load(path.read_text(encoding="utf-8")):
            yield _home(path.stem, case)


def _home(kind: str, case: dict[str, Any]) -> Home:
    outline = tuple((x, y) for x, y in case.pop("plan"))
    plan = PlatePlan(outline, 90, frozenset(case.pop("gables", ())))
    inside = tuple(tuple((x, y) for x, y in wall) for wall in case.pop("internal_walls", ()))
    beams = tuple(Beam(wall, low, high) for wall, (low, high) in case.pop("beams", {}).items())
    dutch = tuple(DutchGable(wall, g["at"], g["verge"]) for wall, g in case.pop("dutch_gables", {}).items())
    against = frozenset(case.pop("against", ()))
    plan = replace(plan, internal_walls=inside, beams=beams, against=against, dutch_gables=dutch)
    girders = tuple(tuple(line) for line in case.pop("girders"))
    moved = tuple((axis, at) for axis, at in case.pop("moved", ()))
    return Home(kind, plan=plan, girders=girders, moved=moved, **case)
