"""What can be asked of the permanent bracing: what it crosses, whether it is sound, and what it leaves unserved."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import chain, pairwise
from typing import Literal

from trainer.layout.bracing import SLACK, Restraint, RestraintKind, Want
from trainer.layout.model import Member
from trainer.layout.row_lines import RowLines, Side
from trainer.plan import Point
from trainer.site.model import Restrained, Site

PAST_END = 150.0
"""A piece this near past an end of a truss, at a plate or a girder, still crosses it, mm."""
AT_RIDGE = 150.0
"""An end of a roof brace this near the ridge is at it, mm."""
ASIDE = 1000.0
"""Nothing that a line crosses stands further off it than this, mm: half a spacing from its place, and past its end."""
PAST_PLATE = 100.0
"""As much as an end may lie past a plate or a girder and still be taken round it, mm."""
JOINED = 150.0
"""Two ends of one line of bracing this near each other are joined, mm; common practice, no source."""
LAPPED = 200.0
"""Two ties on one truss this near each other are lapped, mm; common practice, no source."""
ANGLE = 0.5
"""Angles are measured no finer, degrees."""
AtEnd = Literal["plate", "ridge", "joined", "loose"]
"""What an end of a roof brace is fixed to: tied down round a plate or girder, at the ridge, on to another brace."""


def crosses(site: Site, lines: RowLines, start: Point, finish: Point) -> tuple[tuple[str, float], ...]:
    """Return the standing trusses of a row that a line crosses, as :class:`Restrained` keeps them."""
    one, other = start[1 - lines.along], finish[1 - lines.along]
    if max(one, other) < lines.low - ASIDE or min(one, other) > lines.high + ASIDE:
        return ()
    low, high = sorted((start[lines.along], finish[lines.along]))
    first, stop = bisect_left(lines.us, low - ASIDE), bisect_right(lines.us, high + ASIDE)
    found = []
    for member in lines.members[first:stop]:
        if (tag := site.at_place.get(member.tag)) is None:
            continue
        stood = site.stood[tag]
        ends = (stood.finish, stood.start) if stood.flipped else (stood.start, stood.finish)
        at = _cross(start, finish, *ends)
        if at is not None:
            found.append((tag, at))
    return tuple(found)


def on_own_slope(lines: RowLines, places: dict[str, Member], piece: Restrained) -> Restrained:
    """The same roof brace, where it lies on one slope: a truss that it meets at the ridge is crossed on that slope.

    ``places`` are the places of the trusses that it crosses.
    """
    past = [end[1 - lines.along] - lines.ridge for end in (piece.start, piece.finish)]
    lower = max(past, key=abs)
    if min(past, key=lambda v: v * lower) * lower < -AT_RIDGE * abs(lower):
        return piece  # it goes over the ridge and down the other slope
    moved = []
    for tag, run in piece.crosses:
        edge = lines.run(places[tag], lines.ridge + math.copysign(1.0, lower))
        toward_eave = 1 if lines.run(places[tag], lines.ridge + lower) > edge else -1
        moved.append((tag, max(run, edge) if toward_eave > 0 else min(run, edge)))
    return replace(piece, crosses=tuple(moved))


def _cross(a: Point, b: Point, p: Point, q: Point) -> float | None:
    """How far from ``p`` towards ``q`` the line from ``a`` to ``b`` crosses it, mm; none where it does not."""
    length, span = math.dist(a, b), math.dist(p, q)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    wx, wy = (q[0] - p[0]) / span, (q[1] - p[1]) / span
    turn = ux * wy - uy * wx
    if abs(turn) < math.sin(math.radians(1.0)):
        return None
    dx, dy = p[0] - a[0], p[1] - a[1]
    on_piece = (dx * wy - dy * wx) / turn
    on_truss = (dx * uy - dy * ux) / turn
    near = -SLACK <= on_piece <= length + SLACK and -PAST_END <= on_truss <= span + PAST_END
    return round(on_truss, 1) if near else None


def angle_to_trusses(site: Site, piece: Restrained) -> float:
    """Return the angle in plan between a piece and the trusses of its row, degrees from 0 to 90."""
    along = site.job.rows[piece.row].along
    du, dv = (abs(piece.finish[axis] - piece.start[axis]) for axis in (along, 1 - along))
    return math.degrees(math.atan2(du, dv))


def angle_is_right(site: Site, piece: Restrained) -> bool:
    """Whether a roof brace lies within the level's range of angles."""
    spec = site.job.bracing
    return spec.least_angle - ANGLE <= angle_to_trusses(site, piece) <= spec.most_angle + ANGLE


