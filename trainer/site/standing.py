"""Standing a truss and taking it down again."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from trainer.layout.model import Member
from trainer.plan import Point
from trainer.plan.points import to_half
from trainer.site.actions import Remove, Stand
from trainer.site.bracing import TYING, ties_of
from trainer.site.doing import does
from trainer.site.holding import fastened, held_from_scratch, holding, with_hip_ends
from trainer.site.in_the_way import in_the_way
from trainer.site.letting_go import let_go, let_go_of_lost
from trainer.site.load_path import crossing_key
from trainer.site.model import Event, Refused, Site, Stood, changed
from trainer.site.overnight import leave, over
from trainer.site.place import Near
from trainer.site.placing import make_room, take_place
from trainer.site.refusals import not_standing, unknown_truss
from trainer.words import _, listed

STRETCH = 30.0
"""A truss is as long as it is; places given may differ from that by this much and still be meant, mm."""
REACH = 150.0
"""How far an end may be from the line of what it comes down on, mm: further off it is in mid-air."""


@does(Stand)
def stand(site: Site, index: int, action: Stand) -> tuple[Site, Event] | Refused:
    """Stand a truss; the one stood before it is let go. Where the day was over, the night comes first."""
    if refused := unknown_truss(site, action.tag):
        return refused
    if action.tag in site.stood:
        text = _("{tag} is standing already. To move it, take it down first.")
        return Refused(text.format(tag=action.tag))
    if any(flaw.what == "missing truss" and flaw.tag == action.tag for flaw in site.flaws):
        text = _("{tag} did not come with the load. Count the delivery, and report what is missing.")
        return Refused(text.format(tag=action.tag))
    member = piece_of(site, action.tag)
    start, finish = to_half(action.start), to_half(action.finish)
    nears = site.job.places.near(start, finish)
    if refused := _wrong_length(action.tag, member, start, finish) or _taken(site, member, start, finish, nears):
        return refused
    placed = make_room(site, nears)
    found = take_place(placed, member, start, finish, nears)
    if refused := _in_mid_air(site, found):
        return refused
    stood = replace(found, tag=action.tag, turn=site.turns.get(action.tag, 0))
    morning, night = leave(placed) if over(placed) and not stood.turn else (placed, None)
    after, event = _set_down(morning, index, action, stood)
    if night:
        event = replace(event, let_go=(*night.let_go, *event.let_go), fell=(*night.fell, *event.fell), night=night)
    return after, event


def piece_of(site: Site, tag: str) -> Member:
    """The truss that wears ``tag``: another where the tags of two were swapped."""
    for flaw in site.flaws:
        if flaw.what == "swapped tag" and tag in (flaw.tag, flaw.other):
            return site.layout.by_tag[flaw.other if tag == flaw.tag else flaw.tag]
    return site.layout.by_tag[tag]


def _set_down(site: Site, index: int, action: Stand, stood: Stood) -> tuple[Site, Event]:
    gone = (site.last,) if site.last is not None else ()
    before, fell = let_go(site, gone)
    after = changed(
        before,
        stood={**before.stood, stood.tag: stood},
        at_place={**before.at_place, stood.place: stood.tag} if stood.place else before.at_place,
        astray=before.astray if stood.place else before.astray | {stood.tag},
        last=stood.tag,
        turns={**before.turns, stood.tag: stood.turn + 1},
        today=before.today + (stood.turn == 0),
        fell={tag: fall for tag, fall in before.fell.items() if tag != stood.tag} if before.fell else before.fell,
    )
    if "brace" not in site.job.stages:
        after = changed(after, holds=holding(after, {stood.tag: "given"}))
    elif fastened(after, stood.tag, after.holds):  # on a level without the fixing
        after = changed(after, holds=holding(after, {stood.tag: "fastened"}))
    if "fix" not in site.job.stages:
        after = with_hip_ends(after, stood.tag)
    return after, Event(index, action, gone, fell)


@does(Remove)
def remove(site: Site, index: int, action: Remove) -> tuple[Site, Event] | Refused:
    """Take a truss down; what only it held is let go."""
    if refused := not_standing(site, action.tag):
        return refused
    place = site.stood[action.tag].place
    if place and (on_it := [site.at_place[tag] for tag in site.layout.carries[place] if tag in site.at_place]):
        text = _("{tag} carries {others}. Take that down first.")
        return Refused(text.format(tag=action.tag, others=listed(on_it)))
    bare = without(site, action.tag)
    return let_go_of_lost(site, changed(bare, holds=held_from_scratch(bare)), index, action)


def without(site: Site, tag: str) -> Site:
    """The site with the truss gone, and its fixings and braces with it; parts fitted to it stay on it."""
    crossings = site.job.crossings.get(site.stood[tag].place or "", ())
    under = {crossing_key(site, crossing) for crossing in crossings}
    bracing = []
    for piece in site.bracing:
        tags = tuple(other for other in piece.tags if other != tag)
        if len(tags) > (piece.kind in TYING):
            bracing.append(replace(piece, tags=tags))
    return changed(
        site,
        stood={other: stood for other, stood in site.stood.items() if other != tag},
        at_place={place: other for place, other in site.at_place.items() if other != tag},
        astray=site.astray - {tag},
        bracing=tuple(bracing),
        ties=ties_of(bracing),
        untied=frozenset(pair for pair in site.untied if tag not in pair),
        fixed={key: how for key, how in site.fixed.items() if key[0] != tag and key not in under},
        holds={other: how for other, how in site.holds.items() if other != tag},
        last=None if site.last == tag else site.last,
        strings=tuple(ends for ends in site.strings if tag not in ends),
        plumbed={other: trued for other, trued in site.plumbed.items() if other != tag},
        permanent=tuple(piece.without(tag) for piece in site.permanent),
        restrained=site.restrained - {tag},
        inspected={other: accepted for other, accepted in site.inspected.items() if other != tag},
    )


def _wrong_length(tag: str, member: Member, start: Point, finish: Point) -> Refused | None:
    length = math.dist(start, finish)
    if abs(length - member.span) <= STRETCH:
        return None
    text = _("{tag} is {long:.0f} mm long. These two places are {apart:.0f} mm apart. Check both ends.")
    return Refused(text.format(tag=tag, long=member.span, apart=length))


def _taken(site: Site, member: Member, start: Point, finish: Point, nears: Sequence[Near]) -> Refused | None:
    """Refuse a place inside another truss, or through one."""
    near = (site.at_place[n.tag] for n in nears if n.tag in site.at_place)
    for tag in (*near, *site.astray):
        there = site.stood[tag]
        apart = min(
            max(math.dist(start, there.start), math.dist(finish, there.finish)),
            max(math.dist(start, there.finish), math.dist(finish, there.start)),
        )
        if apart < (member.width + site.layout.by_tag[tag].width) / 2:
            text = _("{other} stands there already. Take it down first, or stand {tag} elsewhere.")
            return Refused(text.format(other=tag, tag=member.tag))
    if other := in_the_way(site, member, start, finish):
        text = _("{tag} would run through {other}, which stands there. Stand it clear, or take that down first.")
        return Refused(text.format(tag=member.tag, other=other))
    return None


def _in_mid_air(site: Site, stood: Stood) -> Refused | None:
    """Refuse an end that nothing is under, now or in the finished house: nobody could set it down."""
    if stood.place and all(abs(off.along) <= REACH for off in stood.off):
        return None
    for end, at in ((1, stood.start), (2, stood.finish)):
        if not site.job.ground.under(at, stood.tag, REACH):
            text = _("End {end} of {tag} would hang in mid-air. Put it on a plate or on a truss that carries it.")
            return Refused(text.format(end=end, tag=stood.tag))
    return None
