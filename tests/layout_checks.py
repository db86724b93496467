"""What any right layout obeys, each as a function that yields what is wrong; common practice, no source.

Written apart from the layout room: geometry is checked with shapely and with closed forms.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from graphlib import CycleError, TopologicalSorter

from shapely import LineString, Point, Polygon, STRtree
from sizes import by_size

from trainer.layout import Layout, LayoutRefused, Member, Wing, loads
from trainer.plan import PlatePlan, roof_parts
from trainer.roof import distance

MILLIMETRE = 1.0
TOUCHING = 10.0
"""Corners of timbers that touch may share so much, mm2."""
HABITS = ((600, 1800), (900, 2400), (600, 2400), (450, 1500))
"""Spacings and setbacks that drawn plans are laid out by in turn, mm."""
PARTS = by_size(5, 10, 10)
"""Each straight piece of a roof line is looked at from one end to the other in so many parts."""
BRACKET = 150.0
"""Two that hang in one bracket may meet within this far of it, mm."""


def faults(layout: Layout) -> list[str]:
    """Everything wrong with a layout, in words."""
    return [fault for check in CHECKS for fault in check(layout)]


def laid_right(
    plans: Sequence[tuple[int, PlatePlan]], laid: Callable[[PlatePlan, int, int], Layout], refused: float
) -> list[Layout]:
    """Lay out drawn plans, each by the habits of its seed, and return the layouts, in none of which anything is wrong.

    Of a hundred at most ``refused`` are refused, each with a place and a reason.
    """
    layouts = []
    for seed, plan in plans:
        try:
            layout = laid(plan, *HABITS[seed % 4])
        except LayoutRefused as no:
            assert all(reason.place and reason.why for reason in no.reasons)
            continue
        assert faults(layout) == [], seed
        layouts.append(layout)
    assert len(plans) - len(layouts) <= len(plans) * refused / 100
    return layouts


def along(member: Member) -> Iterator[tuple[float, float, float]]:
    """Plan points and heights along a truss's roof line, at so many places of each straight piece."""
    for (run0, z0), (run1, z1) in itertools.pairwise(member.top):
        for part in range(PARTS + 1):
            run = run0 + (run1 - run0) * part / PARTS
            x, y = (round(at + step * run, 6) for at, step in zip(member.start, member.direction, strict=True))
            yield x, y, z0 + (z1 - z0) * part / PARTS


def _same_way(layout: Layout, member: Member) -> list[Wing]:
    """The truss's own wing, and those whose ridges run the same way."""
    own = next(w for w in layout.wings if w.id == member.wing)
    return [own, *(w for w in layout.wings if w.axis == own.axis)]


Sides = tuple[tuple[float, float, float, float], ...]
"""Of each side of a wing that is no gable: how far in a point is, as (share of x, share of y, constant), and how far in
the girder of a dutch gable stands, from which on there is no such side.
"""


def own_sides(layout: Layout, wing: Wing) -> Sides:
    """The sides of a wing, but for gables, also those that go on over the house, which are infinitely far."""
    x0, y0, x1, y1 = wing.rect
    sides = {"W": (1, 0, -x0), "S": (0, 1, -y0), "E": (-1, 0, x1), "N": (0, -1, y1)}
    for wall in (wall for part in roof_parts(layout.house.roof_plan) for wall in part.walls):
        if wall.eave:
            continue
        way = {(1, 0): "W", (0, 1): "S", (-1, 0): "E", (0, -1): "N"}[wall.inward]
        line = {"W": x0, "S": y0, "E": x1, "N": y1}[way]
        across = 0 if way in "WE" else 1
        low, high = sorted((wall.a[1 - across], wall.b[1 - across]))
        if wall.a[across] == line and low <= wing.rect[1 - across] and wing.rect[3 - across] <= high:
            sides.pop(way, None)
    dutch = {}
    for gable in layout.house.roof_plan.dutch_gables:
        wall = layout.house.roof_plan.by_name[gable.wall]
        way = {(1, 0): "W", (0, 1): "S", (-1, 0): "E", (0, -1): "N"}[wall.inward]
        if wall.a[0 if way in "WE" else 1] == {"W": x0, "S": y0, "E": x1, "N": y1}[way]:
            dutch[way] = gable.at
    return tuple((*side, dutch.get(way, math.inf)) for way, side in sides.items())


def own_distance(sides: Sides, x: float, y: float, past: float = 0.0) -> float:
    """Distance to the nearest of the sides of a wing; none is that lies more than ``past`` behind a dutch gable."""
    far = ((a * x + b * y + c, at) for a, b, c, at in sides)
    return min(distance for distance, at in far if distance < at + past)


