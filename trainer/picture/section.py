"""A section: what one sees of plates, trusses and bracing on a line across the house, from the side.

On the paper x runs along the line from its first place, y is the height above the plates.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.layout import Layout
from trainer.picture.angled import Scene3
from trainer.picture.cut import STUD, SectionLine, ground
from trainer.picture.falling import in_words
from trainer.picture.framing import FittedTimber
from trainer.picture.higher_walls import ledgers_cut, top_of
from trainer.picture.measures import figure
from trainer.picture.model import Box, Item, Line, Polygon, Text
from trainer.picture.solids import Solid
from trainer.picture.struts import Strut
from trainer.picture.timbers import FACES, JOINED, RUNS, SECTION_PLAIN
from trainer.picture.trusses import FILLS
from trainer.picture.verandah import FOOT
from trainer.plan import Point
from trainer.roof.model import Point3

SQUARE = math.sin(math.radians(20))
"""Trusses within 20° of the line are seen from the side, others are cut."""
ROUND = 45.0
"""A truss that stands on the line stands no further from it than this, mm, beside half its thickness."""
DOT = 45.0
"""Half the size of the sign for bracing that is cut, mm."""
NEXT = 900.0
"""The nearest trusses that stand no further behind the line than this, mm, are seen behind it."""
MOST_ROWS = 3
"""Tags under what is cut, and figures over what is seen, stand in no more lines than this and one."""
SAME = 1.0
"""Places that differ by no more are the same, mm."""


def along_truss(solid: Solid) -> SectionLine:
    """Return the cut along a standing truss, tails and extension with it, and a little more."""
    runs = [run for run, _z in solid.member.top]
    (x, y), (ux, uy) = solid.start, solid.unit
    low, high = min(*runs, 0.0) - 400, max(*runs, solid.member.span) + 400
    return SectionLine((x + ux * low, y + uy * low), (x + ux * high, y + uy * high))


def section(scene: Scene3, cut: SectionLine, named: Collection[str] = ()) -> list[Item]:
    """Return the section; ``named`` are trusses that stand out, by a stronger line."""
    layout, solids = scene.layout, scene.solids
    items: list[Item] = [*ground(layout, cut)]
    seen: list[tuple[float, str]] = []
    beyond: list[tuple[float, str]] = []
    crossed: list[str] = []
    lying: list[str] = []
    for tag, solid in solids.items():
        ux, uy = solid.unit
        aside = cut.place(solid.start)[1]
        if solid.over:
            lying.append(tag)
        elif abs(ux * cut.unit[1] - uy * cut.unit[0]) > SQUARE:
            crossed.append(tag)
        elif not _within(solid, cut):
            continue
        elif max(abs(cut.place(end)[1]) for end in (solid.start, solid.finish)) <= solid.member.width / 2 + ROUND:
            seen.append((aside, tag))
        elif 0 < aside <= NEXT:
            beyond.append((aside, tag))
    items += _roof_line(layout, cut, figures=not seen)
    for aside, tag in beyond:
        if not seen and aside <= min(beyond)[0] + ROUND:
            items += _outline(solids[tag], cut)
    for _aside, tag in sorted(seen, reverse=True):
        items += _from_the_side(solids[tag], cut, strong=tag in named)
        if tag in scene.joined:
            items += _joined(solids[tag], cut)
    items += ledgers_cut(layout, cut.place)
    items += _crossed(scene, crossed, cut, named)
    items += _lying(scene, lying, cut)
    return [*items, *(_height(_words(scene, tag), solids[tag], cut) for _aside, tag in seen)]


def _within(solid: Solid, cut: SectionLine) -> bool:
    """Whether some of a truss lies between the ends of the line, and not only before or after it."""
    one, other = cut.place(solid.start)[0], cut.place(solid.finish)[0]
    return max(one, other) > 0 and min(one, other) < cut.length


def _crossed(scene: Scene3, tags: Iterable[str], cut: SectionLine, named: Collection[str]) -> Iterator[Item]:
    """Yield what the line cuts: trusses with their tags under them, framing, and bracing."""
    under: list[Text] = []
    for tag in tags:
        pieces = list(_cut_through(scene.solids[tag], cut, strong=tag in named, joined=tag in scene.joined))
        yield from pieces
        if pieces:
            under.append(_tag(_words(scene, tag), pieces))
    for timber in scene.framing:
        yield from _timber(timber, cut)
    for strut in scene.struts:
        if 0 <= (cut.place(strut.a)[0] + cut.place(strut.b)[0]) / 2 <= cut.length:
            yield from _strut(strut, cut)
    yield from sorted(under, key=lambda tag: tag.at[0])


def _lying(scene: Scene3, tags: Iterable[str], cut: SectionLine) -> Iterator[Item]:
    """Yield the trusses that fell where the line cuts them, timber by timber, with a word under each."""
    under: list[Text] = []
    for tag in tags:
        solid = scene.solids[tag]
        half, pieces = solid.member.width / 2, []
        for timber in solid.framed.timbers:
            near, far = ([solid.at(run, z, side) for run, z in timber.outline] for side in (half, -half))
            shape = rim(list(_through(near, far, cut)))
            if len(shape) > 2 and shape[0][0] <= cut.length and max(x for x, _z in shape) >= 0:
                pieces.append(Polygon(shape, FACES.get(solid.member.kind, SECTION_PLAIN)[1], "timber_edge", 1.2))
        yield from pieces
        if pieces:
            under.append(_tag(_words(scene, tag), list(pieces)))
    for number, text in enumerate(under):
        yield replace(text, spare=number > 0)


def _through(near: Sequence[Point3], far: Sequence[Point3], cut: SectionLine) -> Iterator[Point]:
    """Yield where the edges between two faces, and round them, pass through the line."""
    yield from _passing(zip(near, far, strict=True), cut)
    for ring in (near, far):
        yield from _passing(pairwise((*ring, ring[0])), cut)


def _passing(edges: Iterable[tuple[Point3, Point3]], cut: SectionLine) -> Iterator[Point]:
    """Yield where edges pass through the line."""
    for p, q in edges:
        one, other = cut.place(p)[1], cut.place(q)[1]
        if (one > 0) != (other > 0):
            t = one / (one - other)
            yield cut.paper((p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t, p[2] + (q[2] - p[2]) * t))


def _roof_line(layout: Layout, cut: SectionLine, *, figures: bool) -> Iterator[Item]:
    """Return the finished roof over the line, as a thin dashed line: what the trusses are to carry.

    With ``figures``, each part of it has its greatest height over the plates. Where a gable stands above a lower roof,
    a line upright joins the two.
    """
    for ring in layout.roof.steps:
        met = sorted(_passing(pairwise((*ring, ring[0])), cut))
        if met and 0 <= met[0][0] <= cut.length:
            yield Line((met[0], met[-1]), "roof", 1.0, "px", (6.0, 5.0))
    for part in _joined_up(piece for face in layout.roof.faces for piece in _over(face.polygon, cut)):
        yield Line(tuple(part), "roof", 1.0, "px", (6.0, 5.0))
        if figures:
            top = max(z for _x, z in part)
            flat = [x for x, z in part if z > top - 1]
            at = ((flat[0] + flat[-1]) / 2, top)
            yield Text(at, figure(round(top)), "faint", 14.0, "px", off=(0.0, 0.9), rows=1, spare=True)


def _over(polygon: Sequence[Point3], cut: SectionLine) -> Iterator[tuple[Point, Point]]:
    """Yield where the line passes over a face of the roof, each stretch as two places on the paper."""
    met = sorted(_passing(pairwise((*polygon, polygon[0])), cut))
    for (a, za), (b, zb) in zip(met[::2], met[1::2], strict=True):
        low, high = max(a, 0.0), min(b, cut.length)
        if high - low > SAME:
            slope = (zb - za) / (b - a)
            yield (low, za + (low - a) * slope), (high, za + (high - a) * slope)


def _joined_up(pieces: Iterable[tuple[Point, Point]]) -> list[list[Point]]:
    """Return stretches that meet as one line; the verge of a dutch gable, over another face, is a line of its own."""
    lines: list[list[Point]] = []
    for start, stop in sorted(pieces):
        for line in lines:
            if math.dist(line[-1], start) <= SAME:
                line.append(stop)
                break
        else:
            lines.append([start, stop])
    return lines


def _from_the_side(solid: Solid, cut: SectionLine, *, strong: bool) -> Iterator[Item]:
    fill = FILLS.get(solid.member.kind, "timber")
    for timber in solid.framed.timbers:
        points = tuple(cut.paper(solid.at(run, z)) for run, z in timber.outline)
        yield Polygon(
            points, "paper" if timber.part == "extension" else fill, "mark" if strong else "timber_edge",
            2.0 if strong else 1.2,
        )  # fmt: skip


def _joined(solid: Solid, cut: SectionLine) -> Iterator[Item]:
    """Return the fasteners that join the plies of a girder, along its bottom chord."""
    z = solid.framed.base + solid.framed.frame.bottom_depth / 2
    for share in range(1, JOINED + 1):
        x, height = cut.paper(solid.at(solid.member.span * share / (JOINED + 1), z))
        corners = ((-20, -20), (20, -20), (20, 20), (-20, 20))
        yield Polygon(tuple((x + dx, height + dz) for dx, dz in corners), "fastener", "paper", 0.8)


def _timber(timber: FittedTimber, cut: SectionLine) -> Iterator[Item]:
    """Return framing where the line cuts it, or from the side where it stands on the line."""
    near, far = timber.corners(0.0), timber.corners(1.0)
    beside = max(abs(cut.place(end)[1]) for end in (timber.a, timber.b)) <= timber.wide / 2 + ROUND
    shape = rim([cut.paper(corner) for corner in (*near, *far)] if beside else list(_through(near, far, cut)))
    if len(shape) < 3 or not 0 <= shape[0][0] <= cut.length:
        return
    yield Polygon(shape, "paper", "timber_edge", 1.2)
    if len(shape) == 4 and not beside:
        yield Line((shape[0], shape[2]), "timber_edge", 0.8)  # end grain
        yield Line((shape[1], shape[3]), "timber_edge", 0.8)


def rim(points: Collection[Point]) -> tuple[Point, ...]:
    """Return the corners of the smallest shape without a hollow round some points, anticlockwise (Andrew's method)."""
    ordered = sorted(set(points))

    def half(along: list[Point]) -> list[Point]:
        kept: list[Point] = []
        for p in along:
            while len(kept) > 1 and _turns(kept[-2], kept[-1], p) <= 0:
                kept.pop()
            kept.append(p)
        return kept[:-1]

    return (*half(ordered), *half(ordered[::-1])) if len(ordered) > 2 else tuple(ordered)


def _turns(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _outline(solid: Solid, cut: SectionLine) -> Iterator[Item]:
    """Return a truss that stands behind the line, as a thin outline."""
    for timber in solid.framed.timbers:
        yield Polygon(tuple(cut.paper(solid.at(run, z)) for run, z in timber.outline), None, "faint", 0.7)


def _cut_through(solid: Solid, cut: SectionLine, *, strong: bool, joined: bool) -> Iterator[Item]:
    """Return the timbers of a truss where the line cuts them: as thick as it is, leaning as it leans."""
    (ax, ay), (bx, by) = cut.place(solid.at(0.0, 0.0)), cut.place(solid.at(solid.member.span, 0.0))
    if ay == by:
        return
    run = solid.member.span * ay / (ay - by)
    along = ax + (bx - ax) * ay / (ay - by)
    runs = [r for r, _z in solid.framed.frame.top]
    if not min(*runs, 0.0) <= run <= max(*runs, solid.member.span) or not 0 <= along <= cut.length:
        return
    side = FACES.get(solid.member.kind, SECTION_PLAIN)[1]
    half = solid.member.width / 2
    for timber in solid.framed.timbers:
        heights = list(_heights(timber.outline, run))
        if len(heights) < 2:
            continue
        low, high = min(heights), max(heights)
        if timber.part == "web":
            yield Polygon(_square_to(solid, cut, run, (low, high), (-half, half)), None, "faint", 0.8)
            continue
        fill = "paper" if timber.part == "extension" else side
        edge, wide = ("mark", 2.4) if strong else ("timber_edge", 1.2)
        for ply in range(solid.member.plies):
            right = -half + ply * solid.member.thickness
            points = _square_to(solid, cut, run, (low, high), (right, right + solid.member.thickness))
            yield Polygon(points, fill, edge, wide)
            yield Line((points[0], points[2]), edge, 0.8)  # end grain
            yield Line((points[1], points[3]), edge, 0.8)
        if joined and timber.part == "bottom chord":
            ends = (solid.at(run, (low + high) / 2, -half - 15), solid.at(run, (low + high) / 2, half + 15))
            yield Line(tuple(cut.paper(end) for end in ends), "fastener", 3.0)


def _square_to(
    solid: Solid, cut: SectionLine, run: float, heights: tuple[float, float], asides: tuple[float, float]
) -> tuple[Point, ...]:
    """Return a piece of a timber where it is cut, between two heights and from one side to the other."""
    (low, high), (right, left) = heights, asides
    corners = ((low, right), (low, left), (high, left), (high, right))
    return tuple(cut.paper(solid.at(run, z, aside)) for z, aside in corners)


def _heights(outline: tuple[Point, ...], run: float) -> Iterator[float]:
    """The heights at which an outline passes a run."""
    for (a, za), (b, zb) in zip(outline, outline[1:] + outline[:1], strict=True):
        if (a < run) != (b < run):
            yield za + (zb - za) * (run - a) / (b - a)


def _strut(strut: Strut, cut: SectionLine) -> Iterator[Item]:
    """Return bracing and strings: a dot where they pass through the line, a stroke where they run along it."""
    role, wide, dash = RUNS[strut.run]
    (a, aside), (b, other) = cut.place(strut.a), cut.place(strut.b)
    if (aside > 0) != (other > 0):
        t = aside / (aside - other)
        x, z = a + (b - a) * t, strut.a[2] + (strut.b[2] - strut.a[2]) * t
        if abs(b - a) < abs(aside - other):
            yield _dot(x, z, role)
            return
    elif min(abs(aside), abs(other)) > 2 * ROUND:
        return
    elif max(abs(aside), abs(other)) > 2 * ROUND:
        # It begins or ends on the truss that is shown.
        x, z = (a, strut.a[2]) if abs(aside) < abs(other) else (b, strut.b[2])
        yield _dot(x, z, role)
        return
    yield Line(((a, strut.a[2]), (b, strut.b[2])), role, wide, "px", dash)


def _dot(x: float, z: float, role: str) -> Polygon:
    return Polygon(((x - DOT, z), (x, z - DOT), (x + DOT, z), (x, z + DOT)), role, "paper", 1.0)


def _words(scene: Scene3, tag: str) -> str:
    return in_words(scene.site, tag) if scene.site else tag


def _tag(words: str, pieces: list[Item]) -> Text:
    """Return the tag of a truss that is cut, under its lowest timber."""
    points = [p for piece in pieces if isinstance(piece, Polygon) for p in piece.points]
    x = sum(p[0] for p in points) / len(points)
    at = (x, min(p[1] for p in points))
    return Text(at, words, "ink", 13.0, "px", bold=True, ground="paper", off=(0.0, -0.8), rows=-MOST_ROWS, spare=True)


def _height(words: str, solid: Solid, cut: SectionLine) -> Text:
    """Return the height of a truss's top over the plates, as a figure on it."""
    x, z = cut.paper(solid.apex)
    return Text(
        (x, z),
        f"{words}  {figure(round(z))}",
        "mark",
        14.0,
        "px",
        bold=True,
        ground="paper",
        off=(0.0, 0.9),
        rows=MOST_ROWS,
    )


def section_box(layout: Layout, cut: SectionLine) -> Box:
    """Return the box that a section fills, lettering aside."""
    high = max((z for face in layout.roof.faces for _x, _y, z in face.polygon), default=1000.0)
    high = top_of(layout) if layout.at_wall else high
    return (-100.0, FOOT if layout.house.plan.beams else -STUD, cut.length + 100, high + 100)
