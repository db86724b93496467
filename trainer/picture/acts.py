"""What an act moves between the site before and after it: a truss swings in, a string pulls straight, a lean settles.

Worked out from the two sites alone, once in space, and laid flat for the plan, so that both views show the same and
undo moves back. ``share`` is how much of the movement is over, from 0 to 1.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from trainer.picture.model import Item, Line
from trainer.picture.solids import Solid, Stander
from trainer.picture.struts import Strut, struts
from trainer.picture.timbers import RUNS
from trainer.plan import Point
from trainer.roof.model import Point3
from trainer.site.model import Site

Flat = Callable[[tuple[Point3, ...]], tuple[Point, ...]]
LIFT = 1600.0
"""How high over its way a truss is carried, mm."""
FROM = 3200.0
"""How far outside the plates its pack lies, mm."""
CHALK = 130.0
"""How far a chalk line is struck beyond the plate on either side, mm."""
SLACK = 320.0
"""How far a string hangs out before it is pulled straight, mm."""
CLOSES = 420.0
"""From how large a ring closes where an anchor goes in or something is looked at, mm."""
RING = 60.0
"""How large it is at last, mm."""
MOST = 24
"""No more than this moves at once: of many, the first."""


@dataclass(frozen=True)
class Movement:
    """What moves from ``before`` to ``after``: trusses that come or go, those that change, lines, and places."""

    came: tuple[Solid, ...]
    went: tuple[Solid, ...]
    changed: tuple[tuple[Solid, Solid], ...]
    runs: tuple[Strut, ...]
    off: tuple[Strut, ...]
    struck: tuple[tuple[Point3, Point3], ...]
    places: tuple[Point3, ...]
    yard: float

    def __bool__(self) -> bool:
        return any((self.came, self.went, self.changed, self.runs, self.off, self.struck, self.places))


def movement(before: Site, after: Site, stander: Stander, times: float = 1.0) -> Movement:
    """Return what one act, or taking it back, moves; a fall is shown by itself."""
    if (before.fall is None) != (after.fall is None):
        return Movement((), (), (), (), (), (), (), 0.0)
    tags = [tag for tag in after.stood if tag in before.stood and _differs(before, after, tag)]
    changed = tuple((stander.solid(before, tag, times), stander.solid(after, tag, times)) for tag in tags[:MOST])
    came = tuple(stander.solid(after, tag, times) for tag in after.stood if tag not in before.stood)
    went = tuple(stander.solid(before, tag, times) for tag in before.stood if tag not in after.stood)
    y = min(corner[1] for corner in after.layout.house.plan.outline)
    return Movement(
        came[:MOST], went[:MOST], changed, _new_runs(before, after, stander), _new_runs(after, before, stander),
        tuple(_struck(before, after))[:MOST], tuple(_places(before, after))[:MOST], y - FROM,
    )  # fmt: skip


def _differs(before: Site, after: Site, tag: str) -> bool:
    return before.stood[tag] != after.stood[tag] or before.plumbed.get(tag) != after.plumbed.get(tag)


def _new_runs(before: Site, after: Site, stander: Stander) -> tuple[Strut, ...]:
    """Return the bracing and strings that are on one site and not on the other."""
    fresh = replace(
        after,
        bracing=tuple(piece for piece in after.bracing if piece not in before.bracing),
        strings=tuple(string for string in after.strings if string not in before.strings),
        permanent=tuple(piece for piece in after.permanent if piece not in before.permanent),
    )
    if not (fresh.bracing or fresh.strings or fresh.permanent):
        return ()
    of = {tag for piece in fresh.bracing for tag in piece.tags}
    of |= {tag for string in fresh.strings for tag in string}
    of |= {tag for piece in fresh.permanent for tag, _run in piece.crosses}
    solids = {tag: stander.solid(after, tag) for tag in after.stood if tag in of}
    return tuple(struts(fresh, solids))[: 4 * MOST]


def _struck(before: Site, after: Site) -> Iterator[tuple[Point3, Point3]]:
    """Yield the chalk lines that are on the walls of one site and not on the other, from outside to inside."""
    plan = after.layout.house.plan
    for name, marks in after.marks.items():
        wall = plan.by_name.get(name)
        old = before.marks.get(name, ())
        for at in marks if wall is not None else ():
            if at not in old and wall is not None:
                (x, y), (nx, ny), deep = wall.at(at), wall.inward, plan.plate_width + CHALK
                yield (x - nx * CHALK, y - ny * CHALK, 0.0), (x + nx * deep, y + ny * deep, 0.0)


def _places(before: Site, after: Site) -> Iterator[Point3]:
    """Yield where an anchor or a part went in or came off, and what was looked at or cut."""
    for one, other in ((before, after), (after, before)):
        for (tag, at), fastened in other.fixed.items():
            if one.fixed.get((tag, at)) != fastened and tag in other.stood:
                stood = other.stood[tag]
                place = (stood.start if at == 1 else stood.finish) if isinstance(at, int) else at
                yield (*place, 0.0)
        for tag, parts in other.fitted.items():
            for part in parts:
                if part not in one.fitted.get(tag, ()) and tag in other.stood:
                    yield _along(other, tag, part.at)
        for tag in {*other.inspected, *other.cuts}:
            looked = (one.inspected.get(tag), one.cuts.get(tag)) != (other.inspected.get(tag), other.cuts.get(tag))
            if looked and tag in other.stood:
                yield _along(other, tag, None)


def _along(site: Site, tag: str, at: float | None) -> Point3:
    """Return a place on a truss, so many mm from its ``from`` end, or its middle."""
    stood = site.stood[tag]
    (ax, ay), (bx, by) = stood.start, stood.finish
    t = 0.5 if at is None else at / (math.dist(stood.start, stood.finish) or 1.0)
    return ax + (bx - ax) * t, ay + (by - ay) * t, 0.0


def items(moves: Movement, share: float, flat: Flat) -> list[Item]:
    """Return what moves as it is now; ``flat`` lays places in space on the paper."""
    t = share * share * (3 - 2 * share)
    found: list[Item] = [_carried(solid, t, moves.yard, flat) for solid in moves.came]
    found += [_carried(solid, 1 - t, moves.yard, flat) for solid in moves.went]
    for old, new in moves.changed:
        places = zip(old.rim, new.rim, strict=False)
        found.append(Line(flat(tuple(_between(a, b, t) for a, b in places)), "mark", 3.0))
    for strut in moves.runs:
        found.append(_pulled(strut, t, flat) if strut.run == "string" else _run_out(strut, t, flat))
    found += [_run_out(strut, 1 - t, flat) for strut in moves.off]
    found += [Line(flat((a, _between(a, b, t))), "mark", 3.0) for a, b in moves.struck]
    found += [_ring(place, CLOSES + (RING - CLOSES) * t, flat) for place in moves.places]
    return found


def in_plan(places: tuple[Point3, ...]) -> tuple[Point, ...]:
    """Lay places in space flat, as the plan has them."""
    return tuple((x, y) for x, y, _z in places)


def _between(a: Point3, b: Point3, t: float) -> Point3:
    return a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t


def _carried(solid: Solid, t: float, yard: float, flat: Flat) -> Line:
    """Return a truss on its way from the pack, ``yard`` being where those lie: it turns, and is carried high."""
    (ax, ay), (bx, by) = solid.start, solid.finish
    middle, half = ((ax + bx) / 2, (ay + by) / 2), math.dist(solid.start, solid.finish) / 2
    way = math.atan2(by - ay, bx - ax) * t  # in the pack it lies along wall A
    x, y = middle[0], yard + (middle[1] - yard) * t
    dx, dy = half * math.cos(way), half * math.sin(way)
    moved = replace(solid, start=(x - dx, y - dy), finish=(x + dx, y + dy))
    up = LIFT * math.sin(math.pi * t)
    return Line(flat(tuple((px, py, z + up) for px, py, z in moved.rim)), "timber_edge", 3.0)


def _run_out(strut: Strut, t: float, flat: Flat) -> Line:
    role, wide, _dash = RUNS[strut.run]
    return Line(flat((strut.a, _between(strut.a, strut.b, t))), role, wide + 2.0)


def _pulled(strut: Strut, t: float, flat: Flat) -> Line:
    """Return a string that is still slack: it hangs out to one side."""
    (ax, ay, _az), (bx, by, _bz) = strut.a, strut.b
    long = math.dist((ax, ay), (bx, by)) or 1.0
    nx, ny = -(by - ay) / long, (bx - ax) / long
    places = []
    for k in range(9):
        x, y, z = _between(strut.a, strut.b, k / 8)
        out = SLACK * (1 - t) * math.sin(math.pi * k / 8)
        places.append((x + nx * out, y + ny * out, z - out / 2))
    return Line(flat(tuple(places)), "string", 2.4)


def _ring(place: Point3, radius: float, flat: Flat) -> Line:
    x, y, z = place
    turns = [math.tau * k / 16 for k in range(17)]
    return Line(flat(tuple((x + radius * math.cos(a), y + radius * math.sin(a), z) for a in turns)), "mark", 2.4)
