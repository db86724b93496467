"""Timbers in space as faces on the paper: those of trusses, of framing and of bracing, in their colours."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from trainer.picture.framing import FittedTimber
from trainer.picture.model import Item, Line, Polygon
from trainer.picture.ordering import UNDER, PaintNode, Piece, Rod, Sheet, Thing
from trainer.picture.solids import Solid
from trainer.picture.space import Turn
from trainer.picture.struts import Run
from trainer.picture.sun import LEVEL, lit
from trainer.plan import Point
from trainer.roof.model import Point3

COLOURS = {
    "girder": "girder", "truncated_girder": "girder", "saddle": "saddle", "hip": "hip_timber", "jack": "hip_timber",
    "creeper": "hip_timber",
}  # fmt: skip
"""The colour of timbers in space, by kind of truss, each in the shades of its faces."""
PLAIN = "timber"
EDGE = "timber_line"
FACES = {"girder": ("timber", "girder"), "truncated_girder": ("timber", "girder"), "saddle": ("saddle", "timber")}
"""Colours of the upper and the side faces of timbers in a section, by kind of truss."""
SECTION_PLAIN = ("timber", "timber_shade")
RUNS: dict[Run, tuple[str, float, tuple[float, ...]]] = {
    "batten": ("brace", 3.0, (12.0, 4.0)),
    "steel brace": ("brace", 2.0, (7.0, 3.0)),
    "solid": ("brace", 4.0, ()),
    "prop": ("brace", 3.0, (4.0, 3.0)),
    "string": ("string", 1.4, ()),
    "roof brace": ("fastener", 2.2, (10.0, 3.0)),
    "tie": ("brace", 2.0, (14.0, 4.0)),
    "wall tie": ("fastener", 4.0, ()),
}
"""How each strut is drawn: colour, px wide, dash."""
JOINED = 7
"""So many fasteners are shown along a girder whose plies are joined."""


class Timbers:
    """Draws what a roof is divided into, for one look; ``fine`` with their faces in the sun, otherwise as strokes."""

    def __init__(self, turn: Turn, *, fine: bool, joined: frozenset[str], chosen: str = "") -> None:
        """Draw for one look; where a truss is ``chosen`` all other timber is faded."""
        self._turn = turn
        self._fine = fine
        self._joined = joined
        self._chosen = chosen
        self._near: dict[str, float] = {}
        self._sides: dict[str, str] = {}
        self._uppers: dict[tuple[str, int], str] = {}

    def node(self, node: PaintNode) -> Iterator[Item]:
        """Yield what lies in one plane: bottom chords, what passes over them, webs, top chords, what lies on those."""
        far_first = sorted(node.crossing, key=lambda thing: -self._turn.depth(thing.middle))
        if not node.sheets:
            for thing in far_first:
                yield from self._thing(thing)
            return
        within = [thing for thing in far_first if _between_chords(thing, node.sheets)]
        sheets = sorted(node.sheets, key=lambda sheet: -self._turn.depth(sheet.middle))
        for sheet in sheets:
            yield from self._pieces(sheet, [piece for piece in sheet.pieces if piece.part == "bottom chord"])
        for thing in within:
            yield from self._thing(thing)
        for sheet in sheets:
            yield from self._pieces(sheet, self._above(sheet))
        for thing in far_first:
            if thing not in within:
                yield from self._thing(thing)

    def _thing(self, thing: Thing) -> Iterator[Item]:
        if isinstance(thing, Rod):
            yield from self._rod(thing)
        else:
            yield from self._pieces(thing, [piece for piece in thing.pieces if piece.part == "bottom chord"])
            yield from self._pieces(thing, self._above(thing))

    def _above(self, sheet: Sheet) -> list[Piece]:
        """Return the webs of a truss, then its top chords, the far one first."""
        webs = [piece for piece in sheet.pieces if piece.part == "web"]
        tops = [piece for piece in sheet.pieces if piece.part in {"top chord", "extension"}]
        return [*webs, *sorted(tops, key=lambda piece: -self._turn.depth(_middle(sheet.solid, piece)))]

    def _side(self, solid: Solid) -> float:
        """Return how far to the left of a truss the face lies that is turned to whoever looks."""
        if solid.tag not in self._near:
            half = solid.member.width / 2
            left, right = (self._turn.depth(solid.at(0.0, 0.0, aside)) for aside in (half, -half))
            self._near[solid.tag] = half if left < right else -half
        return self._near[solid.tag]

    def _faded(self, tag: str) -> str:
        """Return what is added to a colour of something on a truss: faded, where another one is chosen."""
        return " pale" if self._chosen and tag != self._chosen else ""

    def _side_colour(self, solid: Solid) -> str:
        """Return the colour of the near side of a truss's timbers in the sun."""
        if solid.tag not in self._sides:
            (ux, uy), way = solid.unit, math.copysign(1.0, self._side(solid))
            colour = COLOURS.get(solid.member.kind, PLAIN)
            self._sides[solid.tag] = lit(colour, (-uy * way, ux * way)) + self._faded(solid.tag)
        return self._sides[solid.tag]

    def _upper_colour(self, solid: Solid, piece: Piece) -> str:
        """Return the colour of the upper edge of a timber, which faces down its own slope."""
        (a, az), (b, bz) = piece.upper
        falls = 0 if abs(az - bz) <= LEVEL * (b - a) else 1 if az > bz else -1
        key = (solid.tag, falls)
        if key not in self._uppers:
            (ux, uy), colour = solid.unit, COLOURS.get(solid.member.kind, PLAIN)
            self._uppers[key] = lit(colour, (ux * falls, uy * falls, 1.0)) + self._faded(solid.tag)
        return self._uppers[key]

    def _pieces(self, sheet: Sheet, pieces: Sequence[Piece]) -> Iterator[Item]:
        solid = sheet.solid
        edge = EDGE + self._faded(solid.tag)
        for piece in pieces:
            if self._fine:
                yield from self._faces(solid, piece, edge)
            else:
                ends = self._turn.all_flat(solid.at(run, z) for run, z in _spine(piece))
                if piece.part == "web":
                    yield Line(ends, edge, 1.0)
                else:
                    yield Line(ends, edge, 3.0)
                    yield Line(ends, self._upper_colour(solid, piece), 1.0)

    def _faces(self, solid: Solid, piece: Piece, line: str) -> Iterator[Item]:
        """Yield the faces of a timber that are turned to whoever looks: its upper edge, and its near side."""
        upper, side = self._upper_colour(solid, piece), self._side_colour(solid)
        if piece.part == "extension":
            upper = side = "paper" + self._faded(solid.tag)
        near, half = self._side(solid), solid.member.width / 2
        (a, az), (b, bz) = piece.upper
        if piece.part != "web" and a != b:
            asides = [half - ply * solid.member.thickness for ply in range(solid.member.plies + 1)]
            far, *between, last = [self._turn.all_flat((solid.at(a, az, s), solid.at(b, bz, s))) for s in asides]
            whole = all(piece.own)
            yield Polygon((*far, *reversed(last)), upper, line if whole else None, 0.8)
            for edge in between if whole else (far, last, *between):
                yield Line(edge, line, 0.8)
        outline = self._turn.all_flat(solid.at(run, z, near) for run, z in piece.outline)
        if all(piece.own):
            yield Polygon(outline, side, line, 0.8)
        else:
            yield Polygon(outline, side)
            for here, there, own in zip(outline, (*outline[1:], outline[0]), piece.own, strict=True):
                if own:
                    yield Line((here, there), line, 0.8)
        if piece.part == "bottom chord" and solid.tag in self._joined:
            yield from self._fasteners(solid, piece, near)

    def _fasteners(self, solid: Solid, piece: Piece, near: float) -> Iterator[Item]:
        """Yield the fasteners that join the plies of a girder, along its bottom chord."""
        runs = [run for run, _z in piece.outline]
        z = solid.framed.base + solid.framed.frame.bottom_depth / 2
        for share in range(1, JOINED + 1):
            run = solid.member.span * share / (JOINED + 1)
            if min(runs) <= run <= max(runs):
                corners = ((-16.0, -16.0), (16.0, -16.0), (16.0, 16.0), (-16.0, 16.0))
                yield Polygon(self._turn.all_flat(solid.at(run + x, z + up, near) for x, up in corners), "fastener")

    def _rod(self, rod: Rod) -> Iterator[Item]:
        if isinstance(rod.of, FittedTimber):
            yield from self._timber(rod.of, rod)
            return
        role, wide, dash = RUNS[rod.of.run]
        faded = self._faded("")
        yield Line(self._turn.all_flat((rod.a, rod.b)), role + faded, wide, "px", dash)

    def _timber(self, timber: FittedTimber, rod: Rod) -> Iterator[Item]:
        """Yield the long faces of a timber that are turned to whoever looks, and its own ends."""
        faded = self._faded(timber.of)
        if not self._fine:
            yield Line(self._turn.all_flat((rod.a, rod.b)), EDGE + faded, 2.0)
            return
        first, last = timber.corners(rod.first), timber.corners(rod.last)
        for i in range(4):
            k = (i + 1) % 4
            face = (first[i], first[k], last[k], last[i])
            if facing(face, self._turn):
                a, b, c, d = self._turn.all_flat(face)
                yield Polygon((a, b, c, d), "paper" + faded)
                yield Line((a, d), EDGE + faded, 0.8)
                yield Line((b, c), EDGE + faded, 0.8)
        for end, own in (((first[3], first[2], first[1], first[0]), rod.first == 0), (last, rod.last == 1)):
            if own and facing(end, self._turn):
                yield Polygon(self._turn.all_flat(end), "paper" + faded, EDGE + faded, 0.8)


