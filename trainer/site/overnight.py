"""The end of a day: hands leave every truss, and what was built so far has to stand by itself until morning.

A day ends after as many trusses as the level says, and the next one stood begins another. Common practice, no
source: nothing is left loose, and three or more of a row that are tied together can't rack. That takes a diagonal or a
steel brace in them, or two of them held solid (a truncated girder is steadied by its fastened hips), a finished hip
end, or their permanent roof bracing. Trusses that nothing ties together lean each by themselves: the far end of a row
steadies the near one no more than another row does.

``site: {day: N}`` has the night fall before the next truss after N; ``Event.night`` tells what it did. With ``wind:
strong`` a row that is not safe falls; it is put back braced. Rehearsals tie and secure every row towards evening
(:mod:`trainer.rehearse.days`), by ``{do: brace, kind: diagonal, tags: [ST4, ST5]}``, and hints ask for it; it is no
step of the order.
"""

from __future__ import annotations

from collections.abc import Iterator

from trainer.order import TIED
from trainer.site.bracing import ties_of
from trainer.site.falling import fallen, with_all_on
from trainer.site.holding import held_by_hip_ends, holding
from trainer.site.letting_go import let_go
from trainer.site.model import Bracing, Night, Site, changed
from trainer.site.query import permanently_held, standing_in_row

FEW = 3
"""Fewer trusses than this, tied together, stand by their own braces."""
AGAINST_RACKING = ("diagonal", "steel brace")


def over(site: Site) -> bool:
    """Whether the day is over: as many trusses were stood as the level's day takes."""
    day = site.job.conditions.day
    return day is not None and site.today >= day and "brace" in site.job.stages


def unsafe_rows(site: Site) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield (row, trusses of it that tip and are tied together) for all that could rack in a wind."""
    for row in site.layout.rows:
        tips = tuple(tag for tag in standing_in_row(site, row) if site.layout.by_tag[tag].kind in TIED)
        for tied in _tied_together(site, tips):
            if len(tied) >= FEW and not _steady(site, tied):
                yield row, tied


def _tied_together(site: Site, tags: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Yield the trusses of a row in the groups that ties make of them, each in order along it."""
    left = dict.fromkeys(tags)
    while left:
        waiting = [next(iter(left))]
        group = set()
        while waiting:
            tag = waiting.pop()
            if tag in left:
                del left[tag]
                group.add(tag)
                waiting += site.ties.get(tag, ())
        yield tuple(tag for tag in tags if tag in group)


def leave(site: Site) -> tuple[Site, Night]:
    """Leave the site for the night: the site in the morning, and what the night did.

    A strong wind takes a row that can rack: it lies there in the morning.
    """
    gone = (site.last,) if site.last is not None else ()
    # Where something was left loose, that is what went wrong there.
    unsafe = tuple((row, tags) for row, tags in unsafe_rows(site) if all(tag in site.holds for tag in tags))
    after, fell = let_go(site, gone)
    if site.job.conditions.wind == "strong":
        for row, tags in unsafe:
            down = tuple(tag for tag in with_all_on(after, tags) if tag not in fell)
            fell += down
            after = fallen(after, down, cause_of_night(site.nights + 1, row)) if down else after
            bracing = (*after.bracing, Bracing("diagonal", tags))
            after = changed(after, bracing=bracing, ties=ties_of(bracing))
            after = changed(after, holds=holding(after, dict.fromkeys(tags, "put right")))
    night = Night(site.nights + 1, site.job.conditions.wind, gone, unsafe, fell)
    return changed(after, last=None, today=0, nights=night.number), night


def cause_of_night(number: int, row: str) -> str:
    """Name what was left undone in a row one evening: each evening is a fresh chance to make it safe."""
    return f"night {number} {row}"


def _steady(site: Site, tags: tuple[str, ...]) -> bool:
    in_row = set(tags)
    if any(piece.kind in AGAINST_RACKING and len(in_row & set(piece.tags)) > 1 for piece in site.bracing):
        return True
    if any(permanently_held(site, tag) for tag in tags) or not in_row.isdisjoint(held_by_hip_ends(site)):
        return True
    return len(solid_of(site, tags)) > 1


def solid_of(site: Site, tags: tuple[str, ...]) -> list[str]:
    """Return those of the trusses that something solid holds each by itself: two of them keep a row from racking."""
    solid = {tag for piece in site.bracing if piece.solid for tag in piece.tags}
    return [
        tag for tag in tags if tag in solid or site.holds.get(tag) in ("given", "put right") or _steadied(site, tag)
    ]


def _steadied(site: Site, tag: str) -> bool:
    """Whether fastened hips steady a truncated girder."""
    place = site.stood[tag].place
    if place is None or site.layout.by_tag[place].kind != "truncated_girder":
        return False
    hips = [other for other in site.layout.carries[place] if site.layout.by_tag[other].kind == "hip"]
    return bool(hips) and all(site.at_place.get(hip) in site.holds for hip in hips)
