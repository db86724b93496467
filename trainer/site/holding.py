"""What holds what: from solid braces through battens to carriers and what is fastened on them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from trainer.layout.hip_ends import HipEndTags
from trainer.order import TIED, is_tied
from trainer.plan.points import middle
from trainer.site.job import BAY
from trainer.site.load_path import crossed, ends_fixed
from trainer.site.model import How, Site, Stood, changed

SOLID = ("solid", "wall tie")
"""Kinds of brace to something that can't move."""
ASKEW = 0.2
"""Trusses whose lines part by less than this, as a sine, stand side by side, one of them a little askew at most. A row
is square to what hangs on it, so no truss is nearly so."""


def restrain(site: Site, tags: frozenset[str]) -> Site:
    """Return the site with ``tags`` as all that permanent bracing holds, and what is held through them."""
    after = changed(site, restrained=tags)
    return changed(after, holds=holding(after, dict.fromkeys((t for t in site.stood if t in tags), "permanent")))


def holding(site: Site, newly: Mapping[str, How]) -> dict[str, How]:
    """Return ``site.holds`` with the trusses ``newly`` held, and all that are held through them.

    Work grows with what becomes held, not with the house.
    """
    holds = dict(site.holds)
    waiting = [(tag, how) for tag, how in newly.items() if tag not in holds]
    while waiting:
        tag, how = waiting.pop()
        if tag in holds:
            continue
        holds[tag] = how
        waiting += tied_to(site, tag, holds)
        place = site.stood[tag].place
        for carried in site.layout.carries[place] if place else ():
            other_there = site.at_place.get(carried)
            if other_there is not None and other_there not in holds and fastened(site, other_there, holds):
                waiting.append((other_there, "fastened"))
    return holds


def tied_to(site: Site, tag: str, holds: Mapping[str, How]) -> Iterator[tuple[str, How]]:
    """Yield the trusses that are held through their ties to ``tag``, which is held, and how."""
    for other in site.ties.get(tag, ()):
        if other not in holds and one_bay(site, tag, other):
            if site.layout.by_tag[other].kind in TIED:
                yield other, "batten"
            elif fastened(site, other, holds):
                yield other, "fastened"


def fastened(site: Site, tag: str, holds: Mapping[str, How]) -> bool:
    """Whether ``tag`` is a truss that its own ends hold, on plates or on what is held; a tall saddle is tied too."""
    if site.layout.by_tag[tag].kind in TIED or not ends_fixed(site, tag):
        return False
    place = site.stood[tag].place
    carriers = site.layout.by_tag[place].carried_by if place else ()
    return all(site.at_place.get(carrier) in holds for carrier in carriers) and apex_tied(site, tag, holds)


def wall_tied(site: Site, tag: str) -> bool:
    """Whether the top of a standing truss is tied to the higher wall beside it; most stand at none."""
    if (site.stood[tag].place or tag) not in site.layout.at_wall or "brace" not in site.job.stages:
        return True
    return any(piece.kind == "wall tie" and tag in piece.tags for piece in site.bracing)


def apex_tied(site: Site, tag: str, holds: Mapping[str, How]) -> bool:
    """Whether a saddle needs no tie at its apex, or is tied to a neighbour that is held."""
    member = site.layout.by_tag[tag]
    if member.kind != "saddle" or "brace" not in site.job.stages or not is_tied(member):
        return True
    return any(other in holds and one_bay(site, tag, other) for other in site.ties.get(tag, ()))


def one_bay(site: Site, tag: str, other: str) -> bool:
    """Whether two standing trusses run side by side, no further apart than neighbours are, with no place between.

    A truss that hangs on a girder, square to it, holds only its bottom chord. A tie across the place of a truss that
    is still to come, or has gone, is no tie to a neighbour.
    """
    one, two = site.stood[tag], site.stood[other]
    if one.place and two.place and not _next_to(site, one.place, two.place):
        return False
    apart = _side_by_side(one, two)
    return apart is not None and apart <= BAY * site.layout.house.trusses.spacing


def _next_to(site: Site, one: str, other: str) -> bool:
    """Whether nothing stands between two places in the finished house; of saddles nothing is said."""
    beside = site.job.next_places
    return one not in beside or other not in beside or other in beside[one]