def roof_lines(layout: Layout) -> Iterator[str]:
    """Tops lie on their own wing's roof, or where ridges run the same way on the whole roof, and never above it."""
    plan, roof = layout.house.roof_plan, layout.house.roof
    drop = layout.house.trusses.outrigger_depth / math.cos(math.radians(roof.pitch)) if roof.overhang else 0.0
    sides = {wing.id: own_sides(layout, wing) for wing in layout.wings}
    for member in layout.members:
        same_way = {sides[wing.id] for wing in _same_way(layout, member)}
        for x, y, z in along(member):
            d = (z + (drop if member.kind == "gable" else 0.0) - roof.heel) / roof.slope
            if d <= 0:
                continue
            whole = distance(plan, x, y)
            if member.kind in ("girder", "saddle", "gable") and not member.is_dutch:
                half = member.width / 2 if member.kind == "girder" else 0.0
                nx, ny = -member.direction[1] * half, member.direction[0] * half
                places = [(x + nx, y + ny), (x - nx, y - ny)]
                places += [(x + a * half, y + b * half) for a in (-1, 1) for b in (-1, 1) if half]
                right = any(abs(distance(plan, *p) - d) * roof.slope <= MILLIMETRE for p in places)
            elif not (right := abs(whole - d) * roof.slope <= MILLIMETRE):
                # On a dutch gable's own line the roof is as high as its girder, and as the plane that ends there.
                lines = [own_distance(each, x, y, past) for each in same_way for past in (0, 1)]
                right = min(abs(line - d) for line in lines) * roof.slope <= MILLIMETRE and d <= whole + MILLIMETRE
            if not right:
                yield f"{member.tag} is {d:.0f} in at ({x:.0f}, {y:.0f}), where the roof is {whole:.0f}"
                break


def bearings(layout: Layout) -> Iterator[str]:
    """Every end is on a plate, a girder, a truncated girder or a hip, where it says, and carriers make no circle."""
    plates = {wall.name: _plate(wall, layout.house.plan.plate_width) for wall in layout.house.plan.walls}
    for member in layout.members:
        for end in member.ends:
            if end.on_ledger:
                continue
            if end.on_plate:
                off = plates[end.wall].distance(Point(end.at))
                if off > member.width / 2 + MILLIMETRE + (1 if member.kind != "girder" else member.width):
                    yield f"{member.tag} ends {off:.0f} off {end.bears_on}"
            elif member.kind == "saddle":
                if end.bears_on not in layout.by_tag and not end.bears_on.startswith("trimmer "):
                    yield f"{member.tag} ends on nothing"
            else:
                carrier = layout.by_tag[end.bears_on]
                if carrier.kind not in ("girder", "truncated_girder", "hip"):
                    yield f"{member.tag} hangs on {carrier.tag}"
                off = LineString([carrier.start, carrier.finish]).distance(Point(end.at))
                if off > MILLIMETRE or end.tail:
                    yield f"{member.tag} hangs {off:.0f} off {carrier.tag}, tail {end.tail}"
    try:
        tuple(TopologicalSorter({m.tag: set(m.carried_by) for m in layout.members}).static_order())
    except CycleError as circle:
        yield f"carriers go round: {circle.args[1]}"


def ledgers(layout: Layout) -> Iterator[str]:
    """What hangs on a ledger ends on the face of a higher wall, without a tail; nothing bears on a plate there."""
    walls = layout.house.plan.by_name
    for member in layout.members:
        for end in (end for end in member.ends if end.wall and walls[end.wall].against != end.on_ledger):
            yield f"{member.tag} bears on {end.bears_on}"
        for end in (end for end in member.ends if end.on_ledger):
            off = LineString([walls[end.wall].a, walls[end.wall].b]).distance(Point(end.at))
            if off > MILLIMETRE or end.tail:
                yield f"{member.tag} hangs {off:.0f} off {end.bears_on}, tail {end.tail}"


def _plate(wall, width: float) -> Polygon:
    (ax, ay), (bx, by), (nx, ny) = wall.a, wall.b, wall.inward
    return Polygon([(ax, ay), (bx, by), (bx + nx * width, by + ny * width), (ax + nx * width, ay + ny * width)])


def timber(member: Member, shrink: float = 0.5) -> Polygon:
    """A truss in plan, from bearing to bearing, a little less than it is."""
    line = LineString([member.start, member.finish])
    return line.buffer(member.width / 2 - shrink, cap_style="flat")


