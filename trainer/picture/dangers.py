"""The dangers that lie on a site, in plan and in space: each a shape of its own with a word beside it.

A shape is made once in space and laid flat for the plan, so that both views show the same. What lies nowhere (a
forecast, a licence, how a truss in the yard is slung) is not drawn. One that has been put right is gone.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trainer.layout import Layout
from trainer.layout.posts import posts
from trainer.level.dangers import OF_BEAMS
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.space import Turn
from trainer.plan import Point
from trainer.roof.model import Point3
from trainer.site import LOOKED_AT, Site, is_there
from trainer.site.conditions import Flaw
from trainer.words import _

FLOOR = -650.0
"""Where the floor is drawn below the plates, mm: as far down as the walls are drawn in space."""
POLE, SAG = 2600.0, 350.0
"""Half the stretch of a service line that is drawn, and how far it sags, mm."""
WIRE = 3000.0
"""Height of the ends of a service line over the plates, mm."""
RAIL = 900.0
"""Height of a rail over the plates, mm."""
MISSING = (8.0, 6.0)
"""Dashes of what should be there and isn't, px."""
SMALL_MISSING = (3.0, 3.0)
"""The same of what is small, px."""
LETTERS = 13.0
"""Size of the words, px."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A stroke in space, or an area where it has a ``fill``."""

    points: tuple[Point3, ...]
    fill: str | None = None
    width: float = 1.8
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class DangerSpot:
    """A danger where it can be pressed on: its place in space, the word beside it, what the look at it is called.

    ``item`` is the place of the look round that shows it; empty where it shows itself.
    """

    flaw: Flaw
    at: Point3
    word: str
    item: str

    @property
    def place(self) -> Point:
        """Where it lies on the plan."""
        return self.at[:2]


def spots(site: Site) -> tuple[DangerSpot, ...]:
    """Return the dangers that can be seen on the site, in the order in which they were found or came up."""
    return tuple(
        DangerSpot(flaw, _middle(site.layout, flaw), _WORDS[flaw.what], _item(site, flaw)) for flaw in _there(site)
    )


def on_plan(site: Site, *, above: bool) -> list[Item]:
    """Return the shapes of the dangers on the plan: those that lie under the trusses, or ``above`` them."""
    found = (flaw for flaw in _there(site) if (flaw.what in _HIGH) == above)
    return list(_items(_pieces(site.layout, found), lambda points: tuple((x, y) for x, y, _z in points)))


def words_on_plan(site: Site) -> list[Item]:
    """Return the word beside each of them on the plan."""
    return [_word(spot, spot.place) for spot in spots(site)]


def in_space(site: Site, turn: Turn) -> list[Item]:
    """Return the shapes of the dangers in the angled view, and their words."""
    return [
        *_items(_pieces(site.layout, _there(site)), turn.all_flat),
        *(_word(spot, turn.flat(spot.at)) for spot in spots(site)),
    ]


def _there(site: Site) -> Iterator[Flaw]:
    return (flaw for flaw in site.flaws if flaw.what in _SHAPES and is_there(site, flaw))


def _item(site: Site, flaw: Flaw) -> str:
    """The place of the level's own look round that shows a danger."""
    return next((item for item in LOOKED_AT.get(flaw.what, ()) if item in site.job.conditions.checks), "")


def _pieces(layout: Layout, flaws: Iterable[Flaw]) -> Iterator[Stroke]:
    for flaw in flaws:
        yield from _SHAPES[flaw.what](layout, flaw)


def _items(pieces: Iterable[Stroke], flat: Callable[[tuple[Point3, ...]], tuple[Point, ...]]) -> Iterator[Item]:
    for piece in pieces:
        if piece.fill:
            yield Polygon(flat(piece.points), piece.fill, "ink", piece.width)
        else:
            yield Line(flat(piece.points), "ink", piece.width, "px", piece.dash)


def _word(spot: DangerSpot, at: Point) -> Text:
    return Text(at, spot.word, "ink", LETTERS, "px", bold=True, ground="paper", off=(0.0, -1.8), rows=3)


def _middle(layout: Layout, flaw: Flaw) -> Point3:
    """Where a danger lies; one on a wall at the wall's middle."""
    if flaw.at is not None:
        return (*flaw.at, _HIGH.get(flaw.what, FLOOR))
    if flaw.wall:
        wall = layout.house.plan.by_name[flaw.wall]
        on = next((b for b in layout.house.plan.beams if flaw.what in OF_BEAMS and b.wall == flaw.wall), None)
        part = 0.25 if flaw.what == "beam not bolted down" else 0.5  # so that two of one beam can be told apart
        run = on.low + (on.high - on.low) * part if on else wall.length * part
        return (*wall.at(run), _HIGH.get(flaw.what, 0.0))
    x0, _y0, _x1, y1 = layout.house.plan.bounds
    return (x0, y1, RAIL)


