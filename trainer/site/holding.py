"""What holds what: from solid braces through battens to carriers and what is fastened on them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from trainer.order import TIED
from trainer.site.model import How, Site


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
    """Whether ``tag`` is a truss that its ends hold up, and both are fastened to plates or to what is held."""
    stood = site.stood[tag]
    if site.layout.by_tag[tag].kind in TIED:
        return False
    if "fix" in site.job.stages and not all(site.fixed.get((tag, end)) for end in (1, 2)):
        return False
    carriers = site.layout.by_tag[stood.place].carried_by if stood.place else ()
    return all(site.at_place.get(carrier) in holds for carrier in carriers)


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
