"""Eaves where the outside is narrow: walls that look at each other over less than two overhangs.

There each roof ends halfway, so that every place outside the plates goes to its nearest wall. Which wall
that is, the plan turned inside out tells: its planes over the world around the house are the *cells* of
the outside, as high as the overhang. The rest of the roof does not ask for this, so that it stays quick.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

from shapely import Point, Polygon, box, union_all
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from trainer.roof.plane import GapView, Plane, Spread, clean
from trainer.roof.side import FAR, Foot, Gap, Side, sides

_GRID = 16
"""Places are whole multiples of 1/16 mm; what shapely rounds is put back on them."""


def share(
    corners: Sequence[tuple[int, int]], views: list[Side], overhang: int, higher: Collection[int]
) -> Iterator[Spread]:
    """Every plane out to the eave, as far as the outside is its own; none runs past a ``higher`` wall, by index."""
    cells = outside_cells(corners, overhang)
    walls = {foot.wall: foot for side in sides(corners, ()) for feet in side.feet.values() for foot in feet}
    cramped = {index for index, cell in cells.items() if cell.area != _free_area(walls[index], overhang)}
    for side in views:
        lines: dict[float, list[Gap]] = {}
        for gap in side.gaps():
            lines.setdefault(gap.h, []).append(gap)
        for h, gaps in lines.items():
            out = [GapView(gap, side.tops, overhang, higher) for gap in gaps]
            feet = [foot for gap in gaps for foot in gap.feet]
            if cramped.isdisjoint(foot.wall for foot in feet) and all(cramped.isdisjoint(v.verges) for v in out):
                yield from (Spread.of(side, h, plane) for view in out for plane in view.planes(overhang))
                continue
            parts = []
            for view in out:
                parts += [_own_cell(side, h, view, foot, cells[foot.wall]) for foot in view.gap.feet]
                parts += [_shape(side, h, plane) for plane in GapView(view.gap, side.tops, 0).planes(0)]
                verge = union_all([cells[index] for index in view.verges])
                parts += [piece for part in _past_gables(side, view, overhang) for piece in _polygons(part & verge)]
            yield from (_spread(side, h, shape, feet) for shape in _polygons(union_all(parts)))


def _past_gables(side: Side, view: GapView, overhang: float) -> Iterator[Polygon]:
    """What the planes of a view cover, run on past gables; also under the verge, out to the eave."""
    gap = view.gap
    for plane in view.planes(0):
        yield _shape(side, gap.h, plane)
    if gap.left.wall in view.verges and gap.feet[0].left == gap.left.s:
        yield _rectangle(side, gap.h, gap.left.s - overhang, gap.left.s, -overhang)
    if gap.right.wall in view.verges and gap.feet[-1].right == gap.right.s:
        yield _rectangle(side, gap.h, gap.right.s, gap.right.s + overhang, -overhang)


def _own_cell(side: Side, h: float, view: GapView, foot: Foot, cell: BaseGeometry) -> BaseGeometry:
    """What of a foot's cell its eave covers: none of it past the face of a higher wall."""
    left, right = view.stops(foot)
    if not (left or right):
        return cell
    return cell & _rectangle(side, h, foot.left if left else -FAR, foot.right if right else FAR, -FAR)


def outside_cells(corners: Sequence[tuple[int, int]], overhang: int) -> dict[int, BaseGeometry]:
    """What of the outside, out to the overhang, is nearest to each wall, by the wall's index."""
    count = len(corners)
    cells = {}
    for side in sides(corners[::-1], ()):
        for gap in side.gaps():
            for plane in GapView(gap, side.tops, 0, limit=overhang).planes(0):
                shape = _shape(side, gap.h, plane)
                middles = [(a.right + b.left) / 2 for a, b in pairwise(plane.feet)]
                for foot, (left, right) in zip(plane.feet, pairwise([-FAR, *middles, FAR]), strict=True):
                    own = shape & _rectangle(side, gap.h, left, right, overhang) if middles else shape
                    cells[(count - 2 - foot.wall) % count] = own
    return cells


def _free_area(foot: Foot, overhang: int) -> float:
    """Area of a wall's cell where nothing is near: mitred out at outside corners, in at inside ones, mm²."""
    wide = (1 if foot.out_left else -1) + (1 if foot.out_right else -1)
    return overhang * (foot.right - foot.left + wide * overhang / 2)


def _shape(side: Side, h: float, plane: Plane) -> Polygon:
    return Polygon([side.place(spot, h)[:2] for spot in plane.polygon])


def _rectangle(side: Side, h: float, left: float, right: float, d: float) -> Polygon:
    x0, y0, _ = side.place((left, 0), h)
    x1, y1, _ = side.place((right, d), h)
    return box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    return [part for part in getattr(shape, "geoms", [shape]) if part.geom_type == "Polygon" and not part.is_empty]


def _spread(side: Side, h: float, shape: Polygon, feet: Collection[Foot]) -> Spread:
    (c, n), ring = side.turn, orient(shape).exterior.coords[:-1]
    places = [(round(x * _GRID) / _GRID, round(y * _GRID) / _GRID) for x, y in ring]
    spots = clean([(x * c + y * n, y * c - x * n - h) for x, y in places])
    own = [foot for foot in feet if shape.intersects(Point(side.place(((foot.left + foot.right) / 2, 0), h)))]
    return Spread.of(side, h, Plane(own, spots))
