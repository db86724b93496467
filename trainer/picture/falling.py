"""A row that goes over: how far each truss has tipped at each moment, and how it lies there until it is cleared.

A look only: what falls turns about its foot. It comes to rest on the truss beside it, the last of a row on the plates.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from trainer.plan import Point
from trainer.site.model import Lying, Site
from trainer.site.shape import height
from trainer.words import _

FLAT = math.pi / 2
"""How far a truss has tipped that lies on the plates, radians."""
PASSED_ON = 0.35
"""After how much of its own fall a truss takes the next one with it."""
LANDS = 0.9
"""After how much of its own time a truss lands."""
ALONG = 0.1
"""What hangs square to the row that falls, within this (a cosine), goes over to a side of its own."""


def down(site: Site) -> frozenset[str]:
    """Return the trusses that lie where they fell; what was struck still stands."""
    return frozenset(tag for tag, lying in site.fall.lying.items() if not lying.struck) if site.fall else frozenset()


def in_words(site: Site, tag: str) -> str:
    """Return a truss's tag, with a word beside it if it fell or was struck."""
    lying = site.fall.lying.get(tag) if site.fall else None
    if lying is None:
        return tag
    return (_("{tag} struck") if lying.struck else _("{tag} fell")).format(tag=tag)


def tipping(site: Site, share: float = 1.0) -> dict[str, float]:
    """Return how far each truss that fell has tipped to its left, radians, at a ``share`` (0 to 1) of the whole fall.

    It begins with the truss that was let go, and goes through the row.
    """
    fell = [lying for lying in site.fall.lying.values() if not lying.struck] if site.fall else []
    if not fell:
        return {}
    rests = {tag: rest for row in _rows(fell) for tag, rest in _resting(site, row)}
    first = _place(fell[0])
    ordered = sorted(fell, key=lambda lying: (_place(lying) < first, abs(_place(lying) - first)))
    whole = 1.0 + PASSED_ON * (len(ordered) - 1)
    over = {}
    for number, lying in enumerate(ordered):
        own = min(1.0, max(0.0, share * whole - PASSED_ON * number))
        over[lying.tag] = _side(lying) * rests[lying.tag] * _gone_over(own)
    return over


def _gone_over(own: float) -> float:
    """Return how much of its tip is over, 0 to 1: it starts slowly, lands all at once, and lies."""
    return min(1.0, own / LANDS) ** 3


def uppermost_last(site: Site) -> list[str]:
    """Return the trusses that fell, those first that others lie on."""
    fell = [lying for lying in site.fall.lying.values() if not lying.struck] if site.fall else []
    return [lying.tag for row in _rows(fell) for lying in reversed(row)]


def _left(lying: Lying) -> Point:
    (ax, ay), (bx, by) = lying.start, lying.finish
    length = math.dist(lying.start, lying.finish) or 1.0
    return -(by - ay) / length, (bx - ax) / length


def _side(lying: Lying) -> float:
    """Return which side of its own a truss goes over to: 1 left, -1 right."""
    (nx, ny), (tx, ty) = _left(lying), lying.towards
    along = nx * tx + ny * ty
    return math.copysign(1.0, along if abs(along) > ALONG else nx + ny)


def way_over(lying: Lying) -> Point:
    """Return the unit step in plan towards which a truss went over."""
    side, (nx, ny) = _side(lying), _left(lying)
    return nx * side, ny * side


def _place(lying: Lying, way: Point | None = None) -> float:
    """Return how far on a truss stood in the direction in which the row went over, mm."""
    (x, y), (tx, ty) = lying.start, way or lying.towards
    return x * tx + y * ty


def _rows(fell: Iterable[Lying]) -> Iterator[list[Lying]]:
    """Yield the trusses that went over side by side, the one furthest on last."""
    rows: dict[tuple[int, int], list[Lying]] = {}
    for lying in fell:
        wx, wy = way_over(lying)
        rows.setdefault((round(wx * 100), round(wy * 100)), []).append(lying)
    for row in rows.values():
        yield sorted(row, key=lambda lying: _place(lying, way_over(row[0])))


def _resting(site: Site, row: list[Lying]) -> Iterator[tuple[str, float]]:
    """Yield how far each truss of a row has tipped when it lies on the foot and the top of the next one."""
    slope, before = 0.0, math.inf
    thick = 0.0
    for lying in reversed(row):
        member, at = site.layout.by_tag[lying.tag], _place(lying, way_over(row[0]))
        gap, high = before - at, height(site.layout.by_tag[lying.tag])
        slope = max(thick / gap, ((high - gap) * slope + thick) / high) if 0.0 < gap < high else 0.0
        yield lying.tag, FLAT - math.atan(slope)
        before, thick = at, member.width
