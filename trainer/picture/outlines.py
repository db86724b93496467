"""The timbers of a truss as they are seen from the side: each cut to what is between the others."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from shapely.geometry import LineString, Polygon, box

from trainer.layout.webs import TOP_CHORD, WEB, Frame, Outline, RunZ, drop

_FAR = 1e6
"""Further than any truss reaches, mm."""


@dataclass(frozen=True, slots=True)
class Outlines:
    """A truss's timbers as they are seen: an outline for each straight length of the top chord, and for each web.

    The bottom chord is cut to the slope of the roof at its ends; webs are cut to what is between the chords.
    """

    top_chords: tuple[Outline, ...]
    bottom_chord: Outline
    webs: tuple[Outline, ...]


def outlines_of(frame: Frame) -> Outlines:
    """Return the outlines of a frame's timbers."""
    return Outlines(_top_chords(frame), _bottom_chord(frame), _webs(frame))


def _top_chords(frame: Frame) -> tuple[Outline, ...]:
    over_plate = box(frame.first, frame.bottom, frame.last, frame.bottom + _FAR)
    beyond = [box(-_FAR, -_FAR, frame.first, _FAR), box(frame.last, -_FAR, _FAR, _FAR)]
    return tuple(
        outline
        for a, b in pairwise(frame.top)
        for part in (over_plate, *beyond)
        if (outline := _largest(_chord(a, b), part))
    )


def _bottom_chord(frame: Frame) -> Outline:
    whole = box(frame.first, frame.bottom, frame.last, frame.bottom + frame.bottom_depth)
    return _largest(whole, _under_roof(frame, 0.0))


def _webs(frame: Frame) -> tuple[Outline, ...]:
    over_chord = box(frame.first, frame.bottom + frame.bottom_depth, frame.last, _FAR)
    space = _under_roof(frame, TOP_CHORD).intersection(over_chord)
    return tuple(
        _largest(LineString([web.low, web.high]).buffer(WEB / 2, cap_style="square"), space) for web in frame.webs
    )


def _under_roof(frame: Frame, depth: float) -> Polygon:
    """All that lies below the top chord between the ends, the chord's depth taken off where given."""
    inside = [p for p in frame.top if frame.first < p[0] < frame.last]
    line = [(frame.first, frame.roof(frame.first)), *inside, (frame.last, frame.roof(frame.last))]
    deep = min(frame.bottom, *(z for _, z in line)) - 1.0
    area = Polygon([*line, (frame.last, deep), (frame.first, deep)])
    for a, b in pairwise(line) if depth else ():
        area = area.difference(_chord(a, b))
    return area


def _chord(a: RunZ, b: RunZ) -> Polygon:
    """A straight length of the top chord whose upper edge runs from ``a`` to ``b``, its ends plumb."""
    depth = drop(a, b)
    return Polygon([a, b, (b[0], b[1] - depth), (a[0], a[1] - depth)])


def _largest(shape: Polygon, within: Polygon) -> Outline:
    """What of ``shape`` lies ``within``, the largest piece where there are several; empty where none does."""
    found = shape.intersection(within)
    parts = [part for part in getattr(found, "geoms", [found]) if isinstance(part, Polygon) and not part.is_empty]
    piece = max(parts, key=lambda part: part.area, default=None)
    return () if piece is None else tuple((float(x), float(z)) for x, z in piece.exterior.coords[:-1])
