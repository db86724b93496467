"""What one hand goes on with from one thing to the next like it: a run of trusses, straps on both slopes,
readings before an inspection.

As in :mod:`trainer.session.hands` each is the single actions of a diary, and nothing here knows what is right: a run
that began wrong goes on wrong.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from trainer.layout import Member
from trainer.order import needs_bracket
from trainer.order.inspection import READINGS, sample
from trainer.plan import Point
from trainer.plan.points import to_half
from trainer.session.hands import hold_it
from trainer.site import Refused, act
from trainer.site.actions import AnyAction, Fit, Measure, Restrain, Stand
from trainer.site.model import Site
from trainer.site.query import bracketed

ON_MARK = 100.0
"""An end this near a mark stands on it, mm: half a truss's thickness where marks are for its face, and a mistake."""
FURTHEST = 1.5
"""A run ends where the next mark is further on than this part of the spacing."""
SAME_END = 150.0
"""Ends of two straps this near each other are one place, mm."""


def stand_run(site: Site, stand: Stand, with_: str) -> tuple[AnyAction, ...]:
    """Stand, fix and tie a truss; then the next numbers of its kind and length on the next marks, turned as it is.

    It ends where no mark or no such truss is next, where something stands, and where an end has no free bracket.
    """
    wall = site.layout.house.plan.by_name
    found: list[AnyAction] = []
    step: tuple[float, float] | None = None
    on = _mark_under(site, stand)
    following: Stand | None = stand
    while following is not None:
        acts = hold_it(site, following, with_)
        after = site
        for action in acts:
            result = act(after, after.done, action)
            if isinstance(result, Refused):
                return tuple(found) or acts
            after = result[0]
        found += acts
        site, member = after, site.layout.by_tag[following.tag]
        if on is None:
            break
        name, at = on
        step = step or _way(site, name, at, following)
        next_at = _next_mark(site, name, at, step) if step else None
        tag = _next_tag(site, member)
        if step is None or next_at is None or not tag:
            break
        (ax, ay), by = wall[name].along, next_at - at
        ends = [to_half((x + ax * by, y + ay * by)) for x, y in (following.start, following.finish)]
        following, on = Stand(tag=tag, start=ends[0], finish=ends[1]), (name, next_at)
        if _stands_at(site, ends[0], ends[1]) or not _brackets_free(site, following):
            break
    return tuple(found)


def _mark_under(site: Site, stand: Stand) -> tuple[str, float] | None:
    """The wall and the mark on it that an end of a truss stands on."""
    for end in (stand.start, stand.finish):
        for wall in site.layout.house.plan.walls:
            for mark in site.set_out.get(wall.name, ()):
                if math.dist(wall.at(mark.at), end) <= ON_MARK:
                    return wall.name, mark.at
    return None


def _way(site: Site, name: str, at: float, stand: Stand) -> tuple[float, float]:
    """Which way along a wall a run goes: away from what stands beside, or else from the nearer corner."""
    wall = site.layout.house.plan.by_name[name]
    spacing = site.layout.house.trusses.spacing
    taken = []
    for way in (-1.0, 1.0):
        next_at = _next_mark(site, name, at, (way, spacing))
        by = 0.0 if next_at is None else next_at - at
        (ax, ay) = wall.along
        a, b = ((x + ax * by, y + ay * by) for x, y in (stand.start, stand.finish))
        taken.append(next_at is None or _stands_at(site, a, b))
    if taken[0] != taken[1]:
        return (1.0 if taken[0] else -1.0, spacing)
    return (1.0 if at <= wall.length / 2 else -1.0, spacing)


def _next_mark(site: Site, name: str, at: float, step: tuple[float, float]) -> float | None:
    way, spacing = step
    ahead = [mark.at for mark in site.set_out.get(name, ()) if 1.0 < (mark.at - at) * way <= FURTHEST * spacing]
    return min(ahead, key=lambda each: abs(each - at), default=None)


