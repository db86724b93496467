"""What holds what: from solid braces through battens to carriers and what is fastened on them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from trainer.order import TIED, needs_bracket
from trainer.site.model import How, Site, Stood
from trainer.site.query import bracketed


def restrain(site: Site, tags: frozenset[str]) -> Site:
    """Return the site with ``tags`` as all that permanent bracing holds, and what is held through them."""
    after = replace(site, restrained=tags)
    return replace(after, holds=holding(after, dict.fromkeys((t for t in site.stood if t in tags), "permanent")))


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
        waiting += [(other, "batten") for other in site.ties.get(tag, ()) if other not in holds]
        place = site.stood[tag].place
        for carried in site.layout.carries[place] if place else ():
            other = site.at_place.get(carried)
            if other is not None and other not in holds and fastened(site, other, holds):
                waiting.append((other, "fastened"))
    return holds


def fastened(site: Site, tag: str, holds: Mapping[str, How]) -> bool:
    """Whether ``tag`` is a truss that its own ends hold, on plates or on what is held."""
    place = site.stood[tag].place
    carriers = site.layout.by_tag[place].carried_by if place else ()
    return settled(site, tag) and all(site.at_place.get(carrier) in holds for carrier in carriers)


def settled(site: Site, tag: str) -> bool:
    """Whether ``tag`` is a truss that its ends hold up, and they do: both are fastened, or one is and the other can't
    slip, being in a bracket, on top of other trusses, or on the plate while its bracket holds it fast.
    """
    if site.layout.by_tag[tag].kind in TIED:
        return False
    if "fix" not in site.job.stages:
        return True
    loose = [end for end in (1, 2) if not site.fixed.get((tag, end))]
    return not loose or (len(loose) == 1 and _rests(site, site.stood[tag], loose[0]))


def _rests(site: Site, stood: Stood, own_end: int) -> bool:
    """Whether an end that is not fastened can't slip as long as the other is."""
    if stood.place is None:
        return False
    end = stood.own_end(own_end)
    member = site.layout.by_tag[stood.place]
    return not needs_bracket(member, end) or bracketed(site, stood.place, end)


def held_from_scratch(site: Site) -> dict[str, How]:
    """Work out again what is held, after something that held has gone."""
    kept: dict[str, How] = {
        t: how for t, how in site.holds.items() if how in ("put right", "given") and t in site.stood
    }
    for bracing in site.bracing:
        if bracing.kind == "solid":
            kept.update(dict.fromkeys(bracing.tags, "solid"))
    kept.update(dict.fromkeys((t for t in site.stood if t in site.restrained), "permanent"))
    bare = replace(site, holds={})
    holds = holding(bare, kept)
    while True:
        more: dict[str, How] = {t: "fastened" for t in site.stood if t not in holds and fastened(site, t, holds)}
        if not more:
            return holds
        holds = holding(replace(site, holds=holds), more)
