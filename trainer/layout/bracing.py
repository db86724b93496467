"""The plan of permanent bracing: what each truss needs of it, and one right way to put it in.

Where a piece lies follows from the level's own values (:class:`BracingSpec`), by common practice, no source.
A :class:`Want` says what one truss needs; a :class:`Restraint` is one piece of the reference plan, with the
wants that it serves. Any other pieces that serve the same wants are as right.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial
from itertools import chain, pairwise
from typing import Literal, get_args

from trainer.layout.model import Layout, Member
from trainer.layout.roof_braces import Bearing, Slope, legs
from trainer.layout.row_lines import RowLines, Side, row_lines
from trainer.layout.under_saddles import Covered, covered_rows
from trainer.layout.webs import webs
from trainer.plan import Point

RestraintKind = Literal["roof brace", "bottom-chord tie", "web tie", "top-chord tie", "end brace"]
KINDS: tuple[RestraintKind, ...] = get_args(RestraintKind)
ShortRows = Literal["one brace", "cross"]
"""What a row that is too short for a cross within the angles gets on each slope."""
AT_END = 400.0
"""An end brace is within this of the outside of the plate, mm."""
MIDDLE = 6.0
"""A tie along webs is at the middle of one within its reach in plan over this, either way: in its middle third."""
SLACK = 60.0
"""How near to a place along a truss a piece must lie to be at it, mm."""


@dataclass(frozen=True, slots=True)
class BracingSpec:
    """The bracing that a level asks for: which kinds of permanent bracing, and its own values, mm and degrees.

    ``web_ties_over``: longer webs are tied at their middles. ``under_saddles``: largest gap between ties along
    the top chords where saddles keep the battens off them. ``batten_rows``: largest gap between rows of battens
    along the top chords while trusses go up. ``short_rows``: roof braces on a row that is too short for a cross.
    """

    asked: frozenset[RestraintKind] = frozenset()
    least_angle: float = 30.0
    most_angle: float = 60.0
    bottom_chord_ties: float = 4000.0
    web_ties_over: float = 2000.0
    under_saddles: float = 1200.0
    batten_rows: int = 3000
    short_rows: ShortRows = "one brace"


@dataclass(frozen=True, slots=True)
class Want:
    """What the truss in the place ``tag`` needs between ``first`` and ``last``, mm of run from its ``from``.

    With a ``gap``: pieces so close that no more than that is left without one, give or take :data:`SLACK`. With
    none: at least one piece.
    """

    tag: str
    first: float
    last: float
    gap: float = 0.0

    def served_by(self, runs: list[float]) -> bool:
        """Whether pieces at these runs are enough."""
        if not self.gap:
            return any(self.first <= run <= self.last for run in runs)
        return self.widest_gap(runs) <= self.gap + SLACK

    def widest_gap(self, runs: list[float]) -> float:
        """The longest stretch without a piece, mm."""
        stops = [self.first, *sorted(run for run in runs if self.first <= run <= self.last), self.last]
        return max(b - a for a, b in pairwise(stops))


@dataclass(frozen=True)
class Restraint:
    """One piece of the plan: a straight line from ``start`` to ``finish`` in plan, over the trusses ``over``.

    ``group`` names the pieces that serve the same wants together; ``side`` the bearing under the slope it is on.
    """

    kind: RestraintKind
    name: str
    group: str
    row: str
    start: Point
    finish: Point
    over: tuple[str, ...]
    wants: tuple[Want, ...]
    side: str = ""


def bracing_plan(layout: Layout, spec: BracingSpec) -> tuple[Restraint, ...]:
    """Return the reference plan of permanent bracing, row by row; empty where the level asks for none."""
    drawn = chain(_by_rows(layout, spec), _under_saddles(layout, spec))
    numbers = dict.fromkeys(KINDS, 0)
    found = []
    for piece in drawn:
        if piece.kind in spec.asked and len(piece.over) > 1:
            numbers[piece.kind] += 1
            name = f"{piece.kind} {numbers[piece.kind]}"
            found.append(replace(piece, name=name, group=piece.group or name))
    return tuple(found)


def _by_rows(layout: Layout, spec: BracingSpec) -> Iterator[Restraint]:
    for lines in row_lines(layout):
        for side in lines.sides:
            yield from _roof_braces(layout, spec, lines, side)
        yield from _bottom_chord_ties(spec, lines)
        yield from _web_ties(layout, spec, lines)
        for side in lines.sides:
            yield from _end_braces(layout, lines, side)


def _roof_braces(layout: Layout, spec: BracingSpec, lines: RowLines, side: Side) -> Iterator[Restraint]:
    """From the plate up to the ridge, so that every full-height truss is crossed, and both ways are there."""
    full = lines.at_ridge
    if len(full) < 2 or lines.reach[0 if side == 1 else 1] != lines.eave(side):
        return
    tops = tuple(map(lines.u, full))
    rise = abs(lines.top(side) - lines.eave(side))
    slope = Slope(tops, rise, spec.least_angle, spec.most_angle, partial(_foot, layout, lines, side))
    group = f"{lines.row} roof braces from {lines.eave(side):g}" if slope.crossed else ""
    found = legs(slope)
    if slope.short and spec.short_rows == "one brace" and lines.face is None:
        found = found[:1] if side == 1 else found[-1:]
    for leg in found:
        yield replace(_roof_brace(lines, side, (leg.foot, leg.top)), group=group)


def _roof_brace(lines: RowLines, side: Side, us: tuple[float, float]) -> Restraint:
    foot, top = (float(round(u)) for u in us)
    low, high = min(foot, top), max(foot, top)
    eave, ridge = lines.eave(side), lines.top(side)
    near = SLACK * (high - low) / math.hypot(high - low, ridge - eave)
    over, wants = [], []
    for member in lines.members:
        u = lines.u(member)
        if not low - near <= u <= high + near:
            continue
        v = eave + (ridge - eave) * (u - foot) / (top - foot)
        over.append(member.tag)
        if (member.full_height or member.kind == "girder") and low - 1 <= u <= high + 1:
            wants.append(Want(member.tag, *lines.between(member, eave - (ridge - eave), ridge)))
        elif member.kind == "gable" and abs(v - ridge) < 1:
            over.pop()
    bearing = lines.at_ridge[0]
    return Restraint(
        "roof brace", "", "", lines.row, lines.spot(foot, eave), lines.spot(top, ridge), tuple(over),
        tuple(wants), bearing.ends[lines.end(bearing, side)].bears_on,
    )  # fmt: skip


def _foot(layout: Layout, lines: RowLines, side: Side, u: float) -> Bearing:
    """What a roof brace can be tied down to at ``u`` on that side, under the row's own roof."""
    rect = next(wing.rect for wing in layout.wings if wing.id == lines.members[0].wing)
    if not rect[lines.along] <= u <= rect[lines.along + 2]:
        return ""  # the plate may go on, but under the roof of another part
    x, y = lines.spot(round(u), lines.eave(side))
    for wall in layout.house.plan.walls:
        if min(wall.a[0], wall.b[0]) <= x <= max(wall.a[0], wall.b[0]) and (
            min(wall.a[1], wall.b[1]) <= y <= max(wall.a[1], wall.b[1])
        ):
            return "plate"
    across, along = 1 - lines.along, lines.along
    for girder in (member for member in layout.members if member.kind == "girder"):
        near = abs(girder.start[across] - lines.eave(side)) <= girder.width
        ends = sorted((girder.start[along], girder.finish[along]))
        if near and ends[0] <= u <= ends[1]:
            return "girder"
    return ""


