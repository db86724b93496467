"""A display list painted on a page of a PDF, in vectors and in the page's own type, no letter under 7 points."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import cycle, pairwise

from fpdf import FPDF
from fpdf.enums import RenderStyle

from trainer.picture import SHEET_SCALE, Item, Line, Palette, Picture, Polygon, Text, View, fit, rgb
from trainer.picture.lettering import CAP_HEIGHT, LEAST_PX, RING, text_width
from trainer.picture.placing import letter, place_texts
from trainer.plan import Point

THINNEST = 0.06
"""Strokes are no thinner on paper than this, mm."""
POINTS = 72 / 25.4
"""Points in a millimetre."""
LEAST_POINTS = 7.0
"""The smallest lettering of a drawing on paper, points."""
PX = LEAST_POINTS / POINTS / LEAST_PX
"""What a px of lettering is on paper, mm, so that the smallest of it comes to :data:`LEAST_POINTS`."""
EDGE = 2.0
"""How far a line or a letter may stand out of its picture, mm."""
FAMILY = "type"


def paint(pdf: FPDF, picture: Picture, palette: Palette, at: Point, size: tuple[float, float]) -> None:
    """Paint a picture into a box of the page: ``at`` its upper left corner and its ``size``, mm of paper.

    Strokes in px have their right weight at the scale of a sheet, and grow thinner with the drawing. Ground that goes
    on past the picture is cut off.
    """
    view = fit(picture.box, *size)
    items = place_texts(picture.items(), view.scale / PX)
    with pdf.rect_clip(at[0] - EDGE, at[1] - EDGE, size[0] + 2 * EDGE, size[1] + 2 * EDGE):
        draw(pdf, items, palette, view, at, view.scale / SHEET_SCALE)
    plain(pdf)


def draw(pdf: FPDF, items: Iterable[Item], palette: Palette, view: View, at: Point, pen: float) -> None:
    """Paint a display list whose texts have their places: ``pen`` is what a px of stroke is on paper, mm."""
    for item in items:
        match item:
            case Line():
                _line(pdf, item, palette, view, at, pen)
            case Polygon():
                _polygon(pdf, item, palette, view, at, pen)
            case Text():
                _text(pdf, item, palette, view, at)
    plain(pdf)


def plain(pdf: FPDF) -> None:
    """Draw from here on in black, fill in white: what was set within a clip ends with it, which the library forgets."""
    for colour in (255, 0):
        pdf.set_line_width(0.2)
        pdf.set_draw_color(colour)
        pdf.set_text_color(colour)
        pdf.set_fill_color(255 - colour)


def legible(picture: Picture, size: tuple[float, float]) -> bool:
    """Whether on so much paper, mm, every text of a picture has a place."""
    return not letter(picture.items(), fit(picture.box, *size).scale / PX).left_out


def _on_page(view: View, at: Point, point: Point) -> Point:
    x, y = view.to_px(point)
    return at[0] + x, at[1] + y


def _stroke(view: View, size: float, unit: str, pen: float) -> float:
    """A stroke or dash on paper, mm."""
    return max(THINNEST, size * (view.scale if unit == "mm" else pen))


def _line(pdf: FPDF, line: Line, palette: Palette, view: View, at: Point, pen: float) -> None:
    pdf.set_draw_color(*rgb(palette[line.role]))
    pdf.set_line_width(_stroke(view, line.width, line.unit, pen))
    points = [_on_page(view, at, point) for point in line.points]
    pattern = [_stroke(view, length, line.unit, pen) for length in line.dash]
    for a, b in _dashes(points, pattern) if pattern else pairwise(points):
        pdf.line(a[0], a[1], b[0], b[1])


def _dashes(points: Sequence[Point], pattern: Sequence[float]) -> Iterator[tuple[Point, Point]]:
    """Cut a polyline into the drawn pieces of a dash pattern."""
    lengths = cycle(enumerate(pattern))
    i, left = next(lengths)
    for a, b in pairwise(points):
        whole, done = math.dist(a, b), 0.0
        while whole - done > 1e-9:
            step = min(left, whole - done)
            if i % 2 == 0:
                yield _between(a, b, done / whole), _between(a, b, (done + step) / whole)
            done, left = done + step, left - step
            if left <= 1e-9:
                i, left = next(lengths)


def _between(a: Point, b: Point, part: float) -> Point:
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def _polygon(pdf: FPDF, polygon: Polygon, palette: Palette, view: View, at: Point, pen: float) -> None:
    style = "D"
    if polygon.fill:
        pdf.set_fill_color(*rgb(palette[polygon.fill]))
        style = "DF" if polygon.edge else "F"
    if polygon.edge:
        pdf.set_draw_color(*rgb(palette[polygon.edge]))
        pdf.set_line_width(_stroke(view, polygon.width, polygon.unit, pen))
    pdf.polygon([_on_page(view, at, point) for point in polygon.points], style=RenderStyle.coerce(style))


def _text(pdf: FPDF, text: Text, palette: Palette, view: View, at: Point) -> None:
    size = text.size * PX
    x, y = _on_page(view, at, text.at)
    width = text_width(text.text, size)
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
    with pdf.rotation(text.turn, x, y):
        if text.ring:
            round_it = size * RING
            pdf.set_fill_color(*rgb(palette[text.ground or "paper"]))
            pdf.set_draw_color(*rgb(palette[text.role]))
            pdf.set_line_width(size * 0.1)
            pdf.ellipse(x - round_it, y - round_it, 2 * round_it, 2 * round_it, style=RenderStyle.DF)
        elif text.ground:
            pad = size * 0.12
            pdf.set_fill_color(*rgb(palette[text.ground]))
            high = size * CAP_HEIGHT + 2 * pad
            pdf.rect(left - pad, y - high / 2, width + 2 * pad, high, style=RenderStyle.F)
        pdf.set_font(FAMILY, "B" if text.bold else "", size * POINTS)
        pdf.set_text_color(*rgb(palette[text.role]))
        pdf.text(left, y + size * CAP_HEIGHT / 2, text.text)