def shared_space(layout: Layout) -> Iterator[str]:
    """No two trusses share space, but what one carries, and what hangs in one bracket; no saddle lies along one."""
    shapes = [timber(member) for member in layout.members]
    tree = STRtree(shapes)
    for i, (a, shape) in enumerate(zip(layout.members, shapes, strict=True)):
        for j in tree.query(shape, predicate="intersects"):
            b = layout.members[j]
            if j <= i or b.tag in a.carried_by or a.tag in b.carried_by:
                continue
            cross = abs(a.direction[0] * b.direction[1] - a.direction[1] * b.direction[0])
            if (a.kind == "saddle") != (b.kind == "saddle") and cross > 0.1:
                continue
            shared = shape.intersection(shapes[j])
            if shared.area < TOUCHING:
                continue
            ends = [p.at for p in a.ends for q in b.ends if p.bears_on == q.bears_on]
            ends += [p.at for p in b.ends for q in a.ends if p.bears_on == q.bears_on]
            near = shared.centroid
            if a.kind == b.kind == "saddle":
                ends += [p.at for p in a.ends if any(math.dist(p.at, q.at) <= BRACKET for q in b.ends)]
            if any(near.distance(Point(at)) <= BRACKET for at in ends):
                continue
            yield f"{a.tag} and {b.tag} share {shared.area:.0f} mm2 at ({near.x:.0f}, {near.y:.0f})"


def areas(layout: Layout) -> Iterator[str]:
    """The whole roof is shared out to the bearings on plates and ledgers, to the last square centimetre.

    Under the small verge of a dutch gable it is covered twice, and both planes count.
    """
    plan = layout.roof.plan_area_m2
    borne = loads(layout)
    direct = sum(load.direct_m2 for load in borne.values())
    plates = sum(
        area
        for member in layout.members
        for end, area in zip(member.ends, borne[member.tag].ends_m2, strict=True)
        if end.on_plate or end.on_ledger
    )
    faces = sum(Polygon([p[:2] for p in face.polygon]).area for face in layout.roof.faces) / 1e6
    for what, area in (("faces", faces), ("trusses", direct), ("plates", plates)):
        if abs(area - plan) > 1e-4:
            yield f"{what} take {area:.4f} m2 of {plan:.4f}"
    if any(load.direct_m2 < 0 for load in borne.values()):
        yield "a truss takes less than no roof"


def gaps(layout: Layout) -> Iterator[str]:
    """Along level lines inside the plates, supports are no more than a spacing apart, and half a thickness."""
    trusses = layout.house.trusses
    widest = trusses.spacing + trusses.girder_plies * trusses.thickness / 2 + 0.6
    walls, inside = layout.house.roof_plan.by_name, Polygon(layout.house.plan.outline)
    rafters = [part for part in layout.parts if part.part == "loose rafter"]
    for face in layout.roof.faces:
        wall = walls[face.wall]
        axis = 0 if wall.inward[1] else 1
        line, way = wall.a[1 - axis], wall.inward[1 - axis]
        plane = ("x" if axis == 0 else "y", line, way)
        outline = [(p[axis], (p[1 - axis] - line) * way) for p in face.polygon]
        legs = [leg for m in layout.members for leg in m.legs if leg.plane == plane]
        top = max(h for _, h in outline)
        for part in (0.03, 0.21, 0.34, 0.5, 0.66, 0.77, 0.9, 0.97):
            h = top * part
            edges = sorted(
                s0 + (s1 - s0) * (h - h0) / (h1 - h0)
                for (s0, h0), (s1, h1) in itertools.pairwise([*outline, outline[0]])
                if (h0 < h) != (h1 < h)
            )
            spots = [leg.spot + leg.lean * h for leg in legs if leg.low - 0.1 <= h <= leg.high + 0.1]
            spots += [r.start[axis] for r in rafters if _crosses(r, axis, line + h * way)]
            for left, right in zip(edges[::2], edges[1::2], strict=True):
                for start, stop in _inside(inside, axis, line + h * way, left, right):
                    stops = sorted([start, stop, *(s for s in spots if start < s < stop)])
                    wide = max(b - a for a, b in itertools.pairwise(stops))
                    if wide > widest:
                        yield f"{wide:.0f} between supports of {face.wall}, {h:.0f} in: {[round(s) for s in stops]}"
                        break
                else:
                    continue
                break


def _crosses(rafter, axis: int, line: float) -> bool:
    a, b = rafter.start[1 - axis], rafter.finish[1 - axis]
    return rafter.start[axis] == rafter.finish[axis] and min(a, b) <= line <= max(a, b)


def _inside(plates: Polygon, axis: int, line: float, left: float, right: float) -> Iterator[tuple[float, float]]:
    """The stretches of a level line that lie inside the plates; a verge past them is carried by outriggers."""
    ends = [(left, line), (right, line)] if axis == 0 else [(line, left), (line, right)]
    inside = LineString(ends).intersection(plates)
    for piece in getattr(inside, "geoms", [inside]):
        if isinstance(piece, LineString) and not piece.is_empty:
            places = sorted(corner[axis] for corner in piece.coords)
            yield places[0], places[-1]


CHECKS = (roof_lines, bearings, ledgers, shared_space, areas, gaps)
