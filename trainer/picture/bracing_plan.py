"""The plan of permanent bracing and tie-down: where each piece lies over the trusses, and what holds each bearing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from shapely.geometry import LineString, box

from trainer.layout import Layout
from trainer.layout.bracing import Restraint, RestraintKind
from trainer.layout.posts import free_posts
from trainer.picture.higher_walls import ledgers
from trainer.picture.house import eave, plates
from trainer.picture.legend import BEAM, Key, extensions, inside_walls, line
from trainer.picture.lettering import meet, text_box, text_width
from trainer.picture.measures import wall_letters
from trainer.picture.model import HEAVY, MEDIUM, THIN, Box, Group, Item, Line, Picture, Polygon, Text
from trainer.picture.tags import tags
from trainer.picture.trusses import trusses
from trainer.picture.verandah import POST_EDGE, verandah
from trainer.plan import Point
from trainer.site import Job, wanted
from trainer.terms import thing
from trainer.words import _

STROKES: Mapping[RestraintKind, tuple[str, float, tuple[float, ...]]] = {
    "roof brace": ("fastener", HEAVY, ()),
    "bottom-chord tie": ("brace", MEDIUM, (14.0, 6.0)),
    "web tie": ("brace", MEDIUM, (4.0, 5.0)),
    "top-chord tie": ("string", MEDIUM, (14.0, 5.0, 3.0, 5.0)),
    "end brace": ("stop", HEAVY, (5.0, 4.0)),
}
"""How each kind is drawn: colour, weight and dash, told apart without the colour."""
Connector = tuple[str, int]
SHAPES: Mapping[str, tuple[int, float, float]] = {"framing anchor": (16, 0.0, 1.0), "tie-down strap": (4, 45.0, 1.35)}
"""The shape of each connector's sign: so many corners, the first turned so many degrees, and how large."""
EDGE = 1.45
"""How far a sign's white edge reaches, parts of the sign."""
ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.14, 0.86)
"""Where along a piece its name may stand."""
LONG = 4.0
"""A piece shorter than so many widths of its name has it beside it."""


def bracing_picture(job: Job, pieces: Sequence[Restraint], names: Mapping[str, str], letters: float) -> Picture:
    """Return the plan of bracing and tie-down of a house.

    ``names`` are what the plan calls each piece, by its own name; lettering is ``letters`` mm high on the plan.
    """
    layout = job.layout
    signs = tuple(_tie_downs(job, letters * 0.28))
    taken = [_box(sign) for sign in signs]
    tagged = tags(layout, letters, taken)
    taken += [text_box(item, pad=0.1) for group in tagged.items if isinstance(group, Group) for item in _texts(group)]
    lines = tuple(_piece(piece) for piece in pieces)
    lay = {piece.name: LineString((piece.start, piece.finish)) for piece in pieces}
    called = tuple(
        _name(piece, names[piece.name], letters, taken, [lay[name] for name in lay if name != piece.name])
        for piece in pieces
    )
    layers = (
        eave(layout.house.roof_plan, layout.house.roof.overhang),
        plates(layout.house.plan, ledgers(layout)),
        *verandah(layout),
        trusses(layout),
        Group("bracing", lines),
        Group("tie-down", signs),
        tagged,
        Group("names", called),
        wall_letters(layout, letters * 1.4),
    )
    over = layout.house.roof.overhang + letters * 3
    x0, y0, x1, y1 = layout.house.plan.bounds
    return Picture((x0 - over, y0 - over, x1 + over, y1 + over), layers)


def bracing_legend(job: Job, pieces: Sequence[Restraint]) -> Iterator[Key]:
    """Yield what the plan of bracing and tie-down has; a tie along the middle would be lost on a ridge's line."""
    present = {piece.kind for piece in pieces}
    for kind, (role, width, dash) in STROKES.items():
        if kind in present:
            yield thing(kind), line(role, dash, width)
    for connector, count in connectors(job):
        text = thing(connector) if count == 1 else _("{n} × {connector}").format(n=count, connector=thing(connector))
        yield text, partial(_sample, (connector, count))
    if job.layout.house.plan.beams:
        yield BEAM
    yield from inside_walls(job.layout)
    yield from extensions(job.layout)


