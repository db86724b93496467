"""Gives a truss that is stood its place in the layout."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from trainer.layout.model import End, Member
from trainer.plan import Point
from trainer.site.model import Off, Site, Stood, changed
from trainer.site.place import Near, lies

CLEARLY = 30.0
"""How much nearer a truss must stand to a place than the one in it, to be given that place, mm."""
ALIKE = 0.5
"""Roof lines that differ by less are the same, mm."""


def take_place(site: Site, member: Member, start: Point, finish: Point, nears: Sequence[Near]) -> Stood:
    """Return ``member`` as it stands from ``start`` to ``finish``, in the free one of ``nears`` that it takes."""
    near = _choose(site, member, nears)
    place = site.layout.by_tag[near.tag] if near else None
    wanted = place or member
    flipped = near.flipped if near else lies(member, start, finish).flipped
    ends = (finish, start) if flipped else (start, finish)
    off = (_off(wanted, ends[0], wanted.start), _off(wanted, ends[1], wanted.finish))
    turned = flipped_matters(member, wanted, flipped)
    return Stood(member.tag, near.tag if near else None, start, finish, flipped, turned, off, member.tag)


def make_room(site: Site, nears: Sequence[Near]) -> Site:
    """Where a truss stood off its station took the place that belongs here, move it on to another, or to none."""
    for near in nears:
        tag = site.at_place.get(near.tag)
        if tag is None:
            continue
        there = site.stood[tag]
        if lies(site.layout.by_tag[near.tag], there.start, there.finish).distance <= near.distance + CLEARLY:
            continue
        # The place itself is kept from it while it looks for another.
        others = site.job.places.near(there.start, there.finish)
        found = take_place(site, site.layout.by_tag[there.piece], there.start, there.finish, others)
        moved = replace(found, tag=tag, turn=there.turn)
        at_place = {place: other for place, other in site.at_place.items() if place != near.tag}
        if moved.place:
            at_place[moved.place] = tag
        astray = site.astray if moved.place else site.astray | {tag}
        return changed(site, stood={**site.stood, tag: moved}, at_place=at_place, astray=astray)
    return site


def flipped_matters(member: Member, place: Member, flipped: bool) -> bool:
    """Whether ``member``, lying in ``place`` this way about, has its ends the wrong way round."""
    own = [_make(end) for end in member.ends]
    wanted = [_make(end) for end in place.ends]
    as_stood = own[::-1] if flipped else own
    if own[0] != own[1]:
        return as_stood != wanted and as_stood[::-1] == wanted
    return flipped and not same_both_ways(member)


def _choose(site: Site, member: Member, nears: Sequence[Near]) -> Near | None:
    """The nearest free place; among equals its own, then a like truss's."""
    by_tag = site.layout.by_tag

    def preference(near: Near) -> tuple[float, bool, bool, str]:
        return (round(near.distance), near.tag != member.tag, by_tag[near.tag].like != member.like, near.tag)

    return min((near for near in nears if near.tag not in site.at_place), key=preference, default=None)


def _make(end: End) -> tuple[bool, bool, float]:
    """How an end of a truss is made: for a plate, a ledger or another truss, and its tail."""
    return end.on_plate, end.on_ledger, end.tail


def same_both_ways(member: Member) -> bool:
    """Whether turning the truss end for end changes nothing: like ends and a roof line that mirrors itself."""
    if _make(member.ends[0]) != _make(member.ends[1]):
        return False
    mirrored = [(member.span - run, z) for run, z in reversed(member.top)]
    return len(mirrored) == len(member.top) and all(
        abs(a - b) <= ALIKE
        for here, there in zip(member.top, mirrored, strict=True)
        for a, b in zip(here, there, strict=True)
    )


def _off(place: Member, at: Point, wanted: Point) -> Off:
    dx, dy = at[0] - wanted[0], at[1] - wanted[1]
    ux, uy = place.direction
    return Off(round(dx * ux + dy * uy, 2), round(dy * ux - dx * uy, 2))
