"""Timber that stands in the way: a truss can't be stood through another.

Bottom chords all lie on the plates, so that two trusses that cross in plan run through each other; but a saddle sits on
top of others. Ends meet at carriers, and extensions pass over: neither is in the way.
"""

from __future__ import annotations

import math

from trainer.layout.model import Member
from trainer.plan import Point
from trainer.site.model import Site, Stood

INTO = 200.0
"""So far from the ends of both, mm, is a crossing inside them: nearer, an end meets a carrier that is thick, or a
little aside."""
PRESSED = 15.0
"""Trusses side by side that share no more than this of their thickness touch, mm: nobody stands them finer."""
SIDE_BY_SIDE = 0.02
"""Two trusses that turn less than this from each other, as a sine, lie side by side."""


def in_the_way(site: Site, member: Member, start: Point, finish: Point) -> str | None:
    """Return the tag of a standing truss that ``member`` would run through; None where it would run through none."""
    if member.kind == "saddle":
        return None
    low = (min(start[0], finish[0]) - member.width, min(start[1], finish[1]) - member.width)
    high = (max(start[0], finish[0]) + member.width, max(start[1], finish[1]) + member.width)
    for tag, there in site.stood.items():
        (ax, ay), (bx, by) = there.start, there.finish
        if (
            (ax < low[0] and bx < low[0])
            or (ax > high[0] and bx > high[0])
            or (ay < low[1] and by < low[1])
            or (ay > high[1] and by > high[1])
        ):
            continue
        other = site.layout.by_tag[there.piece]
        if other.kind != "saddle" and _through(member, start, finish, other, there):
            return tag
    return None


def _through(member: Member, start: Point, finish: Point, other: Member, there: Stood) -> bool:
    ours, theirs = math.dist(start, finish), math.dist(there.start, there.finish)
    ux, uy = (finish[0] - start[0]) / ours, (finish[1] - start[1]) / ours
    vx, vy = (there.finish[0] - there.start[0]) / theirs, (there.finish[1] - there.start[1]) / theirs
    dx, dy = there.start[0] - start[0], there.start[1] - start[1]
    turn = ux * vy - uy * vx
    if abs(turn) < SIDE_BY_SIDE:
        along = dx * ux + dy * uy
        ends = sorted((along, along + theirs * (ux * vx + uy * vy)))
        shared = min(ends[1], ours) - max(ends[0], 0.0)
        aside = abs(dx * uy - dy * ux)
        return shared > INTO and aside < (member.width + other.width) / 2 - PRESSED
    on_ours, on_theirs = (dx * vy - dy * vx) / turn, (dx * uy - dy * ux) / turn
    return INTO < on_ours < ours - INTO and INTO < on_theirs < theirs - INTO