def _between_chords(thing: Thing, sheets: Sequence[Sheet]) -> bool:
    """Whether what crosses a truss passes under its top chord."""
    at, z = thing.middle[:2], thing.middle[2]

    def run_and_off(solid: Solid) -> tuple[float, float]:
        run = solid.nearest_run(at)
        return math.dist(solid.at(run, 0.0)[:2], at), run

    solid = min((sheet.solid for sheet in sheets), key=run_and_off)
    return z < solid.framed.roof(run_and_off(solid)[1]) - UNDER


def _middle(solid: Solid, piece: Piece) -> Point3:
    (a, az), (b, bz) = piece.upper
    return solid.at((a + b) / 2, (az + bz) / 2)


def _spine(piece: Piece) -> tuple[Point, Point]:
    """Return the upper edge of a piece; of one whose upper edge is cut off, its lowest and highest corners."""
    if piece.upper[0] != piece.upper[1]:
        return piece.upper
    return min(piece.outline, key=lambda c: c[1]), max(piece.outline, key=lambda c: c[1])


def facing(polygon: tuple[Point3, ...], turn: Turn) -> bool:
    """Whether a face that is anticlockwise in plan is seen from above: its area on the paper is positive."""
    flat = turn.all_flat(polygon)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(flat, flat[1:] + flat[:1], strict=True)) > 0
