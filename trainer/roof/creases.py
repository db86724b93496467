"""Ridges, hips and valleys: where two planes meet."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import Literal, NamedTuple

from trainer.roof.plane import Spot
from trainer.roof.side import Place

Kind = Literal["ridge", "hip", "valley"]


class CreasePiece(NamedTuple):
    """A straight stretch of crease: ``kind``, and its ends from the lower or, if level, from the lower x, then y."""

    kind: Kind
    start: Place
    finish: Place


def kind_of(start: Spot, finish: Spot) -> Kind | None:
    """What an edge of a plane's anticlockwise polygon is, by the way it runs; None along a wall or across a gable."""
    run, rise = finish[0] - start[0], finish[1] - start[1]
    if run > 0:
        return "valley" if rise else None
    if run < 0:
        return "hip" if rise else "ridge"
    return None


def seen(polygon: list[Spot], ring: list[Place]) -> list[CreasePiece]:
    """The edges of a plane, cut at the plates, that may be creases: its polygon, and the same on the plan."""
    pieces = []
    for i, spot in enumerate(polygon):
        kind = kind_of(polygon[i - 1], spot)
        if kind:
            a, b = ring[i - 1], ring[i]
            pieces.append(CreasePiece(kind, a, b) if _order(a) < _order(b) else CreasePiece(kind, b, a))
    return pieces


def creases(pieces: Iterable[CreasePiece]) -> list[CreasePiece]:
    """Return the stretches that two planes see, given what each sees.

    Nearly all are seen alike from both sides. Where one side's edge is parted on the other, by a third
    plane that touches it, the crease is parted too, so that each lies between two planes; where a plane
    ends at a gable only it sees the edge, and there is no crease.
    """
    once: set[CreasePiece] = set()
    twice = []
    for piece in pieces:
        if piece in once:
            once.remove(piece)
            twice.append(piece)
        else:
            once.add(piece)
    lines: dict[tuple[Kind, int, float], list[CreasePiece]] = {}
    for piece in once:
        lines.setdefault(_line(piece), []).append(piece)
    for along in lines.values():
        if len(along) > 1:
            twice += _parted(along)
    return sorted(twice)


def _order(place: Place) -> tuple[float, float, float]:
    return (place[2], place[0], place[1])


def _line(piece: CreasePiece) -> tuple[Kind, int, float]:
    """What pieces on one line share: the kind, the line's way in eighths of a turn, and where it lies."""
    (x0, y0, _), (x1, y1, _) = piece.start, piece.finish
    if y0 == y1:
        return (piece.kind, 0, y0)
    if x0 == x1:
        return (piece.kind, 2, x0)
    return (piece.kind, 1, y0 - x0) if (x1 > x0) == (y1 > y0) else (piece.kind, 3, y0 + x0)


def _parted(along: list[CreasePiece]) -> list[CreasePiece]:
    """Cut pieces on one line at each other's ends; keep the stretches that lie in two."""
    stretches = []
    for ends in pairwise(sorted({end for piece in along for end in (piece.start, piece.finish)})):
        if sum(all(_within(piece, end) for end in ends) for piece in along) == 2:
            stretches.append(CreasePiece(along[0].kind, *sorted(ends, key=_order)))
    return stretches


def _within(piece: CreasePiece, place: Place) -> bool:
    """Whether a place on the piece's line lies on the piece: on one line, order by x then y is order along it."""
    low, high = sorted((piece.start, piece.finish))
    return low <= place <= high