def _bottom_chord_ties(spec: BracingSpec, lines: RowLines) -> Iterator[Restraint]:
    """Along the whole row, from its first truss to its last, evenly between the plates."""
    low, high = lines.reach
    count = math.ceil((high - low) / spec.bottom_chord_ties) - 1
    tied = lines.of_kind("standard", "truncated", "half")
    wants = tuple(Want(member.tag, 0.0, member.span, spec.bottom_chord_ties) for member in tied)
    for k in range(1, count + 1):
        v = float(round(low + (high - low) * k / (count + 1)))
        yield _tie("bottom-chord tie", f"{lines.row} bottom-chord ties", lines, v, list(lines.members), wants)


def _web_ties(layout: Layout, spec: BracingSpec, lines: RowLines) -> Iterator[Restraint]:
    """Along the middles of the long webs of the full-height trusses."""
    middles: list[tuple[float, float, Member]] = []
    for member in lines.full_height:
        for web in webs(member, layout.house).webs:
            if web.length > spec.web_ties_over:
                middles.append((lines.v(member, web.middle[0]), abs(web.high[0] - web.low[0]) / MIDDLE, member))
    while middles:
        v = min(middles, key=lambda middle: middle[0])[0]
        line = [middle for middle in middles if middle[0] - v <= 2 * SLACK]
        middles = [middle for middle in middles if middle not in line]
        v = float(round(sum(middle[0] for middle in line) / len(line)))
        wants = tuple(
            Want(m.tag, lines.run(m, at) - reach - SLACK, lines.run(m, at) + reach + SLACK) for at, reach, m in line
        )
        yield _tie("web tie", "", lines, v, [m for _, _, m in line], wants)