def gap(one: Stood, other: Stood) -> float:
    """How far apart two trusses are, mm: square across where they run side by side.

    Else the least from an end or the middle of one to those of the other.
    """
    apart = _side_by_side(one, other)
    if apart is not None:
        return apart
    return min(
        math.dist(p, q)
        for p in (one.start, one.finish, middle(one.start, one.finish))
        for q in (other.start, other.finish, middle(other.start, other.finish))
    )


def _side_by_side(one: Stood, other: Stood) -> float | None:
    """How far apart two trusses are that run side by side, mm, midway between the ends of the other; none where they
    do not.
    """
    (ax, ay), (bx, by) = one.start, one.finish
    (cx, cy), (dx, dy) = other.start, other.finish
    ours, theirs = math.dist(one.start, one.finish), math.dist(other.start, other.finish)
    ux, uy = (bx - ax) / ours, (by - ay) / ours
    if abs(ux * (dy - cy) - uy * (dx - cx)) > ASKEW * theirs:
        return None
    low, high = sorted(((cx - ax) * ux + (cy - ay) * uy, (dx - ax) * ux + (dy - ay) * uy))
    mx, my = middle(other.start, other.finish)
    return abs(ux * (my - ay) - uy * (mx - ax)) if min(high, ours) > max(low, 0.0) else None


def held_by_hip_ends(site: Site, of: str | None = None) -> Iterator[str]:
    """Yield the standing trusses that finished hip ends hold; ``of`` asks for those alone that its place is part of.

    Hips, jacks and creepers run from the truncated girder down to the plates on three sides: with all of them fixed at
    both ends it can't tip. Nor can a truncated truss where every extension of that hip end is fixed that crosses it, or
    a dutch gable's girder where every one is fixed to its waling plate: what hangs on it alone holds its bottom chord.
    Trade brief, "Must": "something solid (… a finished hip end)"; common practice, no source.
    """
    for end in site.job.hip_ends:
        if (of is None or of in end.members or of in end.over) and _finished(site, end):
            if end.girder not in end.over and (girder := site.at_place.get(end.girder)):
                yield girder
            for place, crossings in end.over.items():
                fixed = "fix" not in site.job.stages or all(crossed(site, crossing) for crossing in crossings)
                if fixed and (tag := site.at_place.get(place)):
                    yield tag


def _finished(site: Site, end: HipEndTags) -> bool:
    """Whether all that runs from a truncated girder down to the plates stands, fixed at both ends."""
    return all((tag := site.at_place.get(place)) is not None and ends_fixed(site, tag) for place in end.members)


def held_by_own(site: Site) -> dict[str, How]:
    """Work out what is held by what is there: a path from its top to something solid. What others only put right after
    it was let go unheld is not in it.
    """
    given: dict[str, How] = {tag: how for tag, how in site.holds.items() if how == "given"}
    return held_from_scratch(changed(site, holds=given))


def with_hip_ends(site: Site, tag: str) -> Site:
    """Return the site with all that is held now that ``tag`` was stood or fixed, which may finish a hip end."""
    place = site.stood[tag].place
    if place is None or "brace" not in site.job.stages:
        return site
    newly: dict[str, How] = {t: "hip end" for t in held_by_hip_ends(site, place) if t not in site.holds}
    return changed(site, holds=holding(site, newly)) if newly else site


def held_from_scratch(site: Site, hip_ends: bool = True) -> dict[str, How]:
    """Work out again what is held, after something that held has gone; ``hip_ends`` counts finished ones as solid."""
    kept: dict[str, How] = {
        t: how for t, how in site.holds.items() if how in ("put right", "given") and t in site.stood
    }
    for bracing in site.bracing:
        if bracing.solid:
            kept.update(dict.fromkeys(bracing.tags, "solid"))
    kept.update(dict.fromkeys((t for t in site.stood if t in site.restrained), "permanent"))
    if hip_ends:
        kept.update(dict.fromkeys(held_by_hip_ends(site), "hip end"))
    bare = changed(site, holds={})
    holds = holding(bare, kept)
    while True:
        more: dict[str, How] = {t: "fastened" for t in site.stood if t not in holds and fastened(site, t, holds)}
        if not more:
            return holds
        holds = holding(changed(site, holds=holds), more)