def foot_and_top(site: Site, piece: Restrained) -> tuple[AtEnd, AtEnd]:
    """Return what a roof brace is fixed to at its lower and its upper end."""
    foot, top = _ends_by_height(site, piece)
    return _at_end(site, piece, foot), _at_end(site, piece, top)


def _ends_by_height(site: Site, piece: Restrained) -> tuple[Point, Point]:
    """The lower and the upper end of a roof brace."""
    lines = site.job.rows[piece.row]
    foot, top = sorted((piece.start, piece.finish), key=lambda end: -abs(end[1 - lines.along] - lines.ridge))
    return foot, top


def past_plate(site: Site, piece: Restrained) -> bool:
    """Whether the lower end of a roof brace lies out beyond the plates of its row."""
    lines = site.job.rows[piece.row]
    across = _ends_by_height(site, piece)[0][1 - lines.along]
    return not lines.low - PAST_PLATE <= across <= lines.high + PAST_PLATE


def foot_truss(site: Site, piece: Restrained) -> str:
    """Return the truss that a roof brace crosses nearest its lower end."""
    return _by_height(site, piece)[0]


def top_truss(site: Site, piece: Restrained) -> str:
    """Return the truss that a roof brace crosses nearest its upper end."""
    return _by_height(site, piece)[-1]


def _by_height(site: Site, piece: Restrained) -> list[str]:
    """The trusses under a roof brace from its lower end up."""
    lines = site.job.rows[piece.row]
    foot = max((piece.start, piece.finish), key=lambda end: abs(end[1 - lines.along] - lines.ridge))
    tags = [tag for tag, _ in piece.crosses]
    return sorted(tags, key=lambda tag: abs(site.stood[tag].start[lines.along] - foot[lines.along]))


def _at_end(site: Site, piece: Restrained, end: Point) -> AtEnd:
    if _on_bearing(site, end):
        return "plate"
    if _at_ridge(site, piece, end):
        return "ridge"
    return "joined" if _goes_on(site, piece, end) else "loose"


def _goes_on(site: Site, piece: Restrained, end: Point) -> bool:
    """Whether another roof brace takes the line on from an end: from the upper one up, from the lower one down.

    Two feet that meet, or two tops, only pull at each other.
    """
    upper = end == _ends_by_height(site, piece)[1]
    others = (other for other in site.permanent if other.kind == "roof brace" and other is not piece)
    return any(math.dist(end, _ends_by_height(site, other)[0 if upper else 1]) <= JOINED for other in others)


def _at_ridge(site: Site, piece: Restrained, end: Point) -> bool:
    lines = site.job.rows[piece.row]
    return abs(end[1 - lines.along] - lines.ridge) <= AT_RIDGE


def _on_bearing(site: Site, at: Point) -> bool:
    """Whether a plan point is on a plate, or on a girder that stands."""
    x, y = at
    if any(
        low_x - PAST_PLATE <= x <= high_x + PAST_PLATE and low_y - PAST_PLATE <= y <= high_y + PAST_PLATE
        for low_x, low_y, high_x, high_y in site.job.plates
    ):
        return True
    standing = ((girder, site.at_place.get(girder.tag)) for girder in site.job.girders)
    return any(
        tag and _off_line(at, site.stood[tag].start, site.stood[tag].finish) <= girder.width / 2 + PAST_PLATE
        for girder, tag in standing
    )