def _tie(
    kind: RestraintKind, group: str, lines: RowLines, v: float, over: list[Member], wants: tuple[Want, ...]
) -> Restraint:
    over = sorted(over, key=lines.u)
    ends = (lines.spot(lines.u(over[0]), v), lines.spot(lines.u(over[-1]), v))
    return Restraint(kind, "", group, lines.row, *ends, tuple(m.tag for m in over), wants)


def _end_braces(layout: Layout, lines: RowLines, side: Side) -> Iterator[Restraint]:
    """Between the first two and the last two trusses of a row, over the plate."""
    plate = layout.house.plan.plate_width / 2
    v = lines.eave(side) + (plate if side == 1 else -plate)
    on_plate = [
        member
        for member in lines.of_kind("standard", "truncated", "truncated_girder", "half", "girder")
        if member.ends[lines.end(member, side)].on_plate
    ]
    for pair in dict.fromkeys((tuple(on_plate[:2]), tuple(on_plate[-2:]))):
        wants = tuple(
            Want(m.tag, *lines.between(m, lines.eave(side) - AT_END, lines.eave(side) + AT_END)) for m in pair
        )
        if len(pair) == 2:
            side_of = pair[0].ends[lines.end(pair[0], side)].bears_on
            yield replace(_tie("end brace", "", lines, v, list(pair), wants), side=side_of)


def _under_saddles(layout: Layout, spec: BracingSpec) -> Iterator[Restraint]:
    """Along the top chords that saddles cover, from valley to valley, evenly up the slope."""
    by_row = {lines.row: lines for lines in row_lines(layout)}
    for covered in covered_rows(layout, by_row):
        lines, deepest = by_row[covered.row], max((depth for _, depth in covered.trusses), default=0.0)
        count = math.ceil(deepest / spec.under_saddles) - 1
        wants = tuple(
            _lane(lines, covered, m, depth, spec) for m, depth in covered.trusses if depth > spec.under_saddles
        )
        for k in range(1, count + 1):
            d = deepest * k / (count + 1)
            over = [m for m, depth in covered.trusses if depth >= d - SLACK]
            if len(over) > 1:
                yield _tie(
                    "top-chord tie", f"{covered.name} top-chord ties", lines, float(round(covered.at(d))), over, wants
                )


def _lane(lines: RowLines, covered: Covered, member: Member, depth: float, spec: BracingSpec) -> Want:
    return Want(member.tag, *lines.between(member, covered.at(0.0), covered.at(depth)), spec.under_saddles)
