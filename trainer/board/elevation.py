"""A truss seen from the side, from its own roof line: chords, simple webs, bearings, and which end is which."""

from __future__ import annotations

from trainer.layout import Member
from trainer.picture.model import Box, Item, Line, Polygon, Text
from trainer.picture.trusses import FILLS
from trainer.plan import Point

CHORD = 90.0
"""Depth of the chords as drawn, mm; a look only."""


def elevation(member: Member, *, mirrored: bool) -> tuple[list[Item], Box]:
    """Return the truss with its ``from`` end at the left (at the right if ``mirrored``), and the box round it."""
    items = _timbers(member) + _bearings(member)
    xs = [run for run, _z in member.top] + [0.0, member.span]
    zs = [z for _run, z in member.top]
    box = (min(xs) - 250, min(*zs, base(member) - 160.0) - 220, max(xs) + 250, max(zs) + 120)
    if mirrored:
        items = [_mirror(item) for item in items]
        box = (-box[2], box[1], -box[0], box[3])
    return items, box


def _timbers(member: Member) -> list[Item]:
    fill = FILLS.get(member.kind, "timber")
    items: list[Item] = []
    for a, b in _webs(member):
        items.append(Line((a, b), "timber_edge", 60.0, "mm"))
        items.append(Line((a, b), fill, 44.0, "mm"))
    low = base(member)
    chord = ((0.0, low), (member.span, low), (member.span, low + CHORD), (0.0, low + CHORD))
    items.append(Polygon(chord, fill, "timber_edge", 1.2))
    under = tuple((run, z - CHORD) for run, z in reversed(member.top))
    items.append(Polygon((*member.top, *under), fill, "timber_edge", 1.2))
    return items


def base(member: Member) -> float:
    """Return how high the underside of the bottom chord lies over the plate: a saddle sits on other trusses."""
    return min(member.top[0][1], member.top[-1][1]) - CHORD if member.kind == "saddle" else 0.0


def height_at(member: Member, run: float) -> float:
    """Return the roof line's height over the plate at a run along the truss, mm."""
    for (a, za), (b, zb) in zip(member.top, member.top[1:], strict=False):
        if a <= run <= b:
            return za + (zb - za) * (run - a) / ((b - a) or 1.0)
    return member.top[0][1] if run < member.top[0][0] else member.top[-1][1]


def _webs(member: Member) -> list[tuple[Point, Point]]:
    """Return a plain pattern of webs, the same for every truss of a kind; the level's drawings decide on a job."""
    span = member.span
    foot = base(member)
    if span < 1500 or height_at(member, span / 2) - foot < 350:
        return []
    highest = max(z for _run, z in member.top)
    peaks = [run for run, z in member.top if z > highest - 1 and 0 < run < span] or [span]
    half = CHORD / 2
    low = foot + half
    one, other = span / 3, span * 2 / 3
    tops = [(run, height_at(member, run) - half) for run in (peaks[0] / 2, peaks[0])]
    webs = [(tops[0], (one, low)), ((one, low), tops[1])]
    last = peaks[-1]
    if last < span:
        side = (last + span) / 2
        webs += [((last, highest - half), (other, low)), ((other, low), (side, height_at(member, side) - half))]
        if last > peaks[0] + 600:
            middle = ((peaks[0] + last) / 2, highest - half)
            webs += [((one, low), middle), (middle, (other, low))]
    else:
        webs.append(((span - half, low), (span - half, height_at(member, span) - half)))
    return [(a, b) for a, b in webs if abs(a[1] - b[1]) > 60]


def _bearings(member: Member) -> list[Item]:
    """Return a plate or a bracket under each end, with the end's number."""
    items: list[Item] = []
    low = base(member)
    for number, (end, run, inward) in enumerate(zip(member.ends, (0.0, member.span), (1, -1), strict=True), start=1):
        if end.on_plate:
            a, b = run, run + inward * 90
            items.append(Polygon(((a, -70), (b, -70), (b, 0), (a, 0)), "plate", "plate_edge", 1.2))
        else:
            hook = ((run + inward * 130, low - 30), (run - inward * 25, low - 30), (run - inward * 25, low + 200))
            items.append(Line(hook, "fastener", 2.5))
        items.append(Text((run + inward * 60, low - 190), str(number), "ink", 15.0, "px", bold=True))
    return items


def _mirror(item: Item) -> Item:
    if isinstance(item, Polygon):
        return Polygon(tuple((-x, z) for x, z in item.points), item.fill, item.edge, item.width, item.unit)
    if isinstance(item, Line):
        return Line(tuple((-x, z) for x, z in item.points), item.role, item.width, item.unit, item.dash)
    return Text((-item.at[0], item.at[1]), item.text, item.role, item.size, item.unit, bold=item.bold)
