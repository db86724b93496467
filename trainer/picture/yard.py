"""The yard: the packs as they lie, and what a look at a delivered truss shows."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator

from trainer.layout import Layout
from trainer.layout.webs import WEB
from trainer.picture.frame import Framed
from trainer.picture.lettering import text_width
from trainer.picture.model import Box, Item, Line, Polygon, Text
from trainer.picture.trusses import FILLS
from trainer.plan import Point
from trainer.site.delivery import Pack
from trainer.words import _

BAR, GAP, BEARER = 0.0055, 0.0015, 0.008
"""Height of one truss lying in a pack, of the air over it and of the bearers, as parts of the whole's width."""
FAULTS = {
    "broken web": _("A web is broken."),
    "loose nailplate": _("A nailplate is loose."),
    "unwanted tail": _("It has a tail where none belongs."),
}
"""What is seen on a truss, in words. Swapped tags are seen by the measures alone."""
SIGN_PX = 10.0
"""How far over what is wrong the line to its words begins, px."""
GUTTER = 10.0
"""Least room between what is in one pack and in the next, px."""


def stacks(packs: Iterable[Pack], layout: Layout, chosen: str, box: Box, letters: float) -> Iterator[Item]:
    """Yield the packs beside each other along the foot of ``box``, each truss as long as it is to the others.

    Lettering is ``letters`` mm a px.
    """
    lying = [pack for pack in packs if pack.tags]
    if not lying:
        return
    left, foot, right, _top = box
    room = (right - left) / len(lying)
    longest = max(layout.by_tag[tag].span for pack in lying for tag in pack.tags)
    up = foot_room(lying, right - left, letters)
    for number, pack in enumerate(lying):
        at = (left + room * number, foot + up)
        yield from _stack(pack, layout, chosen, at, room * 0.86 / longest, right - left)
        yield from _label(pack, (at[0], at[1] - BEARER * (right - left)), room, letters)


def foot_room(packs: Iterable[Pack], width: float, letters: float) -> float:
    """Return the height that the names of the packs take under them, and what is in them where it has room, mm."""
    lying = [pack for pack in packs if pack.tags]
    lines = max((len(_contents(pack, width / len(lying), letters)) for pack in lying), default=0)
    return BEARER * width + (24 + 16 * lines) * letters


def _contents(pack: Pack, room: float, letters: float) -> list[str]:
    """Return what is in a pack, a line for each kind; nothing where a line has no room. Where it lies badly is said."""
    kinds = Counter(tag.rstrip("0123456789") for tag in pack.tags)
    lines = [f"{count} {kind}" for kind, count in kinds.items()]
    lines = lines if (max(text_width(line, 13.0) for line in lines) + GUTTER) * letters < room else []
    return [*lines, _("on wall {wall}").format(wall=pack.on_wall)] if pack.on_wall else lines


def _stack(pack: Pack, layout: Layout, chosen: str, at: Point, scale: float, whole: float) -> Iterator[Item]:
    """Yield the trusses of a pack on two bearers; ``whole`` is the width that all packs have."""
    x, z = at
    bar, step, high = BAR * whole, (BAR + GAP) * whole, BEARER * whole
    widest = max(layout.by_tag[tag].span for tag in pack.tags) * scale
    for bearer in (x + widest * 0.15, x + widest * 0.75):
        corners = ((bearer, z - high), (bearer + high, z - high), (bearer + high, z), (bearer, z))
        yield Polygon(corners, "plate", "plate_edge")
    for level, tag in enumerate(reversed(pack.tags)):
        member = layout.by_tag[tag]
        low, inset = z + level * step, (widest - member.span * scale) / 2
        a, b = x + inset, x + widest - inset
        corners = ((a, low), (b, low), (b, low + bar), (a, low + bar))
        edge, wide = ("mark", 2.4) if tag == chosen else ("timber_edge", 0.8)
        yield Polygon(corners, "select" if tag == chosen else FILLS.get(member.kind, "timber"), edge, wide)


