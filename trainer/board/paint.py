"""Paints a display list of :mod:`trainer.picture` on a surface, and saves one as a PNG file."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import pygame
from pygame import gfxdraw

from trainer.board import type_files
from trainer.picture.lettering import RING
from trainer.picture.model import SHEET_SCALE, Item, Line, Picture, Polygon, Text, View, fit
from trainer.picture.palette import Palette, rgb
from trainer.picture.placing import Lettering, letter, over_strokes
from trainer.plan import Point

Colour = tuple[int, int, int]
_BEYOND = 2000
"""How far outside the surface shapes are cut off, px; the fast polygons only take small numbers."""
_LARGE = 40
"""Sides of a rectangle over which it is filled without smoothing its edges, px."""
_LEAST_TEXT = 7
"""Lettering smaller than this on screen, px, would be a smear and is left out."""
_MOST_KEPT = 6000
"""Pieces of lettering that are cached; beyond that all are drawn anew, once."""
PNG_SCALE = 0.15
"""Scale of a sheet saved as PNG, px per mm."""


class Brush:
    """Paints items on one surface in one theme's colours.

    ``quick`` leaves edges rough, for what moves. ``lettering`` is how much larger than usual text is.
    ``inside`` moves lettering of a place in sight in from the edges, so that all of it is seen; ``among`` is what
    is lettered under it.
    """

    def __init__(
        self, surface: pygame.Surface, colours: Mapping[str, Colour], view: View, *, quick: bool = False,
        lettering: float = 1.0, inside: bool = False, among: Lettering | None = None,
    ) -> None:  # fmt: skip
        self.surface = surface
        self.quick = quick
        self.lettering = lettering
        self.inside = inside
        self.among = among
        self.colours = colours
        self.view = view
        self.frame = surface.get_rect().inflate(2 * _BEYOND, 2 * _BEYOND)
        self.seen = surface.get_rect().inflate(40, 40)

    def paint(self, items: Iterable[Item]) -> None:
        """Paint items in order, lettering where it has room; no stroke goes through lettering under it."""
        placed = letter(items, self.view.scale, self.lettering, self.among).items
        self.paint_sheet(over_strokes(placed, self.among, self.view.scale) if self.among else placed)

    def paint_sheet(self, items: Iterable[Item]) -> None:
        """Paint items in order, lettering as large and where it is put: on a sheet it has its place already."""
        for item in items:
            if isinstance(item, Polygon):
                self._polygon(item)
            elif isinstance(item, Line):
                self._line(item)
            else:
                self._text(item)

    def _to_px(self, points: Sequence[Point]) -> list[tuple[float, float]]:
        view = self.view
        return [((x - view.left) * view.scale, (view.top - y) * view.scale) for x, y in points]

    def _out_of_sight(self, points: Sequence[tuple[float, float]]) -> bool:
        seen = self.seen
        return (
            max(x for x, _ in points) < seen.left or min(x for x, _ in points) > seen.right
            or max(y for _, y in points) < seen.top or min(y for _, y in points) > seen.bottom
        )  # fmt: skip

    def _polygon(self, item: Polygon) -> None:
        points = self._to_px(item.points)
        if self._out_of_sight(points):
            return
        points = clipped(points, self.frame)
        if len(points) < 3:
            return
        if item.fill and (upright := _upright(points)):
            self.surface.fill(self.colours[item.fill], upright)
        elif item.fill and self.quick:
            pygame.draw.polygon(self.surface, self.colours[item.fill], points)
        elif item.fill:
            fill(self.surface, points, self.colours[item.fill])
        if item.edge and self.quick:
            width = max(1, round(self.view.px(item.width, item.unit)))
            pygame.draw.polygon(self.surface, self.colours[item.edge], points, width)
        elif item.edge:
            stroke(self.surface, [*points, points[0]], self.colours[item.edge], self.view.px(item.width, item.unit))

    def _line(self, item: Line) -> None:
        points = self._to_px(item.points)
        colour = self.colours[item.role]
        width = self.view.px(item.width, item.unit)
        if self.quick and not item.dash:
            pygame.draw.lines(self.surface, colour, False, points, max(1, round(width)))
            return
        if self._out_of_sight(points):
            return
        if not item.dash:
            stroke(self.surface, points, colour, width)
            return
        lengths = [max(1.0, self.view.px(length, item.unit)) for length in item.dash]
        for piece in dashes(points, lengths, self.frame):
            stroke(self.surface, piece, colour, width)

    def _circle(self, at: tuple[float, float], size: int, ground: Colour | None, edge: Colour) -> None:
        """Paint the circle round a text."""
        radius = round(size * RING)
        for inner, colour in ((radius, edge), (radius - max(2, size // 8), ground)):
            if colour is not None:
                pygame.draw.circle(self.surface, colour, at, inner)

    def _text(self, item: Text) -> None:
        size = round(self.view.px(item.size, item.unit))
        x, y = self.view.to_px(item.at)
        if size < _LEAST_TEXT or not self.seen.inflate(2 * size * len(item.text), 4 * size).collidepoint(x, y):
            return
        ground = self.colours[item.ground] if item.ground else None
        if item.ring:
            self._circle((x, y), size, ground, self.colours[item.role])
            ground = None
        drawn = lettering(item.text, size, self.colours[item.role], ground, item.bold)
        aside = {"start": 0.5, "middle": 0.0, "end": -0.5}[item.anchor] * drawn.get_width()
        if item.turn:
            drawn = (
                pygame.transform.rotozoom(drawn, item.turn, 1)
                if item.turn % 90
                else pygame.transform.rotate(drawn, item.turn)
            )
        turn = math.radians(item.turn)
        x, y = x + aside * math.cos(turn), y - aside * math.sin(turn)
        at = drawn.get_rect(center=(round(x), round(y)))
        whole = self.surface.get_rect()
        self.surface.blit(drawn, at.clamp(whole) if self.inside and whole.colliderect(at) else at)


def _upright(points: Sequence[tuple[float, float]]) -> pygame.Rect | None:
    """Return the rectangle that a polygon is, if it is one with upright sides and large: that is filled at once."""
    if len(points) != 4:
        return None
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
    if not ((ay == by and cy == dy and bx == cx and ax == dx) or (ax == bx and cx == dx and by == cy and ay == dy)):
        return None
    left, top = round(min(ax, cx)), round(min(ay, cy))
    wide, high = round(max(ax, cx)) - left, round(max(ay, cy)) - top
    return pygame.Rect(left, top, wide, high) if min(wide, high) > _LARGE else None


_cache: dict[tuple[str, int, Colour, Colour | None, bool], pygame.Surface] = {}
_fonts: dict[tuple[int, bool], pygame.font.Font] = {}


def lettering(text: str, size: int, colour: Colour, ground: Colour | None, bold: bool) -> pygame.Surface:
    """Return a line of type cut close to the height of its capitals, on a ground or on none; cached once drawn."""
    key = (text, size, colour, ground, bold)
    cached = _cache.get(key)
    if cached is None:
        if len(_cache) > _MOST_KEPT:
            _cache.clear()
        font = _font(size, bold)
        drawn = font.render(text, True, colour)
        # The em's middle is where capitals have theirs: cut what the font leaves above and below.
        middle = font.get_ascent() - round(size * 0.33)
        half = min(middle, drawn.get_height() - middle, round(size * 0.56))
        cached = pygame.Surface((drawn.get_width() + (size // 4 if ground else 0), 2 * half), pygame.SRCALPHA)
        if ground:
            cached.fill(ground)
        cached.blit(drawn, ((size // 8 if ground else 0), half - middle))
        _cache[key] = cached
    return cached


def _font(size: int, bold: bool) -> pygame.font.Font:
    if not pygame.font.get_init():
        pygame.font.init()
        _fonts.clear()
    if (size, bold) not in _fonts:
        _fonts[size, bold] = pygame.font.Font(type_files.semibold() if bold else type_files.regular(), size)
    return _fonts[size, bold]


def fill(surface: pygame.Surface, points: Sequence[tuple[float, float]], colour: Colour) -> None:
    """Fill a polygon, its edge smoothed."""
    whole = [(round(x), round(y)) for x, y in points]
    gfxdraw.filled_polygon(surface, whole, colour)
    gfxdraw.aapolygon(surface, whole, colour)


def stroke(surface: pygame.Surface, points: Sequence[tuple[float, float]], colour: Colour, width: float) -> None:
    """Draw a polyline of any width, smoothed where it slants."""
    if width < 1.5:
        for a, b in itertools.pairwise(points):
            if abs(a[0] - b[0]) < 0.5 or abs(a[1] - b[1]) < 0.5:
                pygame.draw.line(surface, colour, (round(a[0]), round(a[1])), (round(b[0]), round(b[1])))
            else:
                pygame.draw.aaline(surface, colour, a, b)
        return
    for a, b in itertools.pairwise(points):
        if abs(a[0] - b[0]) < 0.5 or abs(a[1] - b[1]) < 0.5:
            pygame.draw.line(surface, colour, (round(a[0]), round(a[1])), (round(b[0]), round(b[1])), round(width))
        else:
            pygame.draw.aaline(surface, colour, a, b, round(width))


def dashes(
    points: Sequence[tuple[float, float]], lengths: Sequence[float], frame: pygame.Rect
) -> list[list[tuple[float, float]]]:
    """Cut a polyline into its dashes, only those inside ``frame``."""
    pieces: list[list[tuple[float, float]]] = []
    whole = sum(lengths)
    for a, b in itertools.pairwise(points):
        length = math.dist(a, b)
        seen = frame.clipline(a, b)
        if length < 0.5 or not seen:
            continue
        ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        # Start at the first dash that reaches the frame, so that a long line costs no more than a short one.
        first, beyond = seen
        done = max(0.0, math.dist(a, first) // whole * whole)
        last = math.dist(a, beyond)
        number = 0
        while done < min(length, last + whole):
            reach = min(length, done + lengths[number % len(lengths)])
            if number % 2 == 0:
                pieces.append([(a[0] + ux * done, a[1] + uy * done), (a[0] + ux * reach, a[1] + uy * reach)])
            done, number = reach, number + 1
    return pieces


def clipped(points: list[tuple[float, float]], frame: pygame.Rect) -> list[tuple[float, float]]:
    """Cut a polygon off at a rectangle (Sutherland and Hodgman's method); most need no cutting."""
    if all(frame.left <= x <= frame.right and frame.top <= y <= frame.bottom for x, y in points):
        return points
    for axis, limit, sign in ((0, frame.left, 1), (0, frame.right, -1), (1, frame.top, 1), (1, frame.bottom, -1)):
        cached: list[tuple[float, float]] = []
        for a, b in zip(points, points[1:] + points[:1], strict=True):
            da, db = sign * (a[axis] - limit), sign * (b[axis] - limit)
            if da >= 0:
                cached.append(a)
            if (da >= 0) != (db >= 0):
                part = da / (da - db)
                cached.append((a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part))
        points = cached
        if not points:
            break
    return points


def colours_of(palette: Palette) -> dict[str, Colour]:
    """Return a palette's colours as numbers."""
    return {role: rgb(colour) for role, colour in palette.items()}


def save_png(picture: Picture, path: Path, *, palette: Palette) -> None:
    """Save a picture as a PNG file at :data:`PNG_SCALE`; needs no screen."""
    wide, high = picture.box[2] - picture.box[0], picture.box[3] - picture.box[1]
    surface = pygame.Surface((round(wide * PNG_SCALE), round(high * PNG_SCALE)))
    colours = colours_of(palette)
    surface.fill(colours["paper"])
    sheet = _heavier(picture.items(), PNG_SCALE / SHEET_SCALE)
    Brush(surface, colours, fit(picture.box, *surface.get_size())).paint_sheet(sheet)
    pygame.image.save(surface, str(path), "png")


def _heavier(items: Iterable[Item], by: float) -> Iterable[Item]:
    from dataclasses import replace  # only where a sheet is saved

    for item in items:
        if isinstance(item, Text):
            yield replace(item, size=item.size * by) if item.unit == "px" else item
        elif isinstance(item, Line):
            yield (
                replace(item, width=item.width * by, dash=tuple(d * by for d in item.dash))
                if item.unit == "px"
                else item
            )
        else:
            yield replace(item, width=item.width * by) if item.unit == "px" else item