def _box(at: Point, long: float, wide: float, z: float) -> tuple[Point3, ...]:
    x, y = at
    return tuple((x + dx * long / 2, y + dy * wide / 2, z) for dx, dy in ((-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1)))


def _solid(at: Point, long: float, wide: float, low: float, high: float) -> Iterator[Stroke]:
    """A pack: straps over it, and its four upright edges."""
    below, above = _box(at, long, wide, low), _box(at, long, wide, high)
    yield Stroke(below)
    yield from (Stroke((a, b)) for a, b in zip(below[:4], above[:4], strict=True))
    yield Stroke(above, "timber")
    for part in (-0.25, 0.25):
        x = at[0] + long * part
        yield Stroke(((x, at[1] - wide / 2, high), (x, at[1] + wide / 2, high)))


def _line(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """A wire that sags between two poles, along the side of the house that it is nearest to."""
    x, y, _z = _middle(layout, flaw)
    x0, y0, x1, y1 = layout.house.plan.bounds
    along_x = min(abs(y - y0), abs(y - y1)) <= min(abs(x - x0), abs(x - x1))
    ux, uy = (1.0, 0.0) if along_x else (0.0, 1.0)
    places = [(x + ux * POLE * k / 4, y + uy * POLE * k / 4, WIRE - SAG * (1 - (k / 4) ** 2)) for k in range(-4, 5)]
    yield Stroke(tuple(places), width=2.4)
    for px, py, pz in (places[0], places[-1]):
        yield Stroke(((px, py, FLOOR), (px, py, pz)), width=3.0)
        yield Stroke(_box((px, py), 160, 160, pz), "ink")
    # A jagged mark on the wire itself: it is live.
    jag = ((-160.0, 220.0), (40.0, 40.0), (-40.0, -40.0), (160.0, -220.0))
    yield Stroke(tuple((x + a, y + b, WIRE - SAG) for a, b in jag), width=2.4)


def _void(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """An opening in the floor with the treads of a stair in it."""
    x, y, z = _middle(layout, flaw)
    yield Stroke(_box((x, y), 2400, 1000, z), "shadow")
    yield from (Stroke(((x + dx, y - 500, z), (x + dx, y + 500, z)), width=1.0) for dx in range(-900, 1200, 300))


def _platform(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """Where a platform should be: its outline in dashes, crossed out."""
    x, y, z = _middle(layout, flaw)
    corners = _box((x, y), 2000, 700, z)
    yield Stroke(corners, dash=MISSING)
    yield Stroke((corners[0], corners[2]), dash=MISSING)
    yield Stroke((corners[1], corners[3]), dash=MISSING)


def _rail(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """Where a rail should be: two lines in dashes outside the wall, and posts between."""
    wall, out = layout.house.plan.by_name[flaw.wall], 180.0
    nx, ny = wall.inward
    posts = [wall.at(wall.length * k / 6) for k in range(7)]
    foot = [(x - nx * out, y - ny * out) for x, y in posts]
    for z, aside in ((RAIL, 0.0), (RAIL / 2, 60.0)):
        run = tuple((x - nx * aside, y - ny * aside, z) for x, y in foot)
        yield Stroke(run, dash=MISSING)
    yield from (Stroke(((x, y, 0.0), (x - nx * 60, y - ny * 60, RAIL)), dash=MISSING) for x, y in foot)


def _people(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """Two people: a head over shoulders each."""
    x, y, z = _middle(layout, flaw)
    for dx, dy in ((-260.0, 80.0), (260.0, -80.0)):
        px, py = x + dx, y + dy
        yield Stroke(((px, py, z), (px, py, z + 1400)), width=2.4)
        yield Stroke(_ring((px, py), 240.0, 130.0, z + 1400), "panel")
        yield Stroke(_ring((px, py), 100.0, 100.0, z + 1650), "ink")


def _ring(at: Point, wide: float, deep: float, z: float) -> tuple[Point3, ...]:
    return tuple(
        (at[0] + wide * math.cos(math.tau * k / 12), at[1] + deep * math.sin(math.tau * k / 12), z) for k in range(12)
    )


def _unbraced(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """Where the frame's brace should be: a slope in dashes across the wall between two studs."""
    wall = layout.house.plan.by_name[flaw.wall]
    nx, ny = wall.inward
    inside = layout.house.plan.plate_width + 120.0
    (ax, ay), (bx, by) = (wall.at(wall.length * part) for part in (0.35, 0.65))
    low = (ax + nx * inside, ay + ny * inside)
    high = (bx + nx * inside * 2, by + ny * inside * 2)
    yield Stroke(((*low, FLOOR), (*high, 0.0)), dash=MISSING)
    yield from (Stroke(((ex, ey, FLOOR), (ex + nx * inside, ey + ny * inside, 0.0))) for ex, ey in ((ax, ay), (bx, by)))


def _on_lintel(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    wall = layout.house.plan.by_name[flaw.wall]
    long, wide = (2400.0, 500.0) if wall.along[0] else (500.0, 2400.0)
    return _solid(wall.at(wall.length / 2), long, wide, 0.0, 450.0)


def _bolts(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """Where the bolts should be, at each post of the beam: a square in dashes round it."""
    for post in posts(layout):
        if post.wall == flaw.wall:
            yield Stroke(_box(post.at, 420.0, 420.0, 0.0), dash=SMALL_MISSING)


def _beam_prop(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """A prop under the middle of the beam, on a foot."""
    x, y, _z = _middle(layout, flaw)
    yield Stroke(((x, y, FLOOR), (x, y, -90.0)), width=4.0)
    yield Stroke(_box((x, y), 420.0, 420.0, FLOOR), "panel")
    yield Stroke(_box((x, y), 160.0, 160.0, 0.0), "ink")


def _post_braces(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """Where the braces of a post should be: down to the ground both ways, in dashes."""
    x, y, z = _middle(layout, flaw)
    for dx, dy in ((600.0, 0.0), (0.0, 600.0)):
        yield Stroke(((x, y, 0.0), (x + dx, y + dy, z)), dash=MISSING)


def _post_foot(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    """Where the strap at the foot of a post should be: a ring in dashes round it."""
    x, y, z = _middle(layout, flaw)
    ring = _ring((x, y), 260.0, 260.0, z)
    yield Stroke((*ring, ring[0]), dash=MISSING)


def _on_row(layout: Layout, flaw: Flaw) -> Iterator[Stroke]:
    x, y, z = _middle(layout, flaw)
    return _solid((x, y), 1800.0, 900.0, z, z + 450.0)


def _gust(layout: Layout, _flaw: Flaw) -> Iterator[Stroke]:
    """Three arrows that come in over the corner."""
    x0, _y0, _x1, y1 = layout.house.plan.bounds
    for k in range(3):
        y = y1 - 400.0 * k
        tip = (x0 + 900.0 + 200.0 * k, y - 300.0, RAIL)
        yield Stroke(((x0 - 700.0, y + 300.0, RAIL), tip), width=2.4)
        yield Stroke(((tip[0] - 260.0, tip[1] + 260.0, RAIL), tip, (tip[0] - 320.0, tip[1] - 40.0, RAIL)), width=2.4)


_HIGH: Mapping[str, float] = MappingProxyType(
    {"service line": WIRE - SAG, "pack on a half-braced row": 900.0, "gust at noon": RAIL}
)
"""Dangers over the trusses, and how high they are over the plates, mm."""
_SHAPES: Mapping[str, Callable[[Layout, Flaw], Iterator[Stroke]]] = MappingProxyType(
    {
        "service line": _line,
        "open stair void": _void,
        "missing rail": _rail,
        "missing platform": _platform,
        "people in the exclusion zone": _people,
        "wall not braced": _unbraced,
        "pack on a lintel": _on_lintel,
        "pack on a half-braced row": _on_row,
        "gust at noon": _gust,
        "beam not bolted down": _bolts,
        "beam propped": _beam_prop,
        "post not braced": _post_braces,
        "post not tied down": _post_foot,
        "post brace taken off": _post_braces,
    }
)
_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "service line": _("line"),
        "open stair void": _("stairs"),
        "missing rail": _("no rail"),
        "missing platform": _("no platform"),
        "people in the exclusion zone": _("people"),
        "wall not braced": _("no brace"),
        "pack on a lintel": _("pack"),
        "pack on a half-braced row": _("pack"),
        "gust at noon": _("gust"),
        "beam not bolted down": _("no bolts"),
        "beam propped": _("prop"),
        "post not braced": _("no post brace"),
        "post not tied down": _("loose foot"),
        "post brace taken off": _("no post brace"),
    }
)
"""The words beside them say what is there, and not that it is a danger."""