def _sample(connector: Connector, at: Point, long: float) -> list[Item]:
    return list(_sign(connector, (at[0] + long / 2, at[1]), long * 0.12))


def connectors(job: Job) -> list[Connector]:
    """Return what holds the bearings on plates down, as (connector, how many), the lightest first."""
    found = {_connector(job, tag, end) for tag, end, _at in _bearings(job.layout)}
    return sorted(found, key=lambda each: (job.tie_down.capacity.of(each[0]), each[1]))


def _bearings(layout: Layout) -> Iterator[tuple[str, int, Point]]:
    for member in layout.members:
        for number, end in enumerate(member.ends, 1):
            if end.on_plate:
                yield member.tag, number, end.at


def _connector(job: Job, tag: str, end: int) -> Connector:
    return wanted(job, tag, end)


def _tie_downs(job: Job, size: float) -> Iterator[Polygon]:
    """Yield the sign of its connector at each bearing: in the middle of the plate, or beside a post on the truss."""
    plan, by_tag = job.layout.house.plan, job.layout.by_tag
    half = plan.plate_width / 2
    posts = [post.at for post in free_posts(job.layout)] if plan.beams else []
    clear = half + POST_EDGE + size * EDGE * 1.1
    for tag, end, (x, y) in _bearings(job.layout):
        member = by_tag[tag]
        nx, ny = plan.by_name[member.ends[end - 1].wall].inward
        at = (x + nx * half, y + ny * half)
        ux, uy = member.direction if end == 1 else (-member.direction[0], -member.direction[1])
        step = size / 4
        while any(max(abs(at[0] - px), abs(at[1] - py)) < clear for px, py in posts):
            at = (at[0] + ux * step, at[1] + uy * step)
        yield from _sign(_connector(job, tag, end), at, size)


def _sign(connector: Connector, at: Point, size: float) -> Iterator[Polygon]:
    """Yield the sign of a connector, the same for every house: its shape, one inside another for each more of them.

    A white edge parts it from the timber.
    """
    name, count = connector
    yield _shape(name, at, size * EDGE, "paper", "paper")
    for number in range(count):
        yield _shape(name, at, size * (1 - number / count), ("ink", "paper")[number % 2], "ink")


def _box(shape: Polygon) -> Box:
    xs, ys = zip(*shape.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _shape(name: str, at: Point, size: float, fill: str, edge: str) -> Polygon:
    corners, turn, large = SHAPES[name]
    x, y = at
    size *= large
    angles = [math.radians(turn + 360.0 * i / corners) for i in range(corners)]
    shape = tuple((x + size * math.cos(a), y + size * math.sin(a)) for a in angles)
    return Polygon(shape, fill, edge, THIN)


def _piece(piece: Restraint) -> Line:
    role, width, dash = STROKES[piece.kind]
    return Line((piece.start, piece.finish), role, width, "px", dash)


def _name(piece: Restraint, name: str, size: float, taken: list[Box], others: Sequence[LineString]) -> Text:
    """Return what a piece is called, where nothing else is written and no other piece lies: on it, if it is long."""
    (ax, ay), (bx, by) = piece.start, piece.finish
    covers = text_width(name, size * 0.9) * LONG > math.dist(piece.start, piece.finish)
    asides = sorted((0.0, 0.8, -0.8, 1.6, -1.6, 2.4, -2.4), key=lambda aside: (covers and not aside, abs(aside)))
    found = [
        Text((ax + (bx - ax) * t, ay + (by - ay) * t + aside * size), name, "mark", size * 0.9, ground="paper")
        for aside in asides
        for t in ALONG
    ]
    free = [t for t in found if not any(meet(text_box(t, pad=0.1), each) for each in taken)]
    clear = (t for t in free if not any(other.intersects(box(*text_box(t))) for other in others))
    text = next(clear, (free or found)[0])
    taken.append(text_box(text, pad=0.1))
    return text


def _texts(group: Group) -> Iterator[Text]:
    return (item for item in group.items if isinstance(item, Text))