def _off_line(at: Point, a: Point, b: Point) -> float:
    """Distance from a point to a segment, mm."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    t = max(0.0, min(1.0, ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / (dx * dx + dy * dy)))
    return math.hypot(at[0] - a[0] - t * dx, at[1] - a[1] - t * dy)


def sound(site: Site, piece: Restrained) -> bool:
    """Whether a piece does its work: a roof brace at a right angle, tied down, and fixed at its top."""
    if piece.kind != "roof brace":
        return True
    foot, top = _ends_by_height(site, piece)
    if not angle_is_right(site, piece) or _at_end(site, piece, foot) not in ("plate", "joined"):
        return False
    return _at_ridge(site, piece, top) or _at_end(site, piece, top) != "loose"


def unserved(site: Site, piece: Restraint, *, only_sound: bool) -> tuple[Want, ...]:
    """Return what a piece of the plan is wanted for that nothing serves, of the trusses that stand."""
    return _unserved(site, piece.wants, _runs(site, piece, only_sound=only_sound))


def _unserved(site: Site, wants: Iterable[Want], runs: Mapping[str, list[float]]) -> tuple[Want, ...]:
    return tuple(
        want
        for want in wants
        if want.tag in site.at_place and not want.served_by(runs.get(site.at_place[want.tag], []))
    )


def _runs(site: Site, piece: Restraint, *, only_sound: bool) -> Mapping[str, list[float]]:
    """Where along each truss what has been put in of the same kind in the same row crosses it."""
    return _runs_of(put_in for put_in in _like(site, piece) if not only_sound or sound(site, put_in))


def _runs_of(pieces: Iterable[Restrained]) -> dict[str, list[float]]:
    runs: dict[str, list[float]] = {}
    for piece in pieces:
        for tag, run in piece.crosses:
            runs.setdefault(tag, []).append(run)
    return runs


def _like(site: Site, piece: Restraint) -> Iterator[Restrained]:
    """What has been put in of the same kind in the same row."""
    return (put_in for put_in in site.permanent if put_in.kind == piece.kind and put_in.row == piece.row)


def runs_of(site: Site, kind: RestraintKind, tag: str) -> list[float]:
    """Return where along the standing truss ``tag`` pieces of a kind cross it, mm from its place's ``from``."""
    return [run for piece in site.permanent if piece.kind == kind for other, run in piece.crosses if other == tag]


Lean = tuple[Side, Literal[-1, 1]]
"""A slope of a row, and the way along the row that a roof brace rises there: to higher (1) or lower (-1) places."""


def leans(lines: RowLines, start: Point, finish: Point) -> Iterator[Lean]:
    """Yield how a roof brace between two plan points leans; one that goes over the ridge lies on both slopes."""
    low, high = sorted((start, finish), key=lambda end: abs(end[1 - lines.along] - lines.ridge), reverse=True)
    off, other = (end[1 - lines.along] - lines.ridge for end in (low, high))
    rises = high[lines.along] - low[lines.along]
    if rises:
        yield 1 if off < 0 else 2, 1 if rises > 0 else -1
        if abs(other) > AT_RIDGE and other * off < 0:
            yield 1 if other < 0 else 2, -1 if rises > 0 else 1


def leans_asked(site: Site, row: str) -> frozenset[Lean]:
    """Return which ways the plan's roof braces of a row lean."""
    lines = site.job.rows[row]
    plans = (plan for plan in site.job.restraints if (plan.kind, plan.row) == ("roof brace", row))
    return frozenset(chain.from_iterable(leans(lines, plan.start, plan.finish) for plan in plans))


def leans_in(site: Site, row: str, *, only_sound: bool) -> frozenset[Lean]:
    """Return which ways the roof braces lean that have been put in over a row."""
    return _leans_of(site, row, _roof_braces(site, row, only_sound=only_sound))


def _roof_braces(site: Site, row: str, *, only_sound: bool) -> list[Restrained]:
    """The roof braces that have been put in over a row."""
    put_in = (piece for piece in site.permanent if (piece.kind, piece.row) == ("roof brace", row))
    return [piece for piece in put_in if not only_sound or sound(site, piece)]


def _leans_of(site: Site, row: str, pieces: Iterable[Restrained]) -> frozenset[Lean]:
    lines = site.job.rows[row]
    return frozenset(chain.from_iterable(leans(lines, piece.start, piece.finish) for piece in pieces))


def is_in(site: Site, piece: Restraint) -> bool:
    """Whether a piece of the plan is in, or others in its stead."""
    over = {site.at_place.get(place) for place in piece.over}
    if None in over or not any(_like(site, piece)):
        return False
    as_planned = (
        put_in
        for put_in in _like(site, piece)
        if over <= {tag for tag, _ in put_in.crosses} and _lies_as(put_in, piece) and sound(site, put_in)
    )
    return any(as_planned) or (_leans_too(site, piece) and not unserved(site, piece, only_sound=True))


def _leans_too(site: Site, piece: Restraint) -> bool:
    """Whether something is in that leans as a roof brace of the plan does; other pieces lean no way."""
    if piece.kind != "roof brace":
        return True
    own = set(leans(site.job.rows[piece.row], piece.start, piece.finish))
    return own <= leans_in(site, piece.row, only_sound=True)