def _label(pack: Pack, at: Point, room: float, letters: float) -> Iterator[Item]:
    """Yield a pack's name under it, and what is in it."""
    x, z = at
    name = _("Pack {n}").format(n=pack.number)
    name = name if (text_width(name, 14.0) + GUTTER) * letters < room else str(pack.number)
    yield Text((x, z - 12 * letters), name, "ink", 14.0, "px", "start", bold=True)
    lines = _contents(pack, room, letters)
    for number, line in enumerate(lines, 2):
        role = "accent" if pack.on_wall and number == len(lines) + 1 else "faint"
        yield Text((x, z - (16 * number - 4) * letters), line, role, 13.0, "px", "start")


def faults(framed: Framed, shown: Iterable[str], letters: float, *, named: bool) -> Iterator[Item]:
    """Yield what is wrong with a delivered truss as one sees it; where it may be ``named``, in words as well.

    Lettering is ``letters`` mm a px.
    """
    for number, fault in enumerate(what for what in shown if what in FAULTS):
        at = _place(framed, fault)
        yield from _sign(fault, at, framed, letters)
        if named:
            # The words stand over the middle of the truss, where a small one has most room for them.
            line = framed.high + 26 * letters
            yield Line(((at[0], at[1] + SIGN_PX * letters), (at[0], line)), "ink", 1.2)
            place = (framed.member.span / 2, line + number * 22 * letters)
            yield Text(place, FAULTS[fault], "ink", 15.0, "px", bold=True, ground="paper", off=(0.0, 0.7))


def _broken(framed: Framed) -> int:
    """Return the web that is broken, by its number."""
    return len(framed.frame.webs) // 2


def _place(framed: Framed, fault: str) -> Point:
    webs = framed.frame.webs
    if fault == "broken web" and webs:
        return webs[_broken(framed)].middle
    if fault == "unwanted tail":
        bare = next((i for i, end in enumerate(framed.member.ends) if not end.tail), 1)
        run = framed.member.span * bare
        return run, framed.roof(run)
    high = framed.peaks[0]
    return high, framed.roof(high) - 60


def _sign(fault: str, at: Point, framed: Framed, letters: float) -> Iterator[Item]:
    x, z = at
    if fault == "broken web":
        yield from _break(at, framed)
    elif fault == "loose nailplate":
        yield Polygon(((x - 80, z + 50), (x + 70, z + 95), (x + 95, z + 10), (x - 55, z - 35)), "fastener", "ink", 1.0)
    else:
        out = 620.0 if x > framed.member.span / 2 else -620.0
        yield Line(((x, z), (x + out, z - 260)), "ink", 3.0, "px", (7.0, 4.0))


def _break(at: Point, framed: Framed) -> Iterator[Item]:
    """Yield a gap across the broken web with splintered ends: as wide as the web, square to it."""
    web = framed.frame.webs[_broken(framed)] if framed.frame.webs else None
    (lx, lz), (hx, hz) = (web.low, web.high) if web else (at, (at[0], at[1] + 1))
    length = math.dist((lx, lz), (hx, hz)) or 1.0
    ux, uz = (hx - lx) / length, (hz - lz) / length
    half, gap = WEB / 2 + 14, min(45.0, length * 0.12)

    def place(up: float, aside: float) -> Point:
        return at[0] + ux * up - uz * aside, at[1] + uz * up + ux * aside

    steps = [(-half, -0.35), (-half / 3, 0.5), (half / 3, -0.5), (half, 0.35)]
    upper = tuple(place(gap + jag * gap, aside) for aside, jag in steps)
    lower = tuple(place(-gap + jag * gap, aside) for aside, jag in steps)
    yield Polygon((*upper, *reversed(lower)), "paper")
    yield Line(upper, "ink", 2.2)
    yield Line(lower, "ink", 2.2)
