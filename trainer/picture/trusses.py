"""Trusses seen from above, at their true thickness, where they stand in a layout."""

from __future__ import annotations

import math

from trainer.layout import Layout, Member
from trainer.picture.ladders import ladder
from trainer.picture.model import MEDIUM, THIN, Group, Item, Line, Polygon
from trainer.plan import Point
from trainer.terms import TrussKind

FILLS: dict[TrussKind, str] = {"girder": "girder", "truncated_girder": "girder", "saddle": "saddle"}
PAINT_ORDER: tuple[TrussKind, ...] = (
    "girder", "truncated_girder", "truncated", "standard", "half", "gable", "jack", "creeper", "hip", "saddle",
)  # fmt: skip
"""From the lowest to what lies over it."""
EXTENSION_DASH = (7.0, 4.0)


LEAST_PX = 3.0
"""A truss that would be thinner than this on the screen is drawn in strokes, px."""
SINGLE_PX, PLIES_PX = 3.0, 5.0
"""Width of these strokes for one ply, and for more, px."""
ONE_PLY = 60.0
"""A timber no thicker than this is of one ply, mm."""


def strip(start: Point, finish: Point, width: float) -> tuple[Point, Point, Point, Point]:
    """Return the four corners of a straight timber ``width`` mm wide round its centre line."""
    (ax, ay), (bx, by) = start, finish
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
    nx, ny = -(by - ay) / length * width / 2, (bx - ax) / length * width / 2
    return ((ax - nx, ay - ny), (bx - nx, by - ny), (bx + nx, by + ny), (ax + nx, ay + ny))


def in_strokes(items: list[Item], member: Member, scale: float) -> list[Item]:
    """Return a truss from above, in strokes of its kind's own width where it is too thin to be drawn to ``scale``.

    To scale, where a timber of one or two px falls between the px would make it hollow here and solid there.
    """
    if member.width * scale >= LEAST_PX:
        return items
    wide = SINGLE_PX if member.plies == 1 else PLIES_PX
    strokes: list[Item] = []
    for item in items:
        if isinstance(item, Polygon) and len(item.points) == 4 and item.fill:
            strokes += _stroked(item, item.fill, wide)
        elif isinstance(item, Polygon):
            strokes.append(item)
    return strokes


def _stroked(timber: Polygon, fill: str, wide: float) -> list[Item]:
    """Return a straight timber as a stroke of its edge with one of its own colour on it."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = timber.points
    middle = (((ax + dx) / 2, (ay + dy) / 2), ((bx + cx) / 2, (by + cy) / 2))
    # What has no edge of its own has dashed ones: it lies over others.
    edge = Line(middle, timber.edge or "timber_edge", wide, "px", () if timber.edge else EXTENSION_DASH)
    return [edge, Line(middle, fill, wide - 2.0)]


def thin_in_strokes(item: Item, scale: float) -> list[Item]:
    """Return a timber of a drawing in strokes, where it is too thin to be drawn to ``scale``; all else as it is."""
    if not isinstance(item, Polygon) or len(item.points) != 4 or not item.fill or item.edge != "timber_edge":
        return [item]
    thick = math.dist(item.points[0], item.points[3])
    if thick * scale >= LEAST_PX:
        return [item]
    return _stroked(item, item.fill, SINGLE_PX if thick <= ONE_PLY else PLIES_PX)


def dashed(shape: tuple[Point, Point, Point, Point]) -> list[Item]:
    """Return a timber with dashed edges: an extension, or framing that is fixed later."""
    a, b, c, d = shape
    edges = [Line(ends, "timber_edge", THIN, "px", EXTENSION_DASH) for ends in ((a, b), (c, d))]
    return [Polygon(shape, "paper"), *edges]


def along(member: Member, run: float) -> Point:
    """Return the plan place ``run`` mm from the truss's ``from`` end along its centre line."""
    (x, y), (dx, dy) = member.start, member.direction
    return (x + dx * run, y + dy * run)


def body_runs(layout: Layout, member: Member) -> tuple[float, float]:
    """Return where the truss itself begins and ends, mm from its ``from`` end: tails in, extensions out.

    A hung end stops at the carrier's face.
    """
    first, last = member.top[0][0], member.top[-1][0]
    begin, finish = first, last
    for number, end in enumerate(member.ends):
        carrier = layout.by_tag.get(end.bears_on)
        if carrier is None or member.kind == "saddle":
            continue
        (dx, dy), (cx, cy) = member.direction, carrier.direction
        half = carrier.width / 2 / max(abs(dx * cy - dy * cx), 0.1)
        if number == 0:
            begin = half
        else:
            finish = member.span - half
    return begin, finish


def truss(layout: Layout, member: Member) -> Group:
    """Return one truss of the layout: body, lines between plies, extension and the brackets it hangs in."""
    begin, finish = body_runs(layout, member)
    items: list[Item] = []
    last = member.top[-1][0]
    if member.kind in {"hip", "jack"} and last > finish + 1:
        extension = strip(along(member, finish), along(member, last), member.width)
        items += dashed(extension)
    body = strip(along(member, begin), along(member, finish), member.width)
    items.append(Polygon(body, FILLS.get(member.kind, "timber"), "timber_edge", THIN))
    items += [
        Line(_offset(member, begin, finish, (ply - member.plies / 2) * member.thickness), "timber_edge", THIN)
        for ply in range(1, member.plies)
    ]
    items += _brackets(layout, member, begin, finish)
    return Group("trusses", tuple(items), member.tag)


def _offset(member: Member, begin: float, finish: float, aside: float) -> tuple[Point, Point]:
    """Return a line beside the centre line."""
    dx, dy = member.direction
    (ax, ay), (bx, by) = along(member, begin), along(member, finish)
    return ((ax - dy * aside, ay + dx * aside), (bx - dy * aside, by + dx * aside))


def _brackets(layout: Layout, member: Member, begin: float, finish: float) -> list[Item]:
    """Return a short bar across each hung end: the bracket or hanger that holds it."""
    if member.kind == "saddle":
        return []
    bars: list[Item] = []
    for end, run in zip(member.ends, (begin, finish), strict=True):
        if end.bears_on in layout.by_tag or end.on_ledger:
            inward = 1 if run == begin else -1
            foot, tip = along(member, run), along(member, run + inward * 60)
            bars.append(Polygon(strip(foot, tip, member.width + 44), None, "fastener", MEDIUM))
    return bars


def trusses(layout: Layout) -> Group:
    """Return every truss of the layout, the lowest first."""
    ordered = sorted(layout.members, key=lambda member: PAINT_ORDER.index(member.kind))
    return Group("trusses", tuple(truss(layout, member) for member in ordered))


def parts(layout: Layout) -> Group:
    """Return the framing that is not a truss: outriggers, verge rafters, trimmers; uprights as squares."""
    thickness = layout.house.trusses.thickness
    items: list[Item | Group] = []
    for part in (timber for whole in layout.parts for timber in ladder(layout, whole)):
        (x, y), finish = part.start, part.finish
        if (x, y) == finish:
            shape = strip((x - thickness / 2, y), (x + thickness / 2, y), thickness)
        else:
            shape = strip((x, y), finish, thickness)
        drawn = [Polygon(shape, "paper", "timber_edge", THIN)] if (x, y) == finish else dashed(shape)
        items.append(Group("parts", tuple(drawn), part.name or part.on))
    return Group("parts", tuple(items))