def _next_tag(site: Site, member: Member) -> str:
    """The next number of the same kind, where it waits and is as long."""
    letters = member.tag.rstrip("0123456789")
    tag = f"{letters}{int(member.tag[len(letters) :]) + 1}"
    other = site.layout.by_tag.get(tag)
    same = other is not None and other.kind == member.kind and abs(other.span - member.span) <= 1.0
    return tag if same and tag not in site.stood else ""


def _stands_at(site: Site, a: Point, b: Point) -> bool:
    """Whether a truss stands from ``a`` to ``b``, either way about."""
    return any(
        min(math.dist(a, one.start) + math.dist(b, one.finish), math.dist(a, one.finish) + math.dist(b, one.start))
        <= 2 * ON_MARK
        for one in site.stood.values()
    )


def _brackets_free(site: Site, stand: Stand) -> bool:
    """Whether every end that is to hang finds a bracket that nothing hangs in."""
    member = site.layout.by_tag[stand.tag]
    return all(bracketed(site, member.tag, end) for end in (1, 2) if needs_bracket(member, end))


def straps_alike(site: Site, one: Restrain) -> tuple[Restrain, ...]:
    """Put in a roof brace, and the same on the other slope and the other way about, as far as they are not in yet."""
    result = act(site, site.done, one)
    if one.kind != "roof brace" or isinstance(result, Refused):
        return (one,)
    lines = site.job.rows[result[0].permanent[-1].row]
    stations = [lines.u(member) for member in lines.at_ridge]
    if not stations:
        return (one,)
    middle, along = (min(stations) + max(stations)) / 2, lines.along

    def mirrored(place: Point, *, back: bool, over: bool) -> Point:
        u, v = place[along], place[1 - along]
        u, v = (2 * middle - u if back else u), (2 * lines.ridge - v if over else v)
        return to_half((u, v) if along == 0 else (v, u))

    slopes = (False, True) if lines.face is None else (False,)
    found = [one]
    for over in slopes:
        for back in (False, True):
            a, b = (mirrored(place, back=back, over=over) for place in (one.start, one.finish))
            there = (*((piece.start, piece.finish) for piece in site.permanent), *((f.start, f.finish) for f in found))
            if not any(_same_line((a, b), ends) for ends in there):
                found.append(one.model_copy(update={"start": a, "finish": b}))
    return tuple(found)


def _same_line(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    (a, b), both = one, (other, other[::-1])
    return any(math.dist(a, p) <= SAME_END and math.dist(b, q) <= SAME_END for p, q in both)


def go_round(site: Site, one: Measure) -> tuple[Measure, ...]:
    """Read plumb and bow of a truss, and of every other that is to be inspected and was not read yet."""
    if one.what not in READINGS.values() or one.tag is None:
        return (one,)
    others = [site.at_place[place] for place in sample(site.layout) if place in site.at_place]
    return tuple(_readings(site, dict.fromkeys((one.tag, *others)), one))


def _readings(site: Site, tags: dict[str, None], one: Measure) -> Iterator[Measure]:
    for tag in tags:
        for what in sorted(READINGS.values(), key=lambda each: each != one.what):
            if tag == one.tag or not site.readings.get((what, tag)):
                yield one.model_copy(update={"what": what, "tag": tag})


def parts_alike(site: Site, one: Fit) -> tuple[Fit, ...]:
    """Fit a part that goes on a truss as a whole, and the same on every truss of its kind that stands, or waits, as it
    does and has none.
    """
    kind, stands = site.layout.by_tag[one.on].kind, one.on in site.stood
    others = (
        member.tag
        for member in site.layout.members
        if member.kind == kind and member.tag != one.on and (member.tag in site.stood) == stands
        and not any(part.part == one.part for part in site.fitted.get(member.tag, ()))
    )  # fmt: skip
    return (one, *(one.model_copy(update={"on": tag}) for tag in others))
