"""The trusses of a house as leaves of card: where each begins and ends, so that none stands in another."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from shapely.geometry import LineString
from shapely.geometry import Point as Spot
from shapely.strtree import STRtree

from trainer.layout import Layout, Member
from trainer.layout.slopes import height_on
from trainer.picture.card import CARD, SAME, STRIP, TAIL, Leaf, face
from trainer.picture.trusses import along

JOINT = 2.4
"""What holds a tail to its truss, square to the roof, mm of paper."""
STEP = 0.5
"""How far card goes down past the top of the plate is a whole number of these, mm of paper."""
BESIDE = 2 * CARD
"""How far a jack stands aside of a hip that meets its girder at the same place, mm of paper."""


def below_plate(layout: Layout, scale: int) -> float:
    """Return how far the card of a model goes on past the top of the plates, mm, so that every tail has a joint."""
    steep = math.cos(math.radians(layout.house.roof.pitch))
    need = [
        JOINT * scale / steep - height
        for member in layout.members
        for number, end in enumerate(member.ends)
        for height in [_top_at(member, member.span * number)]
        if end.tail and end.on_plate
    ]
    return max(0, math.ceil(max(need, default=0.0) / (STEP * scale))) * STEP * scale


def _top_at(member: Member, run: float) -> float:
    return height_on(member.top, min(max(run, member.top[0][0]), member.top[-1][0])) or 0.0


def saddle_base(member: Member) -> float:
    """Height at which a saddle sits on the roof below, mm."""
    return min(member.top[0][1], member.top[-1][1])


def leaves(layout: Layout, scale: int) -> dict[str, Leaf]:
    """Return the leaf of each truss: ended at the faces of what carries it and of what it comes up against."""
    low = below_plate(layout, scale)
    deep = max(90.0 / math.cos(math.radians(layout.house.roof.pitch)), TAIL * scale)
    lines = {member.tag: LineString([along(member, run) for run, _z in _ends(member)]) for member in layout.members}
    beside = _meetings(layout, lines)
    found = {}
    for member in layout.members:
        body = [0.0, member.span]
        for number, end in enumerate(member.ends):
            carrier = layout.by_tag.get(end.bears_on)
            if carrier is not None and member.kind != "saddle":
                inward = -1 if number else 1
                body[number] += inward * face(member.direction, carrier.direction, scale)
        tips = [min(member.top[0][0], body[0]) if _runs_on(member, 0) else body[0],
                max(member.top[-1][0], body[1]) if _runs_on(member, 1) else body[1]]  # fmt: skip
        for number in (0, 1):
            if _runs_on(member, number):
                short = max((face(member.direction, o.direction, scale) for o in beside[member.tag, number]), default=0)
                tips[number] += -short if number else short
        runs_on = member.kind in ("hip", "jack")
        found[member.tag] = Leaf(
            member,
            saddle_base(member) if member.kind == "saddle" else -low,
            (body[0], body[1]),
            (tips[0], tips[1]),
            deep,
            STRIP * scale if runs_on else deep,
            _aside(layout, member, scale),
        )
    return _tails_cut(found, scale)


def _runs_on(member: Member, number: int) -> bool:
    """Whether a truss runs on past one of its bearings, 0 or 1: a tail or an extension."""
    return member.top[-1][0] > member.span + 1 if number else member.top[0][0] < -1


def _ends(member: Member) -> tuple[tuple[float, float], tuple[float, float]]:
    return member.top[0], member.top[-1]


def _meetings(layout: Layout, lines: Mapping[str, LineString]) -> dict[tuple[str, int], list[Member]]:
    """What the card of each truss comes up against at its two very ends: what lies there in plan, but not along it."""
    tree, members = STRtree(list(lines.values())), layout.members
    found: dict[tuple[str, int], list[Member]] = {}
    for member in members:
        for number, (run, z) in enumerate(_ends(member)):
            spot = Spot(along(member, run))
            others = [members[int(i)] for i in tree.query(spot.buffer(1)) if members[int(i)] is not member]
            found[member.tag, number] = [
                other
                for other in others
                if lines[other.tag].distance(spot) <= 1
                and not _parallel(member, other)
                and _top_at(other, other.run((spot.x, spot.y))) >= z - 1
            ]
    return found


def _parallel(one: Member, other: Member) -> bool:
    (ax, ay), (bx, by) = one.direction, other.direction
    return abs(ax * by - ay * bx) < 0.1


def _aside(layout: Layout, member: Member, scale: int) -> float:
    """How far to the left of its line a jack's card stands: clear of a hip that meets its girder where it does."""
    if member.kind != "jack":
        return 0.0
    (x, y), (ux, uy) = member.start, member.direction
    for tag in layout.carries[member.ends[1].bears_on] if member.ends[1].bears_on in layout.by_tag else ():
        hip = layout.by_tag[tag]
        if hip.kind == "hip" and math.dist(hip.finish, member.finish) < BESIDE * scale:
            left = (hip.start[1] - y) * ux - (hip.start[0] - x) * uy
            return -math.copysign(BESIDE * scale, left)
    return 0.0


def crossings(leaves_by_tag: Mapping[str, Leaf]) -> Iterator[tuple[Leaf, Leaf, float, float]]:
    """Yield each two leaves whose lines cross in plan, with the run of each there, mm."""
    all_of = list(leaves_by_tag.values())
    lines = [LineString([leaf.place(leaf.card[0]), leaf.place(leaf.card[1])]) for leaf in all_of]
    firsts, seconds = STRtree(lines).query(lines, predicate="intersects").tolist()
    for i, j in sorted((i, j) for i, j in zip(firsts, seconds, strict=True) if i < j):
        one, other = all_of[i], all_of[j]
        if _parallel(one.member, other.member):
            continue
        at = lines[i].intersection(lines[j])
        yield one, other, one.member.run((at.x, at.y)), other.member.run((at.x, at.y))


def shared(one: Leaf, other: Leaf, run: float, beneath: float, scale: int) -> tuple[float, float] | None:
    """Return from where to where two leaves would share space at a crossing, mm up; None where they don't."""
    a, b = one.up_and_down(run), other.up_and_down(beneath)
    if a is None or b is None:
        return None
    low, high = max(a[0], b[0]), min(a[1], b[1])
    return (low, high) if high - low > SAME * scale else None


def _tails_cut(found: dict[str, Leaf], scale: int) -> dict[str, Leaf]:
    """Cut the shorter of two tails that would cross at an inside corner where it comes to the other."""
    for one, other, run, beneath in list(crossings(found)):
        if not (_in_tail(one, run) and _in_tail(other, beneath)):
            continue
        if shared(found[one.tag], found[other.tag], run, beneath, scale) is None:
            continue
        clear = face(one.direction, other.direction, scale)
        out = beneath - clear if beneath > other.body[1] else beneath + clear
        found[other.tag] = found[other.tag].cut_short(out)
    return found


def _in_tail(leaf: Leaf, run: float) -> bool:
    return run < leaf.body[0] or (run > leaf.body[1] and leaf.member.kind not in ("hip", "jack"))