def _lies_as(put_in: Restrained, piece: Restraint) -> bool:
    """Whether a piece lies as planned, whichever way about."""
    ends = (piece.start, piece.finish)
    return any(max(math.dist(a, put_in.start), math.dist(b, put_in.finish)) <= LAPPED for a, b in (ends, ends[::-1]))


def held_for_good(site: Site, row: str) -> frozenset[str]:
    """Return the trusses of a row that permanent bracing holds: all crossed on every slope, or the whole row once done.

    A gable truss at its end, which no brace crosses, is held by its tie to the row, whenever it was stood.
    None before its braces lean every way that the plan's do, and none in a row for which no roof brace is planned.
    """
    braces = _roof_braces(site, row, only_sound=True)
    if not leans_asked(site, row) <= _leans_of(site, row, braces):
        return frozenset()
    wants = site.job.brace_wants.get(row, ())
    left = {want.tag for want in _unserved(site, wants, _runs_of(braces) if wants else {})}
    whole = bool(wants) and not left and all(want.tag in site.at_place for want in wants)
    crossed = [want.tag for want in wants if want.tag not in left]
    inside = [m.tag for m in site.job.rows[row].members if m.kind != "gable"]
    served = {*crossed, *inside} if whole else crossed
    return frozenset(site.at_place[place] for place in served if place in site.at_place)


def pulls_alone(before: Site, piece: Restrained) -> bool:
    """Whether nothing that was in before a roof brace leans the other way on its slope."""
    own = set(leans(before.job.rows[piece.row], piece.start, piece.finish))
    against: set[Lean] = {(side, -1 if way == 1 else 1) for side, way in own}
    return not against <= leans_in(before, piece.row, only_sound=True)


def locked(site: Site) -> frozenset[str]:
    """Return the standing trusses that roof braces hold as they stand, so that they can't be straightened."""
    return frozenset(over for piece in site.permanent if piece.kind == "roof brace" for over, _run in piece.crosses)


def loose_ends(site: Site, piece: Restrained) -> Iterator[str]:
    """Yield the trusses at which a tie along a row stops with nothing to hold its end.

    A tie is held at the first and the last truss of its row, at a wall, and where it laps on to another.
    """
    places = [m.tag for m in site.job.rows[piece.row].members]
    if piece.kind == "web tie":
        places = list(_webs_along(site, piece) or places)
    order = {tag: i for i, tag in enumerate(site.at_place[place] for place in places if place in site.at_place)}
    stops = sorted((order[tag], tag, run) for tag, run in piece.crosses if tag in order)
    for (here, tag, run), step in ((stops[0], -1), (stops[-1], 1)) if stops else ():
        at_last = here == (0 if step < 0 else len(order) - 1)
        if not at_last and not _at_wall(site, piece, step) and not _lapped(site, piece, order, (here, tag, run), step):
            yield tag


def _webs_along(site: Site, piece: Restrained) -> tuple[str, ...]:
    """The places whose long webs a web tie runs along: those of the line of webs that it lies nearest to."""
    across = 1 - site.job.rows[piece.row].along
    plans = [plan for plan in site.job.restraints if (plan.kind, plan.row) == (piece.kind, piece.row)]

    def off(plan: Restraint) -> float:
        return abs(plan.start[across] + plan.finish[across] - piece.start[across] - piece.finish[across])

    return min(plans, key=off).over if plans else ()


def _at_wall(site: Site, piece: Restrained, step: int) -> bool:
    """Whether the end of a tie towards higher (1) or lower (-1) places along its row lies at a wall."""
    along = site.job.rows[piece.row].along
    end = max((piece.start, piece.finish), key=lambda spot: spot[along] * step)
    inner = (
        _off_line(end, (float(a[0]), float(a[1])), (float(b[0]), float(b[1]))) <= LAPPED
        for wall in site.layout.house.plan.internal_walls
        for a, b in pairwise(wall)
    )
    return _on_bearing(site, end) or any(inner)


def _lapped(site: Site, piece: Restrained, order: dict[str, int], stop: tuple[int, str, float], step: int) -> bool:
    """Whether another tie takes over at the truss where this one stops, and runs on from there."""
    here, tag, run = stop
    for other in site.permanent:
        if other is piece or other.kind != piece.kind or other.row != piece.row:
            continue
        at = dict(other.crosses).get(tag)
        on = any((order.get(t, here) - here) * step > 0 for t, _ in other.crosses)
        if at is not None and abs(at - run) <= LAPPED and on:
            return True
    return False
